"""What a new plan changes for whom."""

from dataclasses import dataclass
from enum import StrEnum

from planner.kitchen.catalog import Catalog
from planner.lots.types import Lot, Part
from planner.replan.match import Match
from planner.replan.residual import Residual
from planner.schedule.timetable import Assignment, Timetable

LEAST_SHIFT = 5
"""Minutes that a start may shift without being a change for anybody."""


class Kind(StrEnum):
    """How a batch is different from the old plan."""

    ADDED = "added"
    DROPPED = "dropped"
    """Not wanted any more."""
    LEFT_OUT = "left out"
    """Wanted, and not made."""
    MOVED = "moved"
    """To another cook."""
    LATER = "later"
    EARLIER = "earlier"


@dataclass(frozen=True, slots=True)
class Change:
    """One task that is different: cook ids and times (minutes) before and after, if it has any.

    ``part`` is the lot's hands-on beginning or, of one under way, what is left. ``food`` and
    ``operation`` are names.
    """

    kind: Kind
    lot: str
    part: Part
    operation: str
    food: str
    grams: float
    cook_before: str | None = None
    cook: str | None = None
    start_before: int | None = None
    start: int | None = None
    end: int | None = None


def changes_of(
    catalog: Catalog, rest: Residual, known: Match, timetable: Timetable
) -> tuple[Change, ...]:
    """Everything that is different, in the order of the new starts; what is gone comes last."""
    by_task = {item.task: item for item in timetable.assignments}
    found: list[Change] = []
    for lot in rest.workload.lots:
        for item in lot.tasks:
            # Of a lot under way, who takes it out; of a new one, who begins it.
            if (item.part is Part.WORK) != (lot.index < rest.new_lots):
                continue
            before, after = known.old.get(item.task), by_task.get(item.task)
            kind = _kind(before, after, new=lot.index in known.added)
            if kind is not None:
                found.append(
                    _change(catalog, rest.workload.cooks, kind, lot, item.part, before, after)
                )
    found.sort(key=lambda one: (one.start is None, one.start or 0, one.lot))
    dropped = (
        _change(catalog, rest.workload.cooks, Kind.DROPPED, lot, Part.WORK, None, None)
        for lot in known.dropped
    )
    return (*found, *dropped)


def _kind(before: Assignment | None, after: Assignment | None, *, new: bool) -> Kind | None:
    """How a task is different; None where it is not, or was not made before either."""
    if after is None:
        return Kind.LEFT_OUT if before is not None or new else None
    if before is None:
        return Kind.ADDED
    if before.worker != after.worker:
        return Kind.MOVED
    if after.start - before.start >= LEAST_SHIFT:
        return Kind.LATER
    return Kind.EARLIER if before.start - after.start >= LEAST_SHIFT else None


def _change(
    catalog: Catalog,
    cooks: tuple[str, ...],
    kind: Kind,
    lot: Lot,
    part: Part,
    before: Assignment | None,
    after: Assignment | None,
) -> Change:
    return Change(
        kind,
        lot.id,
        part,
        catalog.operations[lot.operation].name,
        catalog.name(lot.food),
        lot.grams_in,
        cooks[before.worker] if before else None,
        cooks[after.worker] if after else None,
        before.start if before else None,
        after.start if after else None,
        after.end if after else None,
    )
