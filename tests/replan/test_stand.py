"""How hands, boards and equipment stand when the rest of the day is planned."""

from dataclasses import replace

from planner.check.timetable import check_timetable
from planner.kitchen.catalog import Catalog
from planner.replan.begun import standing
from planner.replan.board import is_mark, marks_of
from planner.replan.events import CookGone, CookLate, EquipmentDown, Event
from planner.replan.kept import kept
from planner.replan.links import links_by_lot
from planner.replan.match import match
from planner.replan.residual import Residual, residual
from planner.schedule.problem import Problem
from planner.schedule.replay import replay
from planner.schedule.tables import tables_of
from tests.kitchens.plans import ANA, BEN
from tests.replan.mornings import tiny_course


def rest_at(now: int, *events: Event) -> Residual:
    course = tiny_course()
    day = standing(course, now, events)
    new, at = kept(course.workload, day)
    links = links_by_lot(Catalog(course.kitchen), course.workload, at, day.by_lot)
    return residual(course, new, day, links, events)


def taken(problem: Problem, name: str) -> list[tuple[int, int]]:
    """(units, until minutes after now) of a resource that marks alone hold."""
    return [
        (hold.units, hold.tail)
        for hold in problem.holds
        if problem.resources[hold.resource].id == name
        and is_mark(problem.tasks[hold.first])
        and hold.first == hold.last
    ]


def test_a_board_is_taken_until_the_work_on_it_ends() -> None:
    """Ben dices from 10:28 to 10:42."""
    assert taken(rest_at(635).workload.problem, "station:board") == [(1, 642 - 635)]


def test_a_clean_board_that_is_free_is_not_mentioned() -> None:
    assert taken(rest_at(646).workload.problem, "station:board") == []


def by_clock(minutes: int, cleaned: tuple[int, ...] = ()) -> list[tuple[int, int | None]]:
    """(minutes after now, in use since) of the boards at 10:46, cleaned after so long in use."""
    course = tiny_course()
    problem = course.workload.problem
    costs = replace(problem.changeovers, clean_every=minutes)
    assignments = tuple(
        replace(item, cleaned=cleaned) if item.task == 1 else item
        for item in course.timetable.assignments
    )
    course = replace(
        course,
        workload=replace(course.workload, problem=replace(problem, changeovers=costs)),
        timetable=replace(course.timetable, assignments=assignments),
    )
    day = standing(course, 646)
    new, at = kept(course.workload, day)
    links = links_by_lot(Catalog(course.kitchen), course.workload, at, day.by_lot)
    rest = residual(course, new, day, links, ()).workload.problem
    board = [n for n, resource in enumerate(rest.resources) if resource.id == "station:board"]
    marks = [hold for hold in rest.holds if hold.resource in board]
    return [(hold.tail, hold.since) for hold in marks if is_mark(rest.tasks[hold.first])]


def test_a_board_that_is_to_be_cleaned_by_the_clock_keeps_its_hours() -> None:
    """Ben was at it from 10:10, peeling and dicing; cleaned between, it is in use from 10:23."""
    assert by_clock(240) == [(0, 610)]
    assert by_clock(240, cleaned=(1,)) == [(0, 623)]


def test_a_board_that_nobody_stays_long_enough_to_clean_is_not_mentioned() -> None:
    assert by_clock(1440) == []


def test_a_pot_stays_taken_until_what_is_in_it_is_taken_out() -> None:
    problem = rest_at(700).workload.problem
    pot = next(i for i, one in enumerate(problem.resources) if one.id == "equipment:pot")
    (hold,) = (hold for hold in problem.holds if hold.resource == pot)
    assert is_mark(problem.tasks[hold.first])
    assert problem.tasks[hold.last].id.endswith(":finish")


def test_equipment_down_takes_no_more_than_there_is() -> None:
    problem = rest_at(620, EquipmentDown("tray", 1), EquipmentDown("tray", 5)).workload.problem
    assert [units for units, _ in taken(problem, "equipment:tray")] == [1, 1]


def test_a_cook_goes_on_without_a_second_set_up() -> None:
    """Ben had his dicer out at 10:42: one more dice for the stock costs no lead."""
    rest = rest_at(642)
    problem = rest.workload.problem
    known = match(tiny_course(), rest, standing(tiny_course(), 642))
    plan = replay(tables_of(problem), known.old, first=marks_of(problem))
    assert check_timetable(problem, plan) == ()
    dice = next(one for one in plan.assignments if problem.tasks[one.task].id == "dice-onion-2")
    assert (dice.worker, dice.start, dice.lead.total) == (BEN, 642, 0)


def test_who_is_at_work_is_free_when_it_ends_and_who_left_is_not() -> None:
    workers = rest_at(635).workload.problem.workers
    assert workers[BEN].start + 3 + 1 == 642  # the last minute and the set-up of what he is at
    gone = rest_at(635, CookGone("ben", 635)).workload.problem.workers[BEN]
    assert gone.start == gone.latest_end


def test_who_comes_late_sets_up_the_station_first() -> None:
    """Ana's station takes ten minutes at the start of her shift."""
    assert rest_at(620, CookLate("ana", 660)).workload.problem.workers[ANA].start == 670


def test_food_under_way_is_due_out_and_never_of_no_use() -> None:
    problem = rest_at(700).workload.problem
    finish = next(task for task in problem.tasks if task.id == "simmer-stock-1:finish")
    assert finish.until is None


def test_lots_that_have_begun_are_not_there_again() -> None:
    """At 10:46 Ana sets up for her stock, of which the take-out is left."""
    rest = rest_at(646)
    assert [lot.id for lot in rest.workload.lots[: rest.new_lots]] == ["roast-thigh-1"]
    assert [lot.id for lot in rest.workload.lots[rest.new_lots :]] == ["simmer-stock-1"]
