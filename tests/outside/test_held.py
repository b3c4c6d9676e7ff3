"""Tasks that people hold: the best timetable around them, beside all that there are."""

from dataclasses import replace

import pytest
from hypothesis import given, seed, settings
from hypothesis import strategies as st

from planner.check.timetable import check_timetable
from planner.schedule.problem import Problem
from tests.outside.brute_force import best_score
from tests.outside.random_problems import tiny_problems
from tests.outside.test_optimum import SEEDED, assert_best, checked


@st.composite
def held_problems(draw: st.DrawFn) -> Problem:
    """A tiny problem in which one or two tasks are one cook's alone, or begin by a minute."""
    problem = draw(tiny_problems(most_tasks=4))
    tasks = list(problem.tasks)
    for index in draw(st.sets(st.integers(0, len(tasks) - 1), min_size=1, max_size=2)):
        task = tasks[index]
        if draw(st.booleans()):
            worker = draw(st.sampled_from(sorted(task.minutes)))
            task = replace(task, minutes={worker: task.minutes[worker]})
        at = draw(st.integers(task.release, problem.start + 9))
        release = at if draw(st.booleans()) else task.release
        tasks[index] = replace(task, release=release, start_by=at)
    return replace(problem, tasks=tuple(tasks))


@pytest.mark.parametrize("number", range(4))
def test_the_best_around_what_is_held_is_found(number: int) -> None:
    @seed(number)
    @settings(SEEDED, max_examples=30)
    @given(held_problems())
    def agree(problem: Problem) -> None:
        assert_best(problem, best_score(problem))

    agree()


@pytest.mark.parametrize("number", range(2))
def test_searched_as_a_large_problem_is_nothing_held_is_moved(number: int) -> None:
    @seed(number)
    @settings(SEEDED, max_examples=8)
    @given(held_problems())
    def agree(problem: Problem) -> None:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("planner.schedule.refine._is_small", lambda _: False)
            solution = checked(problem, seconds=0.2, workers=2)
        assert solution.score >= best_score(problem)
        assert not check_timetable(problem, solution.timetable)

    agree()
