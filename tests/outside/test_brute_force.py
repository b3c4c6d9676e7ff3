"""Trying everything agrees with paper, with the checker, and with the solver."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import combinations, product

import pytest
from hypothesis import HealthCheck, given, settings

from planner.check.leads import expected_leads, left_unclean
from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.schedule.problem import Problem
from planner.schedule.timetable import Assignment, Timetable
from tests.kitchens import problems
from tests.kitchens.problems import Drawn
from tests.outside.brute_force import all_timetables, best_score
from tests.outside.random_problems import tiny_problems


@pytest.mark.parametrize("draw", problems.ALL, ids=lambda draw: draw.__name__)
def test_trying_everything_agrees_with_paper(draw: Callable[[], Drawn]) -> None:
    drawn = draw()
    assert best_score(drawn.problem) == drawn.score


def every_subset(holds: list[int]) -> list[tuple[int, ...]]:
    return [some for size in range(len(holds) + 1) for some in combinations(holds, size)]


def named(problem: Problem, timetable: Timetable) -> frozenset[object]:
    """A timetable as it is told apart from others, with cleans that go without saying said."""
    unclean = left_unclean(problem, timetable.assignments)
    return frozenset(
        (
            a.task,
            a.worker,
            a.start,
            tuple(unit for _, unit in a.units),
            a.cleaned or tuple(sorted(hold for hold, _ in a.units if hold in unclean)),
        )
        for a in timetable.assignments
    )


def every_timetable(problem: Problem) -> Iterator[Timetable]:
    """Every way to do or leave each task, with the leads that the checker asks for."""
    ways: list[list[Assignment | None]] = []
    may_clean = problem.changeovers.clean_every is not None
    for index, task in enumerate(problem.tasks):
        contact = [
            h
            for h, hold in enumerate(problem.holds)
            if hold.first == index and problem.resources[hold.resource].contact
        ]
        units = [range(problem.resources[problem.holds[h].resource].capacity) for h in contact]
        ways.append([None])
        ways[-1] += [
            Assignment(
                index,
                worker,
                start,
                start + minutes,
                units=tuple(zip(contact, chosen, strict=True)),
                cleaned=cleaned,
            )
            for worker, minutes in task.minutes.items()
            for start in range(problem.start, problem.horizon)
            for chosen in product(*units)
            for cleaned in every_subset(contact if may_clean else [])
        ]
    for chosen_ways in product(*ways):
        done = tuple(a for a in chosen_ways if a is not None)
        leads = expected_leads(problem, done)
        yield Timetable(
            tuple(replace(a, lead=lead) for a, (lead, _) in zip(done, leads, strict=True))
        )


@given(tiny_problems(minutes=7, most_tasks=3, by_clock=True))
@settings(max_examples=20, deadline=None, suppress_health_check=list(HealthCheck))
def test_the_checker_passes_the_same_timetables_at_the_same_scores(problem: Problem) -> None:
    """All of them, not only the best: a rule that either side misses shows as a difference."""
    passed = {
        named(problem, t): score_of(problem, t)
        for t in every_timetable(problem)
        if not check_timetable(problem, t)
    }
    tried = all_timetables(problem)
    assert passed == tried
    assert min(tried.values()) == best_score(problem)
