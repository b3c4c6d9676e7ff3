"""Planning functions that run in a process of their own, without planning, and a small kitchen."""

import datetime as dt
import json
import os
import time
from dataclasses import replace
from typing import Any

from pydantic import TypeAdapter

from planner.demand.types import DishDemand
from planner.kitchen.document import Kitchen
from planner.lots.types import Workload
from planner.plan import Labor, Plan, Trouble
from planner.quantities.types import Quantities
from planner.schedule.problem import Problem
from planner.schedule.timetable import Progress, Score, Solution, Status, Timetable
from planner.sheet.batch_types import SheetBatch, SheetTask
from planner.sheet.types import CookSheet, KitchenSheet
from planner.whatif.compare import Comparison, Figures
from planner.whatif.people import BatchMove, PeopleChanges
from service.comparing import WhatIf
from service.planning import Made, OnProgress, StopPlanning
from service.values import PlanChoices, PlanTexts

SCORE = Score(short=0, tardiness=0, labor=100, freshness=0, finish=200)
FIRST_SCORE = replace(SCORE, labor=120)


def kitchen_document(name: str = "Test Kitchen") -> dict[str, Any]:
    """A kitchen with one onion, one dish and one cook."""
    return {
        "format": "prepwright-kitchen",
        "version": 1,
        "name": name,
        "as_of": "2026-03-02",
        "time_zone": "America/New_York",
        "ingredients": [
            {
                "id": "onion",
                "name": "Onion",
                "purchase": {"unit": "bag", "holds": "10 kg", "cost": 9.0},
            }
        ],
        "operations": [
            {
                "id": "dice",
                "name": "Dice",
                "station": "bench",
                "skill": "knife",
                "set_up_minutes": 3,
                "minutes_per": 6,
                "cautions": ["knife"],
            }
        ],
        "components": [
            {
                "id": "diced_onion",
                "name": "Diced onion",
                "inputs": [{"item": "onion"}],
                "route": [{"operation": "dice", "fraction": {"fraction": 0.85}}],
                "shelf_life_days": 2,
                "tcs": False,
            }
        ],
        "dishes": [
            {
                "id": "soup",
                "name": "Onion soup",
                "components": [{"item": "diced_onion", "amount": "150 g"}],
            }
        ],
        "services": [
            {
                "id": "lunch",
                "name": "Lunch",
                "date": "2026-03-02",
                "opens": "11:30",
                "closes": "14:00",
                "covers": 40,
                "mix": [{"dish": "soup", "per_cover": 0.5}],
            }
        ],
        "stations": [{"id": "bench", "name": "Bench", "places": 2}],
        "cooks": [
            {
                "id": "ada",
                "name": "Ada",
                "initials": "A",
                "skills": [{"skill": "knife"}],
                "shifts": [{"start": "07:00", "end": "15:00"}],
            }
        ],
        "raw_stock": [{"item": "onion", "amount": "20 kg", "received": "2026-03-01"}],
    }


def kitchen_bytes(name: str = "Test Kitchen") -> bytes:
    return json.dumps(kitchen_document(name)).encode()


def sheet_of(kitchen: Kitchen, date: dt.date) -> KitchenSheet:
    cooks = tuple(
        CookSheet(cook.id, cook.name, cook.initials, 420, 900, (), (), (), (), 0, 0, None)
        for cook in kitchen.cooks
    )
    return KitchenSheet(
        kitchen=kitchen.name,
        date=date,
        services=(),
        cooks=cooks,
        lanes=(),
        pulls=(),
        alerts=(),
        troubles=(),
        remedies=(),
        ahead=(),
        start=420,
        end=900,
        labor_minutes=SCORE.labor,
        saved_minutes=20,
        dish_by_dish_minutes=120,
        labor=(),
        currency=kitchen.currency,
        objective=(),
        status="feasible",
    )


