"""When a task can begin and end at all."""

from dataclasses import replace

from planner.schedule.problem import Problem, Rest, Wait
from planner.schedule.tables import Tables, tables_of
from tests.kitchens import problems
from tests.kitchens.problems import at


def herbs(**fields: object) -> Problem:
    """The cook of ``herbs_before_doors``, in from 08:00, who takes two minutes; due at 15."""
    problem = problems.herbs_before_doors().problem
    task = replace(problem.tasks[0], earliest_end=None, **fields)  # type: ignore[arg-type]
    return replace(problem, tasks=(task,))


def windows(problem: Problem, task: int = 0) -> tuple[int, int, int]:
    """Earliest start, soonest and latest end of a task."""
    tables: Tables = tables_of(problem)
    return tables.earliest[task], tables.soonest[task], tables.latest[task]


def test_a_task_may_begin_with_the_shift_and_end_with_the_day() -> None:
    assert windows(herbs()) == (at(0), at(2), at(30))


def test_not_before_its_release_nor_after_it_is_of_use() -> None:
    assert windows(herbs(release=at(5), until=at(12))) == (at(5), at(7), at(12))


def test_a_shift_begins_with_the_set_up() -> None:
    problem = herbs()
    family = replace(problem.families[0], set_up=3)
    assert windows(replace(problem, families=(family,))) == (at(3), at(5), at(30))


def test_no_break_is_worked_through() -> None:
    problem = herbs()
    cook = replace(problem.workers[0], blocked=((at(1), at(6)),))
    assert windows(replace(problem, workers=(cook,))) == (at(6), at(8), at(30))


def test_what_is_to_be_fresh_begins_later() -> None:
    problem = herbs()
    task = replace(problem.tasks[0], earliest_end=at(9))
    assert windows(replace(problem, tasks=(task,))) == (at(7), at(9), at(30))


def test_work_that_may_pause_begins_sooner_by_its_pauses_and_ends_no_sooner() -> None:
    problem = herbs()
    task = replace(problem.tasks[0], earliest_end=at(9), pausable=True)
    cook = replace(problem.workers[0], rests=(Rest(3, at(5), at(5)),))
    paused = replace(problem, tasks=(task,), workers=(cook,))
    assert windows(paused) == (at(4), at(9), at(30))


def test_a_cook_who_leaves_too_soon_ends_nothing() -> None:
    problem = herbs()
    cook = replace(problem.workers[0], end=at(1), latest_end=at(1))
    tables = tables_of(replace(problem, workers=(cook,)))
    assert tables.soonest[0] > tables.latest[0]
    assert tables.impossible == {0}


def test_only_waits_for_what_is_surely_made_bind() -> None:
    """The tray behind another of its own job waits; behind a job it does not need it may not."""
    problem = problems.oven_of_two().problem
    assert windows(problem, 1)[:2] == (at(7), at(8))
    assert windows(problem, 0)[2] == at(23)
    tied = replace(problem, waits=(*problem.waits, Wait(1, 2)))
    assert windows(tied, 2) == windows(problem, 2)
    assert windows(tied, 1) == windows(problem, 1)
    jobs = (problem.jobs[0], replace(problem.jobs[1], needs=(0,)), problem.jobs[2])
    assert windows(replace(tied, jobs=jobs), 2)[0] == at(8)
