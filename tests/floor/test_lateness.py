"""Late is what misses its time; behind is what only lags."""

import pytest

from planner.floor.lateness import lagging
from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Act
from tests.web.floor.example import floor_sheet, tick

SHEET = floor_sheet()
DUE = next(
    batch
    for cook in SHEET.cooks
    for batch in cook.batches
    if batch.due and not batch.late and batch.part == "work"
)


def _lag(floor: Floor, now: float) -> tuple[float, float] | None:
    for lag in lagging(SHEET, floor, now):
        if lag.progress.batch.number == DUE.number:
            return lag.late, lag.behind
    return None


def test_before_its_time_nothing_lags() -> None:
    assert _lag(Floor(), DUE.work_start) is None


def test_not_begun_it_is_late_as_soon_as_its_work_no_longer_fits() -> None:
    assert DUE.due is not None
    last = DUE.due - DUE.hands_on - DUE.unattended
    late = _lag(Floor(), last + 7)
    assert late is not None
    assert late[0] == pytest.approx(7)


def test_once_begun_only_what_is_left_counts() -> None:
    assert DUE.due is not None
    begun = DUE.due - DUE.hands_on - DUE.unattended
    lag = _lag(floor_of([tick(Act.BEGUN, DUE, begun)]), begun + 1)
    assert lag is None or lag[0] == 0


def test_what_is_done_lags_no_more() -> None:
    assert _lag(floor_of([tick(Act.DONE, DUE, 2000)]), 3000) is None


def test_late_comes_before_behind_and_the_first_due_first() -> None:
    lags = lagging(SHEET, Floor(), 12 * 60)
    late = [lag for lag in lags if lag.late > 0]
    assert late
    assert len(late) < len(lags)
    assert list(lags[: len(late)]) == late
    dues = [lag.progress.batch.due or 0 for lag in late]
    assert dues == sorted(dues)
    behind = [lag.behind for lag in lags[len(late) :]]
    assert behind == sorted(behind, reverse=True)
