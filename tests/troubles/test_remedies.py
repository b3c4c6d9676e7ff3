"""Each suggestion was planned again; here each is put into the kitchen's file and planned anew."""

from typing import Any

import pytest

from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan, Remedy
from planner.schedule.search import SearchOptions
from planner.troubles import remedies
from planner.troubles.change import Change
from planner.troubles.left import Left
from tests.kitchens.bench import (
    DATE,
    File,
    bench,
    cook,
    cut_from,
    delivery,
    dish,
    food,
    raw,
    read,
    service,
    stock,
    work,
)

QUICK = PlanOptions(deterministic_limit=0.1, workers=1, remedy_seconds=0.1)


def plan_of(file: File) -> Plan:
    return plan_morning(read(file), DATE, QUICK)


def kitchen(operation: File | None = None, *, closes: str = "12:00", **parts: Any) -> File:
    """Six kilos of ham, an hour of cutting from 08:00, for 08:40."""
    cut = operation or work("cut", lot_limit="1 kg")
    brunch = service("brunch", {"plate": 1.0}, 60, opens="08:40", closes=closes)
    return bench(
        ingredients=[food("pork")],
        operations=[cut],
        components=[cut_from("pork", "ham", cut["id"])],
        dishes=[dish("plate", {"ham": "100 g"})],
        services=[brunch],
        **parts,
    )


def texts(plan: Plan) -> list[str]:
    return [remedy.text for remedy in plan.remedies]


def named(plan: Plan, text: str) -> Remedy:
    (found,) = (remedy for remedy in plan.remedies if text in remedy.text)
    return found


OVER_FULL = {
    "late": kitchen(),
    "short": kitchen(closes="08:50"),
    "missing": kitchen(raw_stock=[raw("pork", "5 kg")]),
}


@pytest.mark.parametrize("file", OVER_FULL.values(), ids=OVER_FULL)
def test_a_remedy_that_claims_to_solve_leaves_nothing_late_or_short(file: File) -> None:
    plan = plan_of(file)
    assert plan.remedies
    for remedy in plan.remedies:
        nothing_left = (remedy.late_minutes, remedy.short_portions) == (0, 0)
        assert remedy.solves == nothing_left


@pytest.mark.parametrize("file", OVER_FULL.values(), ids=OVER_FULL)
def test_every_remedy_helps_and_those_that_solve_come_first(file: File) -> None:
    plan = plan_of(file)
    late = sum(
        max(0, a.end - due)
        for a in plan.solution.timetable.assignments
        if (due := plan.workload.problem.tasks[a.task].due) is not None
    )
    short = sum(trouble.portions for trouble in plan.short)
    for remedy in plan.remedies:
        assert (remedy.short_portions, remedy.late_minutes) < (short, late)
    solving = [remedy.solves for remedy in plan.remedies]
    assert solving == sorted(solving, reverse=True)


def test_a_morning_without_troubles_needs_no_remedy() -> None:
    assert plan_of(kitchen(cooks=[cook("ana"), cook("ben")])).remedies == ()


def test_the_least_extra_hands_that_solve_are_enough_and_no_less_would_be() -> None:
    """60 minutes of work, 40 of Ana's: somebody for half an hour, so the file agrees."""
    assert named(plan_of(kitchen()), "more minutes").text == (
        "30 more minutes of a cook's hands from 08:00"
    )
    helped = [cook("ana"), cook("zoe", "08:00", "08:30")]
    assert plan_of(kitchen(cooks=helped)).troubles == ()
    barely = [cook("ana"), cook("zoe", "08:00", "08:10")]
    assert plan_of(kitchen(cooks=barely)).troubles != ()


def test_what_is_made_the_day_before_is_not_made_today() -> None:
    remedy = named(plan_of(kitchen()), "make Ham the day before")
    assert remedy.solves
    assert plan_of(kitchen(prepared=[stock("ham", "6 kg")])).troubles == ()


@pytest.mark.parametrize("fields", [{"shelf_life_days": 1}, {"fresh_hours": 2}])
def test_food_that_does_not_keep_is_not_made_the_day_before(fields: File) -> None:
    file = kitchen()
    file["components"][0] |= fields
    assert not any("day before" in text for text in texts(plan_of(file)))


