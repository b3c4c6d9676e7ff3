"""The solver finds the best timetable of problems that are small enough to try everything."""

from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, Phase, given, seed, settings

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.schedule.problem import Problem
from planner.schedule.search import SearchOptions, solve
from planner.schedule.timetable import TERMS, Score, Solution, Status
from tests.kitchens import problems
from tests.kitchens.problems import Drawn
from tests.outside.brute_force import best_score
from tests.outside.random_problems import tiny_problems

DRAWS, EACH = 8, 40
"""So many times so many tiny kitchens, the same each time."""
SEEDED = settings(
    database=None,
    deadline=None,
    phases=(Phase.generate,),  # small as they are: nothing is gained by looking for smaller ones
    suppress_health_check=list(HealthCheck),
)


def checked(problem: Problem, seconds: float, workers: int) -> Solution:
    """A solution that the checker passes, and whose score and bounds agree with each other."""
    solution = solve(problem, SearchOptions(seconds=seconds, seed=1, workers=workers))
    assert check_timetable(problem, solution.timetable) == ()
    assert score_of(problem, solution.timetable) == solution.score
    for bound in solution.bounds:
        assert bound.bound <= bound.value == solution.score.term(bound.term)
    if solution.status is Status.OPTIMAL:
        assert all(bound.proven for bound in solution.bounds)
    return solution


def assert_best(problem: Problem, best: Score) -> None:
    """Such small problems are solved to the end, and proven."""
    solution = checked(problem, seconds=10, workers=1)
    assert solution.score == best
    assert solution.status is Status.OPTIMAL


@pytest.mark.parametrize("draw", problems.ALL, ids=lambda draw: draw.__name__)
def test_the_best_on_paper_is_found(draw: Callable[[], Drawn]) -> None:
    drawn = draw()
    assert_best(drawn.problem, drawn.score)


@pytest.mark.parametrize("number", range(DRAWS))
def test_the_best_of_all_timetables_is_found(number: int) -> None:
    """Lots that cannot be made, and lots that are not worth making, among them."""

    @seed(number)
    @settings(SEEDED, max_examples=EACH)
    @given(tiny_problems(most_tasks=5))
    def agree(problem: Problem) -> None:
        assert_best(problem, best_score(problem))

    agree()


@pytest.mark.parametrize("number", range(DRAWS))
def test_the_best_is_found_where_boards_are_cleaned_by_the_clock(number: int) -> None:
    """The same with boards that are cleaned after so long in use."""

    @seed(number)
    @settings(SEEDED, max_examples=EACH // 2)
    @given(tiny_problems(most_tasks=5, by_clock=True))
    def agree(problem: Problem) -> None:
        assert_best(problem, best_score(problem))

    agree()


@given(tiny_problems(most_tasks=5, by_clock=True))
@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
def test_bounds_and_neighbourhoods_of_large_problems_keep_to_the_truth(problem: Problem) -> None:
    """Searched as a large problem is, nothing is better than the best, nor bounded above it."""
    best = best_score(problem)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("planner.schedule.refine._is_small", lambda _: False)
        solution = checked(problem, seconds=0.2, workers=2)
    assert solution.score >= best
    if solution.status is Status.OPTIMAL:
        assert solution.score == best
    for index, bound in enumerate(solution.bounds):
        # A bound speaks of plans that are no worse in every earlier term.
        if all(best.term(term) <= solution.score.term(term) for term in TERMS[:index]):
            assert bound.bound <= best.term(bound.term)
