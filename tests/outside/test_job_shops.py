"""The solver on published job shops, against their proven optima (source in the data file)."""

import pytest

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.schedule.search import SearchOptions, solve
from planner.schedule.timetable import Solution, Status
from tests.outside.job_shops import JobShop, as_problem, job_shops

SHOPS = job_shops()

NEAR = {"la01": 0.0, "la02": 0.05, "la03": 0.05, "la04": 0.05, "la05": 0.0}
"""How far above the optimum a few seconds may end on a busy machine, as a share of it."""


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


def test_ft06_is_solved_and_proven() -> None:
    solution = solved(SHOPS["ft06"], seconds=20)
    assert solution.score.finish == SHOPS["ft06"].optimum == 55
    assert solution.status is Status.OPTIMAL


@pytest.mark.parametrize("name", NEAR)
def test_lawrence_shops_come_near_their_optimum(name: str) -> None:
    """Never below the published optimum: that would mean that a rule is lost on the way."""
    shop = SHOPS[name]
    finish = solved(shop, seconds=4).score.finish
    assert shop.optimum <= finish <= shop.optimum * (1 + NEAR[name])
