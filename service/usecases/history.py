"""What a kitchen's days took: read once, kept at hand, read again only where more was ticked."""

import datetime as dt
import json
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from planner.floor.days import DayLabor, day_labor
from planner.floor.state import floor_of
from service.clock import Now, today_in
from service.db.floor import StoredTick
from service.db.history import ReleasedDay, StoredPlan
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import read_sheet, time_zone_of
from service.errors import Fault, InvalidError
from service.kept import Kept
from service.usecases.floor import tick_of
from service.usecases.kitchens import no_such_kitchen
from service.usecases.released import ReleasedPlan, released_from
from web.language import _

MOST_DAYS = 126
"""In one range: eighteen weeks. More would be read anew each time."""
INVENTED = "invented"
"""Names the device of ticks that nobody made: the demo's past."""
_USUAL = 28


@dataclass(frozen=True, slots=True)
class LaborHistory:
    """Days of a kitchen that were worked, from ``first`` to ``last``; ``today`` may not be over.

    ``known`` is the first and the last day that anything was released for, or None; ``invented``
    says that some of what was ticked nobody did.
    """

    slug: str
    kitchen: str
    first: dt.date
    last: dt.date
    today: dt.date
    known: tuple[dt.date, dt.date] | None
    days: tuple[DayLabor, ...]
    invented: bool = False


@dataclass(frozen=True, slots=True)
class _Known:
    """A day as it was when so many ticks of it were kept."""

    version: int
    day: DayLabor
    invented: bool


class LaborHistories:
    """Reads days and keeps those it has read.

    Parameters
    ----------
    database
        Where they are stored.
    """

    def __init__(self, database: Database) -> None:
        self._database = database
        self._days: Kept[uuid.UUID, _Known] = Kept(MOST_DAYS)

    def of(
        self, slug: str, first: dt.date | None, last: dt.date | None, *, now: Now
    ) -> LaborHistory:
        """Days from ``first`` to ``last``, both included.

        Where ``last`` is not given it is today, or the last day before with a release; where
        ``first`` is not, four weeks before that.

        Raises
        ------
        NotFoundError
            There is no such kitchen.
        InvalidError
            The range is empty or too long.
        """
        with self._database.reading() as unit:
            newest = unit.kitchens.newest(slug)
            if newest is None:
                raise no_such_kitchen(slug)
            head = json.loads(newest.document)
            today = today_in(head.get("time_zone", "UTC"), now)
            known = unit.history.span(slug)
            first, last = _range(first, last, today, known)
            released = unit.history.days(slug, first, last)
            found = {
                day.date: kept
                for day in released
                if (kept := self._days.get(day.releases[0])) and kept.version == day.version
            }
            missing = [day for day in released if day.date not in found]
            found |= _read(unit, missing) if missing else {}
        for day in missing:
            self._days.put(day.releases[0], found[day.date])
        days = [found[day.date] for day in released]
        return LaborHistory(
            slug=slug,
            kitchen=head["name"],
            first=first,
            last=last,
            today=today,
            known=known,
            days=tuple(one.day for one in days),
            invented=any(one.invented for one in days),
        )


def _range(
    first: dt.date | None,
    last: dt.date | None,
    today: dt.date,
    known: tuple[dt.date, dt.date] | None,
) -> tuple[dt.date, dt.date]:
    if last is None:
        last = max(today if known is None else min(today, known[1]), first or dt.date.min)
    if first is None:
        first = last - dt.timedelta(min(_USUAL - 1, (last - dt.date.min).days))
    if first > last:
        raise InvalidError(
            Fault(
                "from",
                first.isoformat(),
                _("it is after %(last)s", last=last),
                _("Choose an earlier first day"),
            )
        )
    if (last - first).days >= MOST_DAYS:
        raise InvalidError(
            Fault(
                "from",
                first.isoformat(),
                _(
                    "up to %(last)s that is more than %(n)s days",
                    last=last,
                    n=MOST_DAYS,
                ),
                _("Choose a first day from %(day)s on", day=last - dt.timedelta(MOST_DAYS - 1)),
            )
        )
    return first, last


def _read(unit: UnitOfWork, days: Sequence[ReleasedDay]) -> Mapping[dt.date, _Known]:
    """Days out of the database: three queries, however many they are."""
    stored = unit.history.plans([key for day in days for key in {day.plan_id, day.first_plan_id}])
    versions = unit.history.documents(list({plan.version_id for plan in stored.values()}))
    zones = {key: ZoneInfo(time_zone_of(text)) for key, text in versions.items()}
    ticks = unit.history.ticks([release for day in days for release in day.releases])
    return {day.date: _day(day, stored, zones, ticks) for day in days}


def _day(
    day: ReleasedDay,
    stored: Mapping[uuid.UUID, StoredPlan],
    zones: Mapping[uuid.UUID, ZoneInfo],
    ticks: Mapping[uuid.UUID, Sequence[StoredTick]],
) -> _Known:
    def plan(key: uuid.UUID) -> ReleasedPlan:
        return released_from(read_sheet(stored[key].sheet), zones[stored[key].version_id])

    worked = plan(day.plan_id)
    planned = worked if day.first_plan_id == day.plan_id else plan(day.first_plan_id)
    told = [tick for release in day.releases for tick in ticks.get(release, ())]
    floor = floor_of(tick_of(worked, tick) for tick in told)
    return _Known(
        version=day.version,
        day=day_labor(planned.sheet, worked.sheet, floor, day.number),
        invented=any(tick.device == INVENTED for tick in told),
    )
