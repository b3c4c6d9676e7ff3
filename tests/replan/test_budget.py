"""All that a replan does shares its limit."""

import pytest

from planner.replan.budget import CALM, FIRST, RUNGS, SECOND, Budget
from planner.schedule.search import SearchOptions


class Clock:
    """Seconds that pass when somebody says so."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


def test_all_parts_together_are_the_limit() -> None:
    """Deterministic time has no clock to stop it."""
    budget = Budget(SearchOptions(deterministic_limit=2.0))
    first = sum(budget.part(share).limit for share in (*RUNGS, CALM))
    second = sum(budget.second().part(share).limit for share in (*RUNGS, CALM))
    assert first == pytest.approx(2.0 * FIRST)
    assert second == pytest.approx(2.0 * SECOND)
    assert first + second == pytest.approx(2.0)


def test_by_the_clock_no_part_takes_more_than_is_left() -> None:
    """Half a second of building leaves half a second for the end: of three seconds, two."""
    clock = Clock()
    budget = Budget(SearchOptions(seconds=3.0), clock(), clock=clock)
    clock.now += 0.5
    budget = budget.after_building()
    assert budget.part(1.0).seconds == pytest.approx(2.0)
    assert budget.part(0.1).seconds == pytest.approx(0.3)
    clock.now += 1.9
    assert budget.part(0.1).seconds == pytest.approx(0.1)
    assert budget.second().part(1.0).seconds == pytest.approx(0.1)
    clock.now += 5.0
    assert budget.part(0.1).seconds == 0.0
