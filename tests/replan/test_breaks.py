"""Breaks of a morning planned anew: those that are over, and those still to come."""

from dataclasses import replace

from planner.check.rests import breaks_of
from planner.kitchen.document import Kitchen
from planner.plan import Plan
from planner.replan.begun import standing
from planner.replan.breaks import breaks_of as breaks_left
from planner.replan.course import course_of
from planner.replan.events import CookGone, CookLate, Event, Overran
from planner.replan.replan import Replan, replan
from planner.schedule.problem import Rest
from tests.replan.mornings import DICE, QUICK, lot_id, tiny_course, tiny_morning

BEN = 1
TEN = 600
"""Ben comes at 10:00, peels 10:14 to 10:23 and dices 10:28 to 10:43."""


def bens_break(
    earliest: int, latest: int, start: int, *, pausable: bool = False
) -> tuple[Kitchen, Plan]:
    """The tiny morning with a break of ten minutes for Ben; 10:23 to 10:33 is free of all work."""
    kitchen, plan = tiny_morning()
    problem, solution = plan.workload.problem, plan.solution
    ana, ben = problem.workers
    tasks = tuple(replace(task, pausable=pausable) for task in problem.tasks)
    problem = replace(
        problem, workers=(ana, replace(ben, rests=(Rest(10, earliest, latest),))), tasks=tasks
    )
    timetable = replace(solution.timetable, rests=((720,), (start,)))
    return kitchen, replace(
        plan,
        workload=replace(plan.workload, problem=problem),
        solution=replace(solution, timetable=timetable),
    )


def after(plan: tuple[Kitchen, Plan], now: int, *events: Event) -> Replan:
    return replan(*plan, now, events, QUICK)


def bens(found: Replan) -> tuple[tuple[int, int], ...]:
    """When Ben's breaks are that are still to come."""
    return breaks_of(found.workload.problem, found.solution.timetable)[BEN]


def test_a_break_to_come_stays_where_it_was_where_nothing_happens() -> None:
    found = after(bens_break(700, 900, 800), 650)
    assert bens(found) == ((800, 810),)
    assert found.notes == ()
    assert found.course.timetable.rests[BEN] == (800,)


def test_a_break_that_has_begun_keeps_its_cook_to_its_end() -> None:
    found = after(bens_break(700, 900, 800), 804)
    assert bens(found) == ()
    last_minute = 1 + 3  # of what he was at, and its set-up: from there he goes on
    assert found.workload.problem.workers[BEN].start + last_minute == 810
    assert found.course.timetable.rests[BEN] == (800,)


def test_a_break_makes_way_for_work_that_overran_and_that_is_said() -> None:
    """Dicing goes on until 10:55; the break was to be at 10:45."""
    plan = bens_break(640, 700, 645)
    found = after(plan, 640, Overran(lot_id(tiny_course(), DICE), 655))
    ((begin, end),) = bens(found)
    assert 655 <= begin <= 700
    assert end - begin == 10
    assert any("Ben's break is at" in note and "not at 10:45" in note for note in found.notes)


def test_an_overdue_break_is_due_as_soon_as_the_cook_is_free() -> None:
    plan = bens_break(645, 645, 645)
    found = after(plan, 640, Overran(lot_id(tiny_course(), DICE), 655))
    assert bens(found) == ((655, 665),)


def test_a_break_before_a_late_cook_comes_lapses() -> None:
    found = after(bens_break(610, 610, 610), 600, CookLate("ben", 630))
    assert bens(found) == ()


def test_a_break_within_work_under_way_is_over_with_it() -> None:
    """A task that began before the break and is to end after it holds the break in it."""
    kitchen, plan = bens_break(633, 633, 633, pausable=True)
    course = course_of(kitchen, plan)
    longer = tuple(
        replace(item, end=item.end + 10) if item.start < 633 < item.end else item
        for item in course.timetable.assignments
    )
    course = replace(course, timetable=replace(course.timetable, assignments=longer))
    left = breaks_left(course, standing(course, 631), {})[BEN]
    assert left.to_come == ()
    assert left.over == ((633, 643),)


def test_who_has_left_has_no_break_any_more() -> None:
    found = after(bens_break(700, 900, 800), 650, CookGone("ben", 650))
    assert bens(found) == ()
    assert found.notes == ()
