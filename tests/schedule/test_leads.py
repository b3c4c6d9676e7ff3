"""The table of lead minutes is the leads themselves, added up."""

from hypothesis import HealthCheck, given, settings

from planner.schedule.leads import lead_between, lead_minutes
from planner.schedule.problem import Problem
from tests.bench.generate import generate
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
