"""What a new plan changes for whom."""

from dataclasses import dataclass
from enum import StrEnum

from planner.kitchen.catalog import Catalog
from planner.lots.types import Lot, Part
from planner.replan.match import Match
from planner.replan.residual import Residual
from planner.schedule.timetable import Timetable

_LEAST = 5
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
    """One lot that is different: cook ids and starts (minutes) before and after, where it has them.

    ``food`` and ``operation`` are names.
    """

    kind: Kind
    lot: str
    operation: str
    food: str
    grams: float
    cook_before: str | None = None
    cook: str | None = None
    start_before: int | None = None
    start: int | None = None


def changes_of(
    catalog: Catalog, rest: Residual, known: Match, timetable: Timetable
) -> tuple[Change, ...]:
    """Everything that is different, in the order of the new starts; what is gone comes last."""
    by_task = {item.task: item for item in timetable.assignments}
    cooks = rest.workload.cooks
    found: list[Change] = []
    for lot in rest.workload.lots:
        for item in lot.tasks:
            # Of a lot under way, who takes it out; of a new one, who begins it.
            if item.part is not Part.WORK and lot.index < rest.new_lots:
                continue
            before, after = known.old.get(item.task), by_task.get(item.task)
            name = (lot.id, catalog.operations[lot.operation].name, catalog.name(lot.food))
            if after is None:
                if before is not None or lot.index < rest.new_lots:
                    found.append(
                        Change(
                            Kind.LEFT_OUT,
                            *name,
                            lot.grams_in,
                            cooks[before.worker] if before else None,
                            None,
                            before.start if before else None,
                        )
                    )
                continue
            if before is None:
                kind = Kind.ADDED
            elif before.worker != after.worker:
                kind = Kind.MOVED
            elif after.start - before.start >= _LEAST:
                kind = Kind.LATER
            elif before.start - after.start >= _LEAST:
                kind = Kind.EARLIER
            else:
                continue
            found.append(
                Change(
                    kind,
                    *name,
                    lot.grams_in,
                    cooks[before.worker] if before else None,
                    cooks[after.worker],
                    before.start if before else None,
                    after.start,
                )
            )
    found.sort(key=lambda one: (one.start is None, one.start or 0, one.lot))
    return (*found, *(_dropped(catalog, lot) for lot in known.dropped))


def _dropped(catalog: Catalog, lot: Lot) -> Change:
    return Change(
        Kind.DROPPED,
        lot.id,
        catalog.operations[lot.operation].name,
        catalog.name(lot.food),
        lot.grams_in,
    )