@pytest.mark.parametrize("arrives", ["today", "never"])
def test_food_that_was_not_there_is_not_made_the_day_before(arrives: str) -> None:
    deliveries = [delivery("pork", "9 kg", "08:05")] if arrives == "today" else []
    plan = plan_of(kitchen(raw_stock=[], deliveries=deliveries))
    assert plan.troubles
    assert not any("day before" in text for text in texts(plan))


def test_raw_food_that_is_missing_is_to_be_got() -> None:
    """A kilo is missing: on hand, it leaves the morning as late as six kilos are."""
    file = kitchen(raw_stock=[raw("pork", "5 kg")], cooks=[cook("ana"), cook("ben")])
    plan = plan_of(file)
    assert sum(trouble.portions for trouble in plan.short) == 10
    remedy = named(plan, "get what is missing (1.00 kg of Pork)")
    assert remedy.solves
    assert plan_of(file | {"raw_stock": [raw("pork", "6 kg")]}).troubles == ()


def one_oven(ovens: int) -> File:
    """Two trays an hour each, both due at 09:15; Ana has next to nothing to do."""
    roast = work(
        "roast",
        minutes_per=0,
        each_lot_minutes=1,
        unattended_minutes=59,
        finish_minutes=1,
        lot_limit="3 kg",
        equipment=[{"equipment": "oven"}],
    )
    file = kitchen(roast, equipment=[{"id": "oven", "name": "Oven", "count": ovens}])
    file["services"][0]["opens"] = "09:15"
    file["components"][0]["shelf_life_days"] = 1
    return file


def test_one_more_of_what_binds_solves_it() -> None:
    plan = plan_of(one_oven(1))
    assert [trouble.binding for trouble in plan.troubles] == ["Oven in use"]
    assert named(plan, "one more oven").solves
    assert plan_of(one_oven(2)).troubles == ()


def test_one_more_of_what_leaves_food_short_solves_it() -> None:
    """Until a quarter past nine there is time for one tray of the two, while Ana is idle."""
    file = one_oven(1)
    file["services"][0] |= {"opens": "09:15", "closes": "09:16"}
    plan = plan_of(file)
    assert [(trouble.kind, trouble.resource) for trouble in plan.troubles] == [
        ("short", "equipment:oven")
    ]
    assert named(plan, "one more oven").solves
    file["equipment"][0]["count"] = 2
    assert plan_of(file).troubles == ()


def test_hands_are_not_suggested_where_hands_do_not_bind() -> None:
    assert not any("hands" in text for text in texts(plan_of(one_oven(1))))


def test_a_remedy_tells_what_there_was_before_it() -> None:
    remedy = named(plan_of(kitchen(raw_stock=[raw("pork", "5 kg")])), "get what is missing")
    assert (remedy.short_portions_before, remedy.short_portions) == (10, 0)


def test_planning_once_more_is_no_remedy(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the unchanged morning, planned again, is as good, a change is not what helped."""
    changes: list[Change] = []

    def try_(change: Change, options: SearchOptions) -> tuple[str, Left]:
        del options
        changes.append(change)
        return change.text, Left({}, 0, 1)

    monkeypatch.setattr(remedies, "_try", try_)
    assert plan_of(kitchen()).remedies == ()
    assert changes[-1].problem == plan_of(kitchen()).workload.problem


@pytest.mark.parametrize("fields", [{"shelf_life_days": 1}, {"fresh_hours": 2}])
def test_fresh_food_whose_start_was_missed_is_started_the_day_before(fields: File) -> None:
    """Pork thaws for ten hours and is cut, for noon; the cut ham does not keep."""
    thaw = work("thaw", minutes_per=0, each_lot_minutes=1, unattended_minutes=600)
    file = kitchen(thaw)
    file["operations"].append(work("cut", lot_limit="1 kg"))
    file["components"][0] |= {"route": [{"operation": "thaw"}, {"operation": "cut"}], **fields}
    file["services"][0] |= {"opens": "12:00", "closes": "14:00"}
    plan = plan_of(file)
    (trouble,) = plan.troubles
    assert trouble.lacks == "route"
    assert "on an earlier day" in trouble.binding
    remedy = named(plan, "start Ham the day before (Thaw)")
    assert remedy.solves
    done = stock("ham", "6 kg", after_step=1)
    assert plan_of(file | {"prepared": [done]}).troubles == ()


def test_the_same_suggestions_come_every_time() -> None:
    assert plan_of(kitchen()).remedies == plan_of(kitchen()).remedies