def demand(date: dt.date) -> DishDemand:
    """Twenty portions of one dish today."""
    return DishDemand(
        service="lunch",
        service_name="Lunch",
        dish="plate",
        dish_name="Plate",
        date=date,
        doors=720,
        due=690,
        until=840,
        expected=20.0,
        buffer=0,
        total=20,
        weight=1,
        lateness_weight=1,
        reason="20 guaranteed",
    )


def made(kitchen: Kitchen, date: dt.date, origin: str, troubles: tuple[Trouble, ...] = ()) -> Made:
    plan = Plan(
        kitchen=kitchen.name,
        date=date,
        demands=(demand(date),),
        quantities=Quantities((), (), (), ()),
        workload=Workload((), Problem(0, 1440, (), (), (), (), ()), ()),
        solution=Solution(
            Timetable(()),
            FIRST_SCORE if origin == "first" else SCORE,
            Status.FEASIBLE,
            (),
            (),
            1.0,
            1.0,
            1,
        ),
        labor=Labor((), 100, 120, 0, 0),
        troubles=troubles,
        remedies=(),
    )
    sheet = sheet_of(kitchen, date)
    texts = PlanTexts(
        document=json.dumps({"origin": origin}),
        sheet=TypeAdapter(KitchenSheet).dump_json(sheet).decode(),
        traces=json.dumps({"onion": {"text": "20 x 150 g / 0.85", "grams": 3529.4}}),
    )
    return Made(plan, sheet, texts)


def _progress(labor: int) -> Progress:
    return Progress(0.5, replace(SCORE, labor=labor), "stub")


def dicing(cook: str, number: int) -> SheetBatch:
    """A batch of one task that a cook does by hand, twenty minutes."""
    start = 420 + 30 * number
    return SheetBatch(
        number=number,
        cook=cook,
        cook_name=cook.title(),
        part="work",
        operation="dice",
        operation_name="Dice",
        food_name="Onion",
        components=("Diced onion",),
        station="Bench",
        equipment=(),
        place="",
        start=start - 3,
        work_start=start,
        end=start + 20,
        set_up=3,
        changeover=0,
        hand_wash=0,
        clean=0,
        hands_on=20,
        grams_in=3500,
        grams_out=3000,
        pieces_out=None,
        piece_out=None,
        cut=None,
        temperature_c=None,
        unattended=0,
        unattended_until=None,
        takings=(),
        trimmings=(),
        label=None,
        dishes=(),
        due=None,
        late=0,
        cautions=(),
        allergens=(),
        guidance="",
        notes=(),
        tasks=(
            SheetTask(
                number,
                f"{number}:dice",
                "work",
                start,
                start + 20,
                3500,
                3000,
                None,
                f"{number}:dice",
            ),
        ),
    )


def with_sheet(plan: Made, sheet: KitchenSheet) -> Made:
    text = TypeAdapter(KitchenSheet).dump_json(sheet).decode()
    return Made(plan.plan, sheet, replace(plan.texts, sheet=text))


