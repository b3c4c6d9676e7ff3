"""Breaks that the solver places, and work put down over them, against trying everything."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.schedule.assignment import assignment_bound
from planner.schedule.construct import constructive_plans
from planner.schedule.effort import Effort
from planner.schedule.lateness import lateness_bound
from planner.schedule.least_labor import least_labor
from planner.schedule.problem import Problem, Rest, Worker
from planner.schedule.reinsert import Reinsertion
from planner.schedule.rests import Slot, first_slots
from planner.schedule.score import Scorer
from planner.schedule.spans import spans_of
from planner.schedule.tables import tables_of
from tests.outside.brute_force import best_score
from tests.outside.random_problems import tiny_problems
from tests.outside.test_optimum import checked

EFFORT = Effort(seconds=5.0, deterministic=5.0)


@st.composite
def rested(draw: st.DrawFn, problem: Problem, worker: Worker) -> Worker:
    """The cook with up to two breaks instead of the stretch away, some of them to be placed."""
    rests = []
    for _ in range(draw(st.integers(0, 2))):
        earliest = draw(st.integers(problem.start, problem.horizon - 4))
        rests.append(
            Rest(draw(st.integers(1, 3)), earliest, earliest + draw(st.sampled_from((0, 1, 3))))
        )
    blocked = worker.blocked if draw(st.booleans()) else ()
    return replace(worker, blocked=blocked, rests=tuple(rests))


def _apart(slots: tuple[Slot, ...] | None) -> bool:
    """Whether breaks find room, none within another: a kitchen file with such breaks is refused."""
    if slots is None:
        return False
    return all(one[1] <= two[0] for one, two in pairwise(sorted(slots)))


@st.composite
def problems_with_rests(draw: st.DrawFn, most_tasks: int) -> Problem:
    problem = draw(tiny_problems(most_tasks=most_tasks))
    workers = tuple(draw(rested(problem, worker)) for worker in problem.workers)
    assume(all(_apart(first_slots(worker)) for worker in workers))
    tasks = tuple(replace(task, pausable=draw(st.booleans())) for task in problem.tasks)
    return replace(problem, workers=workers, tasks=tasks)


@given(problems_with_rests(4))
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
def test_the_best_of_all_timetables_and_rests_is_found(problem: Problem) -> None:
    assert checked(problem, seconds=10, workers=1).score == best_score(problem)


@given(problems_with_rests(4))
@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
def test_bounds_and_neighbourhoods_of_large_problems_keep_to_the_truth(problem: Problem) -> None:
    best = best_score(problem)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("planner.schedule.refine._WHOLE_TASKS", 0)
        solution = checked(problem, seconds=0.2, workers=2)
    assert solution.score >= best
    assert solution.bounds[0].bound <= best.short
    if solution.score.short == best.short:
        assert solution.bounds[1].bound <= best.tardiness
    if (solution.score.short, solution.score.tardiness) == (best.short, best.tardiness):
        assert solution.bounds[2].bound <= best.labor


@given(problems_with_rests(4))
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_bound_is_above_the_best_where_breaks_move_and_work_pauses(problem: Problem) -> None:
    """Each argument by itself, for the best plan and for a constructive one."""
    best = best_score(problem)
    tables = tables_of(problem)
    _, _, score = next(constructive_plans(tables))
    for plan in (best, score):
        if plan.short == best.short:
            for length in (1, 2, 5):
                assert lateness_bound(tables, plan, length, EFFORT).bound <= best.tardiness
        if (plan.short, plan.tardiness) == (best.short, best.tardiness):
            assert assignment_bound(tables, plan, EFFORT).bound <= best.labor
            spans = spans_of(tables, plan)
            if plan.short == 0 and spans.possible:
                assert least_labor(tables, spans) <= best.labor


@given(problems_with_rests(5))
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
def test_constructive_plans_and_every_step_of_reinsertion_keep_all_rules(problem: Problem) -> None:
    """Also what the search thinks a plan costs is what it costs."""
    tables = tables_of(problem)
    for _, timetable, _score in constructive_plans(tables):
        assert check_timetable(problem, timetable) == ()
    search = Reinsertion(tables, timetable, seed=1)
    for step in range(40):
        search.step(step / 40)
        search.kept = search.state
        made = search.timetable()
        assert check_timetable(problem, made) == ()
        found = Scorer(tables).score(search.state)
        assert score_of(problem, made) <= found
