"""Quantities and lots of kitchens at random add up, whatever the file asks for."""

import copy
import datetime as dt
import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.check.quantities import check_quantities
from planner.kitchen.document import Kitchen
from planner.lots.build import workload_of
from planner.plan import Plan
from planner.quantities.compute import kitchenry, quantities_of
from tests.kitchens.plans import tiny_plan
from tests.kitchens.tiny import tiny_kitchen

File = dict[str, Any]
DEMO = json.loads(
    (Path(__file__).parents[2] / "seed_data" / "demo.json").read_text(encoding="utf-8")
)


def unscheduled(kitchen: Kitchen, date: dt.date, *, pooled: bool = True) -> Plan:
    """Quantities and lots of a day; what the schedule would add is left as in the tiny plan."""
    kit = kitchenry(kitchen, date)
    demands, quantities = quantities_of(kit)
    workload = workload_of(kit, demands, quantities, pooled=pooled)
    return replace(
        tiny_plan(), date=date, demands=demands, quantities=quantities, workload=workload
    )


def _covers(draw: st.DrawFn, file: File) -> None:
    draw(st.sampled_from(file["services"]))["covers"] = draw(st.sampled_from((17, 60, 150, 400)))


def _par(draw: st.DrawFn, file: File) -> None:
    draw(st.sampled_from(file["components"]))["par"] = draw(st.sampled_from(("300 g", "12.5 kg")))


def _batch(draw: st.DrawFn, file: File) -> None:
    component = draw(st.sampled_from(file["components"]))
    component["batch_minimum"] = draw(st.sampled_from(("1 kg", "4 kg")))
    component["batch_multiple"] = draw(st.sampled_from(("700 g", "3 kg")))


def _prepared(draw: st.DrawFn, file: File) -> None:
    """Stock, finished or part-made, in date or not."""
    component = draw(st.sampled_from(file["components"]))
    as_of = dt.date.fromisoformat(file["as_of"])
    entry = {
        "item": component["id"],
        "amount": draw(st.sampled_from(("100 g", "3 kg"))),
        "made": file["as_of"],
        "use_by": str(as_of + dt.timedelta(days=draw(st.integers(-1, 2)))),
    }
    steps = len(component["route"])
    if steps > 1 and draw(st.booleans()):
        entry["after_step"] = draw(st.integers(1, steps - 1))
    file["prepared"].append(entry)


def _no_raw(draw: st.DrawFn, file: File) -> None:
    if file["raw_stock"]:
        file["raw_stock"].remove(draw(st.sampled_from(file["raw_stock"])))


def _missing(draw: st.DrawFn, file: File) -> None:
    draw(st.sampled_from(file["deliveries"]))["state"] = "missing"


def _fraction(draw: st.DrawFn, file: File) -> None:
    component = draw(st.sampled_from([c for c in file["components"] if "makes" not in c]))
    step = draw(st.sampled_from(component["route"]))
    step["fraction"] = {"fraction": draw(st.sampled_from((0.3, 0.77, 1.0, 2.5)))}


def _limit(draw: st.DrawFn, file: File) -> None:
    operation = draw(st.sampled_from(file["operations"]))
    operation["lot_limit"] = draw(st.sampled_from(("400 g", "2 kg")))


CHANGES: tuple[Callable[[st.DrawFn, File], None], ...] = (
    _covers,
    _par,
    _batch,
    _prepared,
    _no_raw,
    _missing,
    _fraction,
    _limit,
)


@st.composite
def varied(draw: st.DrawFn, file: File) -> Kitchen:
    """The kitchen of ``file`` with one to five things changed."""
    changed = copy.deepcopy(file)
    for change in draw(st.lists(st.sampled_from(CHANGES), min_size=1, max_size=5)):
        change(draw, changed)
    return Kitchen.model_validate(changed)


@given(varied(tiny_kitchen()), st.booleans())
@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
def test_a_tiny_kitchen_adds_up(kitchen: Kitchen, pooled: bool) -> None:
    assert check_quantities(kitchen, unscheduled(kitchen, kitchen.as_of, pooled=pooled)) == ()


@given(varied(DEMO))
@settings(max_examples=20, deadline=None, suppress_health_check=list(HealthCheck))
def test_a_hotel_kitchen_adds_up(kitchen: Kitchen) -> None:
    assert check_quantities(kitchen, unscheduled(kitchen, kitchen.as_of)) == ()


def started_the_day_before() -> Kitchen:
    """Dinner is tomorrow: thighs are brined today, and roasted tomorrow at 0.75."""
    file = tiny_kitchen()
    tomorrow = str(dt.date.fromisoformat(file["as_of"]) + dt.timedelta(days=1))
    file["services"][0]["date"] = tomorrow
    file["operations"].append(
        {"id": "brine", "name": "Brine", "station": "board", "skill": "knife", "minutes_per": 1,
         "unattended_minutes": 720}
    )  # fmt: skip
    thighs = next(c for c in file["components"] if c["id"] == "roast_thigh")
    thighs["route"].insert(0, {"operation": "brine"})
    return Kitchen.model_validate(file)


def test_what_starts_today_allows_for_what_is_lost_tomorrow() -> None:
    kitchen = started_the_day_before()
    plan = unscheduled(kitchen, kitchen.as_of)
    brined = [lot for lot in plan.workload.lots if lot.operation == "brine"]
    assert brined
    assert check_quantities(kitchen, plan) == ()


def test_trim_can_stand_in_for_all_of_an_input() -> None:
    """Six kilos of ends on hand: no diced onion is wanted for the stock, nor by any dish."""
    file = tiny_kitchen()
    file["raw_stock"].append({"item": "onion_ends", "amount": "6 kg", "received": file["as_of"]})
    for dish in file["dishes"]:
        dish["components"] = [c for c in dish["components"] if c["item"] != "diced_onion"]
    kitchen = Kitchen.model_validate(file)
    assert check_quantities(kitchen, unscheduled(kitchen, kitchen.as_of)) == ()
