"""Batches moved by hand before the day has begun, and on a day under way."""

from dataclasses import replace
from typing import Any

import pytest

from planner.check.pins import check_pins
from planner.kitchen.document import Kitchen
from planner.morning import PlanOptions
from planner.pins.apply import work_task
from planner.pins.types import Pin, PinError
from planner.plan import Plan
from planner.plan_file import plan_document
from planner.plan_file.reading import read_plan
from planner.replan.events import CookGone, Progress
from planner.replan.moved import moved
from planner.replan.near import Earlier, plan_near
from planner.replan.replan import replan
from planner.schedule.search import SearchOptions
from planner.schedule.timetable import Assignment
from planner.sheet.build import build_sheet
from planner.sheet.changes import sheet_changes
from tests.kitchens.bench import DATE, bench, cook, cut_from, dish, food, read, work
from tests.kitchens.seeds import planned_seed

QUICK = SearchOptions(deterministic_limit=0.2, workers=1)
NEAR = PlanOptions(deterministic_limit=0.2, workers=1, remedies=False)


def small() -> tuple[Kitchen, Plan]:
    return planned_seed("small")


def works(plan: Plan) -> dict[str, Assignment]:
    """Who does the work of each lot when, by the lot's id."""
    by_task = {a.task: a for a in plan.solution.timetable.assignments}
    return {
        lot.id: by_task[work_task(lot)] for lot in plan.workload.lots if work_task(lot) in by_task
    }


def able(plan: Plan, lot: str) -> list[str]:
    one = next(one for one in plan.workload.lots if one.id == lot)
    return [plan.workload.cooks[w] for w in plan.workload.problem.tasks[work_task(one)].minutes]


def other(plan: Plan, lot: str) -> str | None:
    mine = plan.workload.cooks[works(plan)[lot].worker]
    return next((cook for cook in able(plan, lot) if cook != mine), None)


def wishes() -> list[Pin]:
    """Every lot of the small kitchen to another cook, and a quarter of an hour later."""
    _, plan = small()
    found = []
    for lot, item in works(plan).items():
        found.append(Pin(lot, None, item.start + 15, exactly=True))
        cook = other(plan, lot)
        if cook is not None:
            found.append(Pin(lot, cook))
    return found


def moved_or_refused(kitchen: Kitchen, plan: Plan, pin: Pin) -> Plan | PinError:
    try:
        return moved(kitchen, plan, (pin,), QUICK)
    except PinError as error:
        return error


@pytest.mark.parametrize("pin", wishes(), ids=lambda pin: f"{pin.lot}-{pin.cook}-{pin.begin}")
def test_what_is_moved_is_where_it_was_put_or_refused_with_a_reason(pin: Pin) -> None:
    kitchen, plan = small()
    found = moved_or_refused(kitchen, plan, pin)
    if isinstance(found, PinError):
        assert found.message
        assert found.remedy
        return
    assert found.pins == (pin,)
    timetable = found.solution.timetable
    assert not check_pins((pin,), plan.workload.lots, plan.workload.cooks, timetable)
    assert found.workload == plan.workload
    score, before = found.solution.score, plan.solution.score
    changed = sum(
        item.worker != works(found)[lot].worker
        for lot, item in works(plan).items()
        if lot in works(found) and lot != pin.lot
    )
    # Where all is on time nobody else's work changes hands for it, or few batches do.
    assert (score.short, score.tardiness) > (before.short, before.tardiness) or changed <= 2


def test_held_as_it_is_nothing_changes() -> None:
    kitchen, plan = small()
    pins = tuple(
        Pin(lot, plan.workload.cooks[item.worker], item.start, exactly=True)
        for lot, item in works(plan).items()
    )
    found = moved(kitchen, plan, pins, QUICK)
    assert works(found) == works(plan)


def test_what_is_held_is_in_the_plan_file_and_comes_back() -> None:
    kitchen, plan = small()
    lot, item = next(iter(works(plan).items()))
    pin = Pin(lot, plan.workload.cooks[item.worker], item.start - 5)
    found = moved(kitchen, plan, (pin,), QUICK)
    text = plan_document(kitchen, found).model_dump_json()
    assert read_plan(kitchen, text.encode()).pins == (pin,)
    held = [b.held for c in build_sheet(kitchen, found).cooks for b in c.batches if b.held]
    assert [(one.cook, one.begin, one.exactly) for one in held] == [(True, item.start - 5, False)]


def bench_of(cooks: int, covers: int = 10, **parts: Any) -> Kitchen:
    """Carrots peeled and cut for dinner, and turnips, by so many cooks who can do all of it."""
    file = bench(
        ingredients=[food("carrot"), food("turnip")],
        operations=[work("peel"), work("cut")],
        components=[
            cut_from("carrot", "sticks", "peel", "cut"),
            cut_from("turnip", "cubes", "peel", "cut"),
        ],
        dishes=[dish("plate", {"sticks": "100 g", "cubes": "100 g"})],
        cooks=[cook(f"cook{n}") for n in range(cooks)],
        **parts,
    )
    file["services"][0]["covers"] = covers
    return read(file)


