"""The table of lead minutes is the leads themselves, added up."""

import pytest
from hypothesis import HealthCheck, given, settings

from planner.schedule.leads import lead_between, lead_minutes
from planner.schedule.problem import (
    Changeovers,
    Family,
    Hygiene,
    Job,
    Problem,
    Promise,
    Serving,
    Task,
    Walk,
    Worker,
)
from planner.schedule.search import SearchOptions, solve
from planner.schedule.timetable import Status
from tests.bench.generate import generate
from tests.kitchens.problems import at
from tests.outside.random_problems import tiny_problems


def assert_same(problem: Problem) -> None:
    families, changeovers = problem.families, problem.changeovers
    table = lead_minutes(families, changeovers)
    for row, before in zip(table, (*families, None), strict=True):
        for minutes, after in zip(row, families, strict=True):
            assert minutes == lead_between(before, after, changeovers).total


@given(tiny_problems())
@settings(max_examples=50, deadline=None, suppress_health_check=list(HealthCheck))
def test_the_table_adds_up(problem: Problem) -> None:
    assert_same(problem)


def test_the_table_of_a_house_adds_up() -> None:
    assert_same(generate("house", "tight", 1).problem)


def three_stations(*walks: Walk) -> Problem:
    """Sink first, oven and board after it in either order, and ten minutes for each way else."""
    names = ("sink", "oven", "board")
    return Problem(
        start=at(0),
        horizon=at(120),
        workers=(Worker("a", at(0), at(120), at(120)),),
        resources=(),
        families=tuple(Family("work", name, name, Hygiene(), 0) for name in names),
        tasks=tuple(
            Task(name, index, index, {0: 5}, at(0), until=at(5) if index == 0 else at(120))
            for index, name in enumerate(names)
        ),
        jobs=tuple(
            Job(name, (index,), serves=(Serving(index, "all", 1),))
            for index, name in enumerate(names)
        ),
        promises=tuple(Promise(name, 1) for name in names),
        changeovers=Changeovers(another_station=10, walks=walks),
    )


@pytest.mark.parametrize(("near", "second"), [("oven", 1), ("board", 2)])
def test_the_order_follows_the_shorter_walk(near: str, second: int) -> None:
    """Whichever is near the sink comes next: the other way round costs 6 minutes more."""
    far = "board" if near == "oven" else "oven"
    problem = three_stations(Walk("sink", near, 2), Walk(far, "sink", 8), Walk("oven", "board", 4))
    found = solve(problem, SearchOptions(seconds=5, workers=1))
    line = sorted(found.timetable.assignments, key=lambda item: item.start)
    assert [item.task for item in line][:2] == [0, second]
    assert [item.lead.changeover for item in line] == [0, 2, 4]
    assert found.score.labor == 15 + 6
    assert found.status is Status.OPTIMAL
