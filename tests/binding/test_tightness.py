"""A task is held exactly where the independent checker refuses to let it begin a minute earlier."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from planner.binding.links import Kind, Link, holding
from planner.check.timetable import check_timetable
from planner.schedule.assemble import Choice, assemble, incumbent_of
from planner.schedule.problem import Problem
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Timetable
from tests.kitchens.seeds import planned_seed
from tests.outside.brute_force import Choice as Way
from tests.outside.brute_force import all_timetables
from tests.outside.random_problems import tiny_problems


def hard(problem: Problem, link: Link, end: int) -> bool:
    """Whether a hold is a rule; what only costs freshness may be broken."""
    return link.kind is not Kind.FRESH or problem.tasks[link.task].earliest_end == end


def assert_held_where_tight(problem: Problem, timetable: Timetable) -> None:
    tables = tables_of(problem)
    plan = incumbent_of(tables, timetable)
    for item in timetable.assignments:
        moved = tuple(
            replace(one, start=one.start - 1, end=one.end - 1) if one is item else one
            for one in timetable.assignments
        )
        links = holding(tables, plan, item.task)
        held = any(hard(problem, link, item.end) for link in links)
        broken = check_timetable(problem, replace(timetable, assignments=moved))
        assert held == bool(broken), (problem.tasks[item.task].id, links, broken)


@given(tiny_problems(minutes=9, most_tasks=3, by_clock=True))
@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
def test_timetables_of_a_tiny_problem(problem: Problem) -> None:
    """Good timetables and bad ones alike: with gaps, in any order, on any unit."""
    found = sorted((sorted(one) for one in all_timetables(problem) if one), key=repr)
    for chosen in found[:: 1 + len(found) // 100]:
        assert_held_where_tight(problem, _timetable(problem, chosen))


def _timetable(problem: Problem, chosen: list[Way]) -> Timetable:
    """The timetable of (task, cook, start, units of the holds it opens, those cleaned for)."""
    opens = [
        [h for h, hold in enumerate(problem.holds) if hold.first == task and _contact(problem, h)]
        for task in range(len(problem.tasks))
    ]
    choices = {
        task: Choice(worker, start, start + problem.tasks[task].minutes[worker])
        for task, worker, start, *_ in chosen
    }
    units = {
        hold: unit
        for task, _, _, named, _ in chosen
        for hold, unit in zip(opens[task], named, strict=True)
    }
    cleaned = [hold for *_, named in chosen for hold in named]
    return assemble(tables_of(problem), choices, units, (), cleaned)


def _contact(problem: Problem, hold: int) -> bool:
    return problem.resources[problem.holds[hold].resource].contact


@pytest.mark.parametrize("name", ["small", "demo"])
def test_every_task_of_the_seed_kitchens(name: str) -> None:
    _, plan = planned_seed(name)
    assert_held_where_tight(plan.workload.problem, plan.solution.timetable)