def make_with_work(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """Every cook has two batches to dice."""
    plan = make_well(kitchen, date, choices, on_progress)
    cooks = tuple(
        replace(cook, batches=(dicing(cook.cook, 1), dicing(cook.cook, 2)))
        for cook in plan.sheet.cooks
    )
    sheet = replace(plan.sheet, cooks=cooks)
    return with_sheet(plan, sheet)


def make_with_work_by_seed(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """Every cook has two batches to dice; with seed 2 the first one is 30 minutes later."""
    plan = make_with_work(kitchen, date, choices, on_progress)
    if choices.seed != 2:
        return plan
    cooks = []
    for cook in plan.sheet.cooks:
        first, second = cook.batches
        cooks.append(replace(cook, batches=(replace(first, start=first.start + 30), second)))
    sheet = replace(plan.sheet, cooks=tuple(cooks))
    return with_sheet(plan, sheet)


def make_well(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """First one plan; then one that is no better, two improvements, and a second plan."""
    if on_progress is None:
        assert choices.seconds == 0, "the first plan is made without a search"
        return made(kitchen, date, "first")
    on_progress(_progress(130))
    on_progress(_progress(110))
    on_progress(_progress(100))
    return made(kitchen, date, f"last with seed {choices.seed}")


def make_without_traces(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """A plan whose quantities nobody explained."""
    plan = make_well(kitchen, date, choices, on_progress)
    return replace(plan, texts=replace(plan.texts, traces="{}"))


def make_late(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """Something is 12 minutes late."""
    del choices, on_progress
    trouble = Trouble("late", "diced_onion", "Diced onion is 12 min late", 12, 20, "Ada")
    return made(kitchen, date, "late", (trouble,))


def make_well_but_short(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """The sheet says what is short, and what would help."""
    plan = make_well(kitchen, date, choices, on_progress)
    sheet = replace(
        plan.sheet,
        troubles=("Onion soup, Lunch: 20 portions short",),
        remedies=("Ada starts at 06:00: nothing is short",),
    )
    return with_sheet(plan, sheet)


def make_short(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """Something is late, and 20 portions are not made."""
    del choices, on_progress
    late = Trouble("late", "diced_onion", "Diced onion is 12 min late", 12, 20, "Ada")
    short = Trouble("short", "diced_onion", "20 portions lack diced onion", 35, 20, "Ada")
    return made(kitchen, date, "short", (short, late))


def make_slowly(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """A first plan at once; then one improvement, and no end."""
    if on_progress is None:
        return made(kitchen, date, "first")
    on_progress(_progress(110))
    time.sleep(600)
    return made(kitchen, date, f"never {choices.seed}")


def make_until_stopped(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """Improvements, then more of the search for longer than any test waits, until it is stopped."""
    del choices
    if on_progress is None:
        return made(kitchen, date, "first")
    try:
        for looked in range(6000):
            on_progress(_progress(max(110 - looked, 1)))
            time.sleep(0.1 if looked < 10 else 1)
    except StopPlanning:
        return made(kitchen, date, "best so far")
    raise AssertionError("nobody stopped it")


def make_nothing_ever(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """No plan, and no end."""
    time.sleep(600)
    return make_well(kitchen, date, choices, on_progress)


def make_crash(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """The process ends without a word, after its first plan."""
    del choices
    if on_progress is None:
        return made(kitchen, date, "first")
    os._exit(9)


def make_refusal(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """The inputs are refused."""
    del choices, on_progress
    raise ValueError(f"date: {date}: {kitchen.name} has no service then; choose another day")


def make_bug(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    on_progress: OnProgress | None = None,
) -> Made:
    """The program is wrong."""
    del kitchen, date, choices, on_progress
    raise KeyError("lot 7")


def compare_well(what_if: WhatIf) -> Comparison:
    """Twelve portions short and one batch with another cook where something is otherwise."""
    as_it_is = Figures(0, 0, 0, 100, 0, 480, 120.0)
    return Comparison(
        date=what_if.date,
        currency="USD",
        as_it_is=as_it_is,
        changed=replace(as_it_is, short_portions=12, labor=130),
        people=PeopleChanges(3, (BatchMove("Dice Onion", "Ada", "Ben", 450, 480),), (), (), (), ()),
    )


def compare_refusal(what_if: WhatIf) -> Comparison:
    """The inputs are refused."""
    raise ValueError(f"date: {what_if.date}: there is no service then; choose another day")


def compare_forever(what_if: WhatIf) -> Comparison:
    """No answer."""
    time.sleep(600)
    return compare_well(what_if)


def compare_crash_with_more_covers(what_if: WhatIf) -> Comparison:
    """The process ends without a word where more guests come."""
    before, after = (
        sum(service.covers for service in kitchen.services)
        for kitchen in (what_if.as_it_is, what_if.changed)
    )
    if after > before:
        os._exit(9)
    return compare_well(what_if)
