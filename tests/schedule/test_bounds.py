"""No bound is above the best of all timetables, and each says something where it should."""

from dataclasses import replace

from hypothesis import HealthCheck, given, settings

from planner.schedule.assignment import assignment_bound
from planner.schedule.bounds import choice_bounds, without_leads
from planner.schedule.capacity import least_tardiness, limits
from planner.schedule.construct import constructive_plans
from planner.schedule.effort import Effort
from planner.schedule.problem import (
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Promise,
    Resource,
    Serving,
    Task,
    Wait,
    Worker,
)
from planner.schedule.simple_bounds import simple_bounds
from planner.schedule.tables import tables_of
from planner.schedule.timetable import TERMS, Bound, Score, Term
from tests.outside.brute_force import best_score
from tests.outside.random_problems import tiny_problems

EFFORT = Effort(seconds=5.0, deterministic=5.0)


def assert_true_of(best: Score, plan: Score, bounds: list[Bound]) -> None:
    """A bound speaks of plans no worse than ``plan`` in every earlier term."""
    for bound in bounds:
        earlier = TERMS[: TERMS.index(bound.term)]
        if all(best.term(term) <= plan.term(term) for term in earlier):
            assert bound.bound <= best.term(bound.term), bound


@given(tiny_problems(most_tasks=5))
@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_bound_is_above_the_best_of_all_timetables(problem: Problem) -> None:
    """Stated for the best plan and for a constructive one, which may be worse in every term."""
    best = best_score(problem)
    tables = tables_of(problem)
    _, timetable, score = next(constructive_plans(tables))
    for plan in (best, score):
        assert_true_of(best, plan, list(simple_bounds(tables, plan).values()))
        assert_true_of(best, plan, choice_bounds(tables, plan, EFFORT))
        assert_true_of(best, plan, [assignment_bound(tables, plan, EFFORT)])
    assert_true_of(best, score, without_leads(tables, timetable, score, EFFORT))
    if best.short == 0:
        assert least_tardiness(tables) <= best.tardiness


def day(
    minutes: tuple[int, ...],
    cooks: int = 1,
    *,
    due: int | None = None,
    until: int | None = None,
    ovens: int = 0,
    horizon: int = 600,
) -> Problem:
    """Lots of one task each, all for a promise of their own, from 0 to ``horizon``."""
    return Problem(
        start=0,
        horizon=horizon,
        workers=tuple(Worker(f"cook {c}", 0, horizon, horizon) for c in range(cooks)),
        resources=(Resource("oven", ovens),) if ovens else (),
        families=(Family("cut", "bean", "bench", Hygiene(), 0),),
        tasks=tuple(
            Task(f"task {i}", i, 0, dict.fromkeys(range(cooks), m), 0, due=due, until=until)
            for i, m in enumerate(minutes)
        ),
        jobs=tuple(
            Job(f"lot {i}", (i,), serves=(Serving(i, "bean", 10 + i),)) for i in range(len(minutes))
        ),
        holds=tuple(Hold(0, i, i) for i in range(len(minutes))) if ovens else (),
        promises=tuple(Promise(f"dish {i}", 10 + i) for i in range(len(minutes))),
    )


def choice(problem: Problem, plan: Score) -> dict[Term, int]:
    return {b.term: b.bound for b in choice_bounds(tables_of(problem), plan, EFFORT)}


def test_more_work_than_minutes_leaves_the_least_wanted_short() -> None:
    """Three lots of an hour, of use for two hours: the one of ten portions is left."""
    problem = day((60, 60, 60), until=120)
    assert len(limits(tables_of(problem))) == 1
    assert choice(problem, Score(33, 0, 0, 0, 0))[Term.SHORT] == 10


def test_an_oven_is_as_short_as_a_cook() -> None:
    """Four cooks and one oven: it holds one lot of an hour at a time."""
    problem = day((60, 60, 60), cooks=4, until=120, ovens=1)
    assert choice(problem, Score(33, 0, 0, 0, 0))[Term.SHORT] == 10


def test_a_break_is_no_time_to_work_in() -> None:
    problem = day((60, 60), until=120)
    assert choice(problem, Score(21, 0, 0, 0, 0))[Term.SHORT] == 0
    pause = replace(problem.workers[0], blocked=((60, 70),))
    assert choice(replace(problem, workers=(pause,)), Score(21, 0, 0, 0, 0))[Term.SHORT] == 10


def test_what_must_be_made_is_labor() -> None:
    """With ten short one of three lots may be left out, the longest of them if it is that one."""
    problem = day((90, 60, 30))
    assert choice(problem, Score(10, 0, 500, 0, 0))[Term.LABOR] == 90
    assert choice(problem, Score(0, 0, 500, 0, 0))[Term.LABOR] == 180


def test_more_work_than_minutes_is_late() -> None:
    """Three lots of an hour, one cook, due after 100 minutes: the last is ready after 180."""
    assert least_tardiness(tables_of(day((60, 60, 60), due=100))) == 80
    assert least_tardiness(tables_of(day((60, 60, 60), cooks=2, due=100))) == 0
    assert least_tardiness(tables_of(day((60, 60, 60), cooks=2, due=80))) == 10
    assert least_tardiness(tables_of(day((60, 60, 60), cooks=4, due=100, ovens=1))) == 80


def test_a_chain_longer_than_the_day_is_not_made() -> None:
    """Its second task cannot end by when it is of use, since a break lies between."""
    problem = day((60, 60))
    waits = (Wait(0, 1),)
    jobs = (Job("lot 0", (0, 1), serves=(Serving(0, "bean", 10),)),)
    tasks = (
        problem.tasks[0],
        replace(problem.tasks[1], lot=0, until=140),
    )
    chain = replace(problem, waits=waits, jobs=jobs, tasks=tasks)
    assert tables_of(chain).impossible == frozenset()
    pause = replace(problem.workers[0], blocked=((50, 80),))
    broken = replace(chain, workers=(pause,))
    assert tables_of(broken).impossible == {0}
    assert simple_bounds(tables_of(broken), Score(10, 0, 0, 0, 0))[Term.SHORT].bound == 10


def test_each_chain_by_itself_is_late_where_its_cooks_come_late() -> None:
    problem = day((60,), due=100)
    late = replace(problem.workers[0], start=70)
    bounds = simple_bounds(tables_of(replace(problem, workers=(late,))), Score(0, 40, 60, 0, 130))
    assert bounds[Term.TARDINESS].bound == 30
    assert bounds[Term.FINISH].bound == 130
