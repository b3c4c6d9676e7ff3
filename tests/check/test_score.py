"""The score of a timetable, term by term."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from planner.check.score import score_of
from planner.schedule.problem import Job, Promise, Serving
from planner.schedule.timetable import Assignment, Score, Timetable
from tests.kitchens import problems
from tests.kitchens.problems import Drawn, at


@pytest.mark.parametrize("draw", problems.ALL, ids=lambda draw: draw.__name__)
def test_the_score_worked_out_by_hand(draw: Callable[[], Drawn]) -> None:
    drawn = draw()
    assert score_of(drawn.problem, drawn.timetable) == drawn.score


def test_doing_nothing_costs_only_what_is_short() -> None:
    assert score_of(problems.oven_of_two().problem, Timetable(())) == Score(30, 0, 0, 0, 0)


def test_a_promise_is_as_short_as_its_shortest_component() -> None:
    """Two lots of 4 and 5 of one component add up; another component of 6 does not add."""
    problem = replace(
        problems.herbs_before_doors().problem,
        jobs=(
            Job("a", (0,), serves=(Serving(0, "rice", 4),)),
            Job("b", (0,), serves=(Serving(0, "rice", 5),)),
            Job("c", (0,), serves=(Serving(0, "sauce", 6), Serving(1, "sauce", 2))),
        ),
        promises=(Promise("plate", 9, weight=3), Promise("side", 2)),
    )
    assert score_of(problem, Timetable(())).short == 3 * 9 + 2


def test_late_and_early_minutes_are_weighted() -> None:
    drawn = problems.herbs_before_doors()
    (task,) = drawn.problem.tasks
    problem = replace(drawn.problem, tasks=(replace(task, due_weight=5, fresh_weight=2),))
    early, late = (Timetable((Assignment(0, 0, end - 2, end),)) for end in (at(12), at(17)))
    assert score_of(problem, early) == Score(0, 0, 2, 2 * 3, 12)
    assert score_of(problem, late) == Score(0, 5 * 2, 2, 0, 17)


def test_each_cook_pays_overtime_past_the_end_of_the_shift() -> None:
    """Ends at 4 and 9, shifts to 2 and 6: two minutes and three."""
    drawn = problems.two_cooks_one_board()
    a, b = drawn.problem.workers
    problem = replace(drawn.problem, workers=(replace(a, end=at(2)), replace(b, end=at(6))))
    assert score_of(problem, drawn.timetable).labor == drawn.score.labor + 2 + 3


def test_the_last_end_counts_in_whatever_order_tasks_are_told() -> None:
    """One cook, ends at 5 and 13, a shift to 10: three minutes, also told backwards."""
    drawn = problems.raw_then_salad()
    (cook,) = drawn.problem.workers
    problem = replace(drawn.problem, workers=(replace(cook, end=at(10)),))
    told = Timetable(tuple(reversed(drawn.timetable.assignments)))
    assert score_of(problem, told).labor == drawn.score.labor + 3
    assert score_of(problem, told).finish == 13
