"""The solver on published job shops, against their proven optima (source in the data file)."""

from dataclasses import replace

import pytest

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.schedule.search import SearchOptions, solve
from planner.schedule.timetable import Solution, Status
from tests.outside.job_shops import JobShop, as_problem, job_shops

SHOPS = job_shops()

QUICK = [
    *("ft06", "la01", "la02", "la03", "la04", "la05", "la06", "la07", "la08", "la09", "la10"),
    *("la11", "la12", "la13", "la14", "la15", "la17"),
]
"""Proven in well under two seconds; the others are left to ``python -m tests.bench.jobshops``."""


def solved(shop: JobShop, seconds: float) -> Solution:
    """A solution that the checker passes, and whose score it confirms."""
    problem = as_problem(shop)
    solution = solve(problem, SearchOptions(seconds=seconds))
    assert check_timetable(problem, solution.timetable) == ()
    assert score_of(problem, solution.timetable) == solution.score
    assert solution.score.short == 0
    return solution


@pytest.mark.parametrize("shop", SHOPS.values(), ids=SHOPS)
def test_each_job_visits_each_machine_once(shop: JobShop) -> None:
    """That the data were taken over whole: square rows, and no optimum below what must be done."""
    for row in shop.machines:
        assert sorted(row) == list(range(len(shop.machines[0])))
    problem = as_problem(shop)
    load = [
        sum(task.minutes.get(worker, 0) for task in problem.tasks)
        for worker in range(len(problem.workers))
    ]
    assert shop.optimum >= max(*load, *map(sum, shop.durations))


@pytest.mark.parametrize("name", QUICK)
def test_job_shops_are_proven_at_their_published_optimum(name: str) -> None:
    """Better than published would mean that a rule is lost on the way; worse, that one is added."""
    solution = solved(SHOPS[name], seconds=20)
    assert solution.score.finish == SHOPS[name].optimum
    assert solution.status is Status.OPTIMAL


def test_a_pool_that_hands_cannot_fill_is_told_from_one_that_they_can() -> None:
    """A second cook at each machine, and one place: two at a time would halve the finish."""
    problem = as_problem(SHOPS["ft06"])
    cooks = len(problem.workers)
    twice = replace(
        problem,
        workers=(*problem.workers, *problem.workers),
        tasks=tuple(
            replace(
                task, minutes={w + more: m for w, m in task.minutes.items() for more in (0, cooks)}
            )
            for task in problem.tasks
        ),
    )
    solution = solve(twice, SearchOptions(seconds=20))
    assert check_timetable(twice, solution.timetable) == ()
    assert solution.score.finish == SHOPS["ft06"].optimum
    assert solution.status is Status.OPTIMAL


def test_a_search_without_leads_goes_on_as_long_as_it_may() -> None:
    """Neighbourhoods around long leads find nothing where there are none; others still do."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("planner.schedule.refine._is_small", lambda _: False)
        solution = solve(as_problem(SHOPS["la16"]), SearchOptions(deterministic_limit=0.4))
    assert solution.status is Status.FEASIBLE
    assert solution.deterministic_time > 0.3
