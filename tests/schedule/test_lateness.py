"""Lateness by pouring work: never above the best of all timetables, and something to say."""

from dataclasses import replace

from hypothesis import HealthCheck, given, settings

from planner.schedule.construct import constructive_plans
from planner.schedule.effort import Effort
from planner.schedule.lateness import lateness_bound, size_of
from planner.schedule.problem import Hold, Problem, Resource, Wait
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Score, Term
from tests.outside.brute_force import best_score
from tests.outside.random_problems import tiny_problems
from tests.schedule.test_bounds import day

EFFORT = Effort(seconds=5.0, deterministic=5.0)


@given(tiny_problems(most_tasks=5))
@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_bound_is_above_the_best_of_all_timetables(problem: Problem) -> None:
    """In stretches of a minute, of two and of five, for the best plan and a constructive one."""
    best = best_score(problem)
    tables = tables_of(problem)
    _, _, score = next(constructive_plans(tables))
    for plan in (best, score):
        if best.short <= plan.short:
            for length in (1, 2, 5):
                assert lateness_bound(tables, plan, length, EFFORT).bound <= best.tardiness


def late(problem: Problem, length: int = 5, tardiness: int = 1000) -> int:
    plan = Score(0, tardiness, 1000, 0, 600)
    bound = lateness_bound(tables_of(problem), plan, length, EFFORT)
    assert bound.term is Term.TARDINESS
    return bound.bound


def test_lots_that_share_a_cook_are_late_in_turn() -> None:
    """Three lots of an hour due at 60: late by 0, 60 and 120, and so poured in any order."""
    assert 165 <= late(day((60, 60, 60), due=60)) <= 180
    assert late(day((60, 60, 60), cooks=3, due=60)) == 0


def test_shorter_stretches_say_no_less() -> None:
    problem = day((40, 25, 35), due=30)
    assert late(problem, 60) <= late(problem, 20) <= late(problem, 5) <= late(problem, 1)


def test_a_set_up_takes_time_as_well() -> None:
    """Each lot of a family of its own: a set-up of ten minutes before each of them."""
    problem = day((50, 50), due=60)
    families = tuple(replace(problem.families[0], food=f"food {i}", set_up=10) for i in range(2))
    tasks = tuple(replace(task, family=i) for i, task in enumerate(problem.tasks))
    with_set_up = replace(problem, families=families, tasks=tasks)
    assert late(problem, 1) == 40
    assert late(with_set_up, 1) == 60


def test_a_resource_is_as_short_as_a_cook() -> None:
    problem = day((60, 60, 60), cooks=3, due=60)
    oven = replace(
        problem,
        resources=(Resource("oven", 1),),
        holds=tuple(Hold(0, i, i) for i in range(3)),
    )
    assert 165 <= late(oven) <= 180


def test_what_waits_is_late_after_what_it_waits_for() -> None:
    """Late by 0, 60 and 120 at best; the third alone would be late by 60."""
    problem = replace(day((60, 60, 30), due=60), waits=(Wait(0, 2, 30), Wait(1, 2, 30)))
    assert 140 <= late(problem) <= 180


def test_where_something_is_short_nothing_is_said() -> None:
    tables = tables_of(day((60, 60), due=60))
    assert lateness_bound(tables, Score(10, 60, 120, 0, 120), 5, EFFORT).bound == 0


def test_longer_stretches_make_a_smaller_program() -> None:
    tables = tables_of(day((60, 60), due=60))
    plan = Score(0, 60, 120, 0, 120)
    assert size_of(tables, plan, 60) < size_of(tables, plan, 5)
