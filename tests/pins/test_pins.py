"""What people hold by hand: values, the limits they put on tasks, the checker, the refusals."""

from dataclasses import replace

import pytest

from planner.check.pins import check_pins
from planner.kitchen.catalog import Catalog
from planner.pins.apply import expected, pinned, work_task
from planner.pins.checking import check_wishes, keepable
from planner.pins.types import Pin, PinError, changed_pins, pins_of_batch
from planner.schedule.timetable import Timetable
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.replan.mornings import DICE, PEEL, ROAST, SIMMER

KITCHEN, PLAN = planned_kitchen(), tiny_plan()
CATALOG, WORKLOAD = Catalog(KITCHEN), PLAN.workload
BY_TASK = {a.task: a for a in PLAN.solution.timetable.assignments}


def lot(index: int) -> str:
    return WORKLOAD.lots[index].id


def start(index: int) -> int:
    return BY_TASK[work_task(WORKLOAD.lots[index])].start


def cook(index: int) -> str:
    return WORKLOAD.cooks[BY_TASK[work_task(WORKLOAD.lots[index])].worker]


def broken(*pins: Pin, timetable: Timetable = PLAN.solution.timetable) -> list[str]:
    return [str(one.rule) for one in check_pins(pins, WORKLOAD.lots, WORKLOAD.cooks, timetable)]


def test_of_a_batch_the_first_lot_is_held_to_the_minute_and_the_others_follow() -> None:
    assert pins_of_batch(["a", "b", "b", "c"], "ana", 600, exactly=True) == (
        Pin("a", "ana", 600, exactly=True),
        Pin("b", "ana", 600, follows="a"),
        Pin("c", "ana", 600, follows="b"),
    )


def test_what_is_held_anew_replaces_what_was_and_what_is_let_go_is_gone() -> None:
    before = (Pin("a", "ana"), Pin("b", "ben"))
    assert changed_pins(before, [Pin("b", begin=600)], ["a"]) == (Pin("b", begin=600),)


def test_the_checker_passes_what_is_kept() -> None:
    assert broken(Pin(lot(PEEL), cook(PEEL), start(PEEL), exactly=True)) == []
    assert broken(Pin(lot(PEEL), None, start(PEEL) - 5)) == []


@pytest.mark.parametrize(
    "pin",
    [
        Pin(lot(PEEL), "ana" if cook(PEEL) == "ben" else "ben"),
        Pin(lot(PEEL), None, start(PEEL) + 1),
        Pin(lot(PEEL), None, start(PEEL) - 1, exactly=True),
        Pin("no such lot", "ana"),
    ],
    ids=["another cook", "before its time", "after its minute", "unknown"],
)
def test_the_checker_notices_a_pin_that_is_not_kept(pin: Pin) -> None:
    assert broken(pin) == ["pin"]


def test_the_checker_notices_a_held_lot_that_is_not_made() -> None:
    work = work_task(WORKLOAD.lots[PEEL])
    rest = tuple(a for a in PLAN.solution.timetable.assignments if a.task != work)
    assert broken(Pin(lot(PEEL), cook(PEEL)), timetable=Timetable(rest)) == ["pin"]


def test_a_pin_limits_the_work_and_nothing_else() -> None:
    pin = Pin(lot(SIMMER), cook(SIMMER), start(SIMMER), exactly=True)
    problem = pinned(WORKLOAD, [pin, Pin("no such lot", "ana")])
    work = work_task(WORKLOAD.lots[SIMMER])
    task = problem.tasks[work]
    assert list(task.minutes) == [BY_TASK[work].worker]
    assert task.release == task.start_by == start(SIMMER)
    others = [i for i in range(len(problem.tasks)) if i != work]
    assert [problem.tasks[i] for i in others] == [WORKLOAD.problem.tasks[i] for i in others]
    assert replace(problem, tasks=WORKLOAD.problem.tasks) == WORKLOAD.problem


def test_a_moved_lot_is_expected_with_its_looks_and_its_taking_out() -> None:
    later = start(SIMMER) + 20
    found = expected(WORKLOAD, [Pin(lot(SIMMER), None, later, exactly=True)], BY_TASK)
    for item in WORKLOAD.lots[SIMMER].tasks:
        assert found[item.task].start == BY_TASK[item.task].start + 20
    assert found[work_task(WORKLOAD.lots[PEEL])] == BY_TASK[work_task(WORKLOAD.lots[PEEL])]


def test_what_follows_is_expected_right_behind() -> None:
    early = start(PEEL) - 30
    first, second = pins_of_batch([lot(PEEL), lot(DICE)], cook(PEEL), early, exactly=True)
    found = expected(WORKLOAD, [first, second], BY_TASK)
    ahead = found[work_task(WORKLOAD.lots[PEEL])]
    assert ahead.start == early
    assert found[work_task(WORKLOAD.lots[DICE])].start == ahead.end


@pytest.mark.parametrize(
    ("pin", "field", "words"),
    [
        (Pin("99:peel", "ana"), "batch", "no batch of the plan"),
        (Pin(lot(PEEL), "zoe"), "cook", "not in the kitchen file"),
        (Pin(lot(ROAST), "ben"), "cook", "does not have the skill"),
        (Pin(lot(PEEL), None, 25 * 60), "begin", "no time of the day"),
        (Pin(lot(PEEL), None, 60, exactly=True), "begin", "too early"),
        (Pin(lot(PEEL), None, 23 * 60), "begin", "too late"),
        (Pin(lot(PEEL), "ana", 12 * 60 + 5, exactly=True), "begin", "away from prep"),
    ],
    ids=["lot", "cook", "skill", "time", "early", "late", "break"],
)
def test_what_no_plan_can_keep_is_refused_with_field_value_and_remedy(
    pin: Pin, field: str, words: str
) -> None:
    with pytest.raises(PinError) as error:
        check_wishes(CATALOG, WORKLOAD, [pin])
    assert error.value.field == field
    assert words in error.value.message
    assert error.value.value
    assert error.value.remedy


def test_one_cook_is_not_held_at_two_batches_at_once() -> None:
    who = cook(PEEL)
    pins = (Pin(lot(PEEL), who, 615, exactly=True), Pin(lot(DICE), who, 618, exactly=True))
    kept, errors = keepable(CATALOG, WORKLOAD, pins)
    assert kept in ((pins[0],), ())
    assert errors


def test_what_can_be_kept_is_kept_beside_what_cannot() -> None:
    good, bad = Pin(lot(PEEL), cook(PEEL)), Pin(lot(DICE), "zoe")
    kept, errors = keepable(CATALOG, WORKLOAD, (bad, good))
    assert kept == (good,)
    assert [error.lot for error in errors] == [lot(DICE)]