def test_a_day_that_is_as_it_was_moves_nothing() -> None:
    for kitchen, plan in (small(), planned_seed("small")):
        before = Earlier(plan.workload, plan.solution.timetable)
        again, notes = plan_near(kitchen, plan.date, before, None, NEAR)
        assert again.solution.timetable == plan.solution.timetable
        assert notes == ()


def test_a_few_more_covers_leave_everybody_their_batches() -> None:
    kitchen = bench_of(2)
    plan, _ = plan_near(kitchen, DATE, None, None, NEAR)
    before = Earlier(plan.workload, plan.solution.timetable)
    more = bench_of(2, covers=11)
    again, _ = plan_near(more, DATE, before, None, NEAR)
    changes = sheet_changes(build_sheet(kitchen, plan), build_sheet(more, again))
    assert not any(one.moved for cook in changes for one in cook.changes)
    afresh, _ = plan_near(more, DATE, None, None, NEAR)
    felt = [(p.solution.score.short, p.solution.score.tardiness) for p in (again, afresh)]
    assert felt[0] <= felt[1]


def test_what_is_held_stays_in_the_next_plan_with_other_covers() -> None:
    kitchen = bench_of(2)
    plan, _ = plan_near(kitchen, DATE, None, None, NEAR)
    lot = plan.workload.lots[0].id
    cook = other(plan, lot)
    held = moved(kitchen, plan, (Pin(lot, cook),), QUICK)
    before = Earlier(held.workload, held.solution.timetable, held.pins)
    again, notes = plan_near(bench_of(2, covers=14), DATE, None, before, NEAR)
    assert notes == ()
    assert [pin.cook for pin in again.pins] == [cook]
    assert again.workload.cooks[works(again)[again.pins[0].lot].worker] == cook


def test_what_cannot_be_held_any_more_is_given_up_and_said() -> None:
    kitchen = bench_of(2)
    plan, _ = plan_near(kitchen, DATE, None, None, NEAR)
    pins = (Pin(plan.workload.lots[0].id, "cook1"),)
    before = Earlier(plan.workload, plan.solution.timetable, pins)
    again, notes = plan_near(bench_of(1), DATE, before, before, NEAR)
    assert again.pins == ()
    assert len(notes) == 1
    assert "not held by hand any more" in notes[0]


def test_a_day_under_way_is_planned_around_what_is_held() -> None:
    kitchen = bench_of(2)
    plan, _ = plan_near(kitchen, DATE, None, None, NEAR)
    lots = sorted(works(plan), key=lambda lot: works(plan)[lot].start)
    now = works(plan)[lots[0]].start + 1
    first = works(plan)[lots[0]]
    cook = other(plan, lots[-1])
    told = [Progress(first.task, plan.workload.cooks[first.worker], first.start)]
    pin = Pin(lots[-1], cook)
    found = replan(kitchen, plan, now, (), QUICK, progress=told, pins=(pin,))
    course = found.course
    assert course.pins == (pin,)
    assert not check_pins((pin,), course.workload.lots, course.workload.cooks, course.timetable)
    # It stays so when something else happens, and is given up where its cook leaves.
    later = replan(kitchen, found, now + 1, (), QUICK)
    assert later.course.pins == (pin,)
    gone = replan(kitchen, found, now + 1, (CookGone(str(cook), now + 1),), QUICK)
    assert gone.course.pins == ()
    assert any("not held by hand any more" in note for note in gone.notes)


def test_what_has_begun_is_not_held_any_more() -> None:
    kitchen = bench_of(2)
    plan, _ = plan_near(kitchen, DATE, None, None, NEAR)
    lots = sorted(works(plan), key=lambda lot: works(plan)[lot].start)
    first = works(plan)[lots[0]]
    held = replace(plan, pins=(Pin(lots[0], plan.workload.cooks[first.worker]),))
    told = [Progress(first.task, plan.workload.cooks[first.worker], first.start)]
    assert replan(kitchen, held, first.start + 1, (), QUICK, progress=told).course.pins == ()


def test_a_batch_is_not_held_before_now() -> None:
    kitchen = bench_of(2)
    plan, _ = plan_near(kitchen, DATE, None, None, NEAR)
    lots = sorted(works(plan), key=lambda lot: works(plan)[lot].start)
    pin = Pin(lots[-1], None, works(plan)[lots[0]].start, exactly=True)
    with pytest.raises(PinError, match="too early"):
        replan(kitchen, plan, works(plan)[lots[-1]].start - 1, (), QUICK, pins=(pin,))
