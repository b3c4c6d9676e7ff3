"""What is told of a new plan: who, what, and what it was before."""

import pytest

from planner.replan.changes import Kind
from planner.replan.document import replan_document
from planner.replan.events import CookGone, EquipmentDown, Overran
from planner.replan.replan import Replan, replan
from tests.replan.mornings import QUICK, tiny_morning


def after(now: int, *events: CookGone | EquipmentDown | Overran) -> Replan:
    kitchen, plan = tiny_morning()
    return replan(kitchen, plan, now, events, QUICK)


def test_what_a_cook_who_left_was_to_do_is_moved_with_its_times() -> None:
    """Ben leaves before he has begun: Ana peels and dices, as she can."""
    found = after(605, CookGone("ben", 605))
    moved = {one.lot: one for one in found.changes if one.kind is Kind.MOVED}
    assert set(moved) == {"peel-onion-1", "dice-onion-1", "dice-onion-2"}
    for one in moved.values():
        assert (one.cook_before, one.cook) == ("ben", "ana")
        assert one.start is not None
        assert one.end is not None
        assert one.end > one.start
    assert moved["peel-onion-1"].start_before == 614
    assert "ana" in {one.cook for one in found.changes}


def test_what_nobody_can_do_is_left_out() -> None:
    """Only Ana has a skill for the stove."""
    found = after(605, CookGone("ana", 605))
    left = {one.lot for one in found.changes if one.kind is Kind.LEFT_OUT}
    assert left == {"simmer-stock-1", "roast-thigh-1"}
    assert {trouble.kind for trouble in found.troubles} == {"short"}


def test_food_under_way_that_nobody_can_take_out_is_said() -> None:
    found = after(700, CookGone("ana", 700))
    assert any("is under way and nobody can see to it" in note for note in found.notes)


def test_food_that_lost_its_equipment_is_said_and_planned_again() -> None:
    found = after(820, EquipmentDown("tray", 1, 830))
    assert any("lost its equipment" in note for note in found.notes)
    roast = next(lot for lot in found.workload.lots if lot.id == "roast-thigh-1")
    starts = {item.task: item.start for item in found.solution.timetable.assignments}
    assert starts[roast.tasks[0].task] >= 830


def test_less_than_five_minutes_is_no_change() -> None:
    """Peeling until 10:24 leaves all else as it was; until 10:40 it does not."""
    assert after(620, Overran("peel-onion-1", 624)).changes == ()
    kinds = {one.kind for one in after(620, Overran("peel-onion-1", 640)).changes}
    assert kinds == {Kind.LATER}


@pytest.mark.parametrize("now", [600, 660, 800])
def test_the_file_tells_all_that_is_left_in_order(now: int) -> None:
    found = after(now)
    document = replan_document(found)
    starts = [task.start.minutes for task in document.tasks]
    assert starts == sorted(starts)
    left = {(item.start, item.end) for item in found.solution.timetable.assignments}
    assert {(task.start.minutes, task.end.minutes) for task in document.tasks} <= left
    assert not set(document.begun) & {task.lot for task in document.tasks if task.part == "work"}
