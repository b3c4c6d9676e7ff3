"""A released plan as the floor needs it, read once: a plan that is done never changes."""

import datetime as dt
import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field
from zoneinfo import ZoneInfo

from planner.floor.state import Floor
from planner.floor.ticks import Tick
from planner.sheet.types import KitchenSheet
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import kept_sheet, time_zone_of
from service.kept import Kept

_KEPT = 8


@dataclass(frozen=True, slots=True)
class ReleasedPlan:
    """A sheet with what ticks of it may name, and its kitchen's clock."""

    sheet: KitchenSheet
    zone: ZoneInfo
    cooks: frozenset[str]
    tasks: frozenset[str]

    @property
    def midnight(self) -> dt.datetime:
        """When the planned day begins on the kitchen's wall."""
        return dt.datetime.combine(self.sheet.date, dt.time(), self.zone)

    def minutes(self, moment: dt.datetime) -> float:
        """Minutes after midnight of the planned day, as the clock on the kitchen's wall shows."""
        wall = moment.astimezone(self.zone).replace(tzinfo=None)
        return (wall - self.midnight.replace(tzinfo=None)).total_seconds() / 60


@dataclass(frozen=True, slots=True)
class Told:
    """Ticks of a release by the keys of their rows, in order, and what they come to together."""

    ticks: Mapping[uuid.UUID, Tick] = field(default_factory=dict)
    floor: Floor = field(default_factory=Floor)


class ReleasedPlans:
    """Reads released plans and keeps the last few at hand, with what was ticked of them.

    ``told`` is by release; what is not in it yet has to be read.

    Parameters
    ----------
    database
        Where they are stored.
    """

    def __init__(self, database: Database) -> None:
        self._database = database
        self._plans: Kept[uuid.UUID, ReleasedPlan] = Kept(_KEPT)
        self.told: Kept[uuid.UUID, Told] = Kept(_KEPT)

    def of(self, plan_id: uuid.UUID) -> ReleasedPlan:
        """The plan with this key, which a release names."""
        return self._plans.get(plan_id) or self._plans.put(plan_id, self._read(plan_id))

    def _read(self, plan_id: uuid.UUID) -> ReleasedPlan:
        with self._database.reading() as unit:
            return released_plan(unit, plan_id)


def released_plan(unit: UnitOfWork, plan_id: uuid.UUID) -> ReleasedPlan:
    """A plan that was released, read anew."""
    texts = unit.plans.texts(plan_id)
    version, _, _ = unit.plans.inputs(plan_id)
    document = unit.kitchens.version(version).document
    if texts is None:
        raise LookupError(f"plan {plan_id} was released and has no sheet")
    return released_from(kept_sheet(texts.sheet), ZoneInfo(time_zone_of(document)))


def released_from(sheet: KitchenSheet, zone: ZoneInfo) -> ReleasedPlan:
    """A plan by its sheet and its kitchen's clock."""
    return ReleasedPlan(
        sheet=sheet,
        zone=zone,
        cooks=frozenset(cook.cook for cook in sheet.cooks),
        tasks=frozenset(
            task.id for cook in sheet.cooks for batch in cook.batches for task in batch.tasks
        ),
    )
