"""Which batches are late by where the floor stands now, and which only lag behind the plan."""

from collections.abc import Iterator
from dataclasses import dataclass

from planner.floor.progress import BatchProgress, Stage, progress_of
from planner.floor.state import Floor
from planner.sheet.types import KitchenSheet

_SLACK = 5
"""Minutes behind the plan that nobody need be told of; starting guess."""


@dataclass(frozen=True, slots=True)
class Lag:
    """A batch that is not where it should be.

    ``late`` is by how many minutes its food will miss the time it must be ready, if its cook goes
    on (or begins) now and keeps the planned pace; 0: it will not. ``behind`` is how long ago the
    plan had its hands-on work end; 0 or less: it is still planned to go on.
    """

    progress: BatchProgress
    late: float
    behind: float


def lagging(sheet: KitchenSheet, floor: Floor, now: float) -> tuple[Lag, ...]:
    """What is late, the first that must be ready first; then what lags behind the plan, the most
    first. ``now`` in minutes after midnight of the planned day.
    """
    return tuple(sorted(_lagging(sheet, floor, now), key=_urgency))


def _lagging(sheet: KitchenSheet, floor: Floor, now: float) -> Iterator[Lag]:
    for cook in sheet.cooks:
        for one in progress_of(cook, floor):
            if one.stage is Stage.DONE:
                continue
            due = one.batch.due
            late = 0.0 if due is None else max(0.0, _ready(one, now) - due)
            behind = now - one.batch.end
            if late > 0 or behind > _SLACK:
                yield Lag(one, late, behind)


def _ready(one: BatchProgress, now: float) -> float:
    """When the food will be ready at the earliest, at the planned pace."""
    batch = one.batch
    if one.begun is None:
        done = max(now, batch.work_start) + batch.hands_on
    else:
        done = max(now, one.begun.at + batch.hands_on)
    return done + batch.unattended


def _urgency(lag: Lag) -> tuple[bool, float, int]:
    batch = lag.progress.batch
    is_late = lag.late > 0 and batch.due is not None
    return not is_late, float(batch.due or 0) if is_late else -lag.behind, batch.number
