"""Changed problems: what is changed and what is not, and that solving them is solving them."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from planner.binding.changes import (
    delivered_earlier,
    extra_hands,
    given_to,
    in_earlier,
    one_more,
    out_later,
)
from planner.explain.trials import tried
from planner.schedule.problem import Problem
from planner.schedule.search import SearchOptions, solve
from planner.troubles.change import Change
from tests.kitchens import problems
from tests.outside.brute_force import best_score
from tests.outside.random_problems import OVEN, tiny_problems

TRIES = SearchOptions(deterministic_limit=2.0, workers=1)

CHANGES: dict[str, Callable[[Problem], Problem]] = {
    "one more oven": lambda problem: one_more(problem, OVEN),
    "hands for three minutes": lambda problem: extra_hands(problem, problem.start, 3),
    "a cook in two minutes earlier": lambda problem: in_earlier(problem, {0}, 2, ()),
    "a cook on two minutes longer": lambda problem: out_later(problem, 1, 2),
    "all released two minutes earlier": lambda problem: delivered_earlier(
        problem, range(len(problem.tasks)), 2
    ),
}


@pytest.mark.parametrize("name", CHANGES)
@given(tiny_problems(minutes=8, most_tasks=3))
@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
def test_a_change_is_worth_what_trying_everything_says(name: str, problem: Problem) -> None:
    """From the best plan of the unchanged problem, and never worse than without the change."""
    before = solve(problem, TRIES)
    changed = CHANGES[name](problem)
    after, _ = tried(Change(name, changed, before.timetable), TRIES)
    assert before.score == best_score(problem)
    assert after.score == best_score(changed)
    assert (after.score.short, after.score.tardiness) <= (
        before.score.short,
        before.score.tardiness,
    )


def test_an_earlier_cook_takes_the_station_set_up_along_but_not_the_break() -> None:
    problem = problems.raw_then_salad().problem
    worker = problem.workers[0]
    blocked = ((worker.start, worker.start + 1), (worker.start + 5, worker.start + 7))
    problem = replace(problem, workers=(replace(worker, blocked=blocked),))
    earlier = in_earlier(problem, {0}, 30, {1})
    assert earlier.start == problem.start - 30
    assert earlier.workers[0].start == worker.start - 30
    assert earlier.workers[0].blocked == (
        (worker.start - 30, worker.start - 29),
        (worker.start + 5, worker.start + 7),
    )
    assert earlier.tasks[0].release == problem.start - 30
    assert earlier.tasks[1].release == problem.tasks[1].release


def test_extra_hands_that_stay_past_the_day_make_it_longer() -> None:
    """Else work that they do after the horizon would break the rule that nothing ends later."""
    problem = problems.two_cooks_one_board().problem
    longer = extra_hands(problem, problem.horizon - 1, 60)
    assert longer.horizon == longer.workers[-1].latest_end == problem.horizon + 59


def test_work_given_to_a_cook_is_for_nobody_else() -> None:
    problem = problems.two_cooks_one_board().problem
    changed = given_to(problem, [0], 1)
    assert changed.tasks[0].minutes == {1: problem.tasks[0].minutes[1]}
    assert changed.tasks[1] == problem.tasks[1]


def test_a_delivery_is_never_before_the_day() -> None:
    problem = problems.raw_then_salad().problem
    changed = delivered_earlier(problem, {1}, 90)
    assert changed.tasks[1].release == problem.start
