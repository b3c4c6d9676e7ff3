"""Enter a day: read what stands, save what was entered as the next version of the kitchen file."""

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from zoneinfo import ZoneInfo

from planner.entry.edit import DayEntered, EnteredFile, EntryErrors, entered
from planner.entry.lines import DayEntries, entries_of
from planner.entry.services import Services, services_by_day, with_services
from planner.kitchen.reading import KitchenErrors
from service.clock import Now, today_in
from service.db.kitchens import StoredVersion
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import kept_kitchen
from service.errors import Fault, NotFoundError, StaleError
from service.usecases.kitchens import no_such_kitchen
from service.values import PlanSummary
from web.language import _

_WEEK = dt.timedelta(7)
_Change = Callable[[bytes, dt.date], EnteredFile]
"""A file and today into the changed file."""
_OFFERED = 4
"""Days whose services may be taken over: more are hard to choose from."""


@dataclass(frozen=True, slots=True)
class ServicesOf:
    """The services of one day, as a file has or had them."""

    date: dt.date
    services: Services


@dataclass(frozen=True, slots=True)
class DayNow:
    """A day as it stands.

    Attributes
    ----------
    version, changed_at, changed_by
        Of the kitchen file.
    zone, today
        Of the clock on the kitchen's wall.
    last_week
        The same weekday's services a week before, where any version of the file knows them.
    takable
        Days whose services may be taken over, the likeliest first, where the day has none.
    plans
        Of the day, the newest first.
    released
        The plan the floor works from, and its release's number.
    """

    slug: str
    version: int
    changed_at: dt.datetime
    changed_by: str
    zone: ZoneInfo
    today: dt.date
    entries: DayEntries
    last_week: ServicesOf | None
    takable: tuple[ServicesOf, ...]
    plans: tuple[PlanSummary, ...]
    released: tuple[str, int] | None


@dataclass(frozen=True, slots=True)
class SavedDay:
    """The version that holds what was entered, and what followed from it in words."""

    version: int
    changed: bool
    notes: tuple[str, ...]


def kitchen_today(database: Database, slug: str, *, now: Now) -> dt.date:
    """The date on a kitchen's wall.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    with database.reading() as unit:
        return today_in(kept_kitchen(_newest(unit, slug).document).time_zone, now)


def day_now(database: Database, slug: str, date: dt.date, *, now: Now) -> DayNow:
    """A day as it stands.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    with database.reading() as unit:
        stored = _newest(unit, slug)
        summary = unit.kitchens.summary(slug)
        last_week = _services_of(unit, slug, stored, date - _WEEK)
        plans = unit.plans.of_day(slug, date)
        release = unit.floor.release(slug, date)
    assert summary is not None  # noqa: S101 - it has a version
    kitchen = kept_kitchen(stored.document)
    entries = entries_of(kitchen, date)
    return DayNow(
        slug=slug,
        version=stored.number,
        changed_at=summary.created_at,
        changed_by=summary.created_by,
        zone=ZoneInfo(kitchen.time_zone),
        today=today_in(kitchen.time_zone, now),
        entries=entries,
        last_week=last_week,
        takable=() if entries.services else _takable(stored, date, last_week),
        plans=plans,
        released=None if release is None else (str(release.plan_id), release.number),
    )


def save_day(
    database: Database,
    slug: str,
    date: dt.date,
    version: int,
    entry: DayEntered,
    *,
    actor: str,
    now: Now,
    only_check: bool = False,
) -> SavedDay:
    """Store the kitchen file with what was entered as its next version, wholly or not at all.

    Parameters
    ----------
    version
        The version that was looked at when it was entered.
    only_check
        Store nothing, as when something else that was entered is wrong already.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    StaleError
        Somebody else has stored a newer version meanwhile.
    planner.entry.edit.EntryErrors
        What was entered cannot be.
    """

    def change(data: bytes, today: dt.date) -> EnteredFile:
        return entered(data, date, today, entry)

    return _changed(database, slug, version, change, actor=actor, now=now, only_check=only_check)


def take_services(
    database: Database,
    slug: str,
    date: dt.date,
    version: int,
    source: dt.date,
    *,
    actor: str,
    now: Now,
) -> SavedDay:
    """Take the services of another day over, covers and menu mix as they are there.

    Raises
    ------
    NotFoundError
        There is no such kitchen, or no version of its file has services on that other day.
    StaleError
        Somebody else has stored a newer version meanwhile.
    planner.kitchen.errors.KitchenErrors
        The file would be bad.
    """
    with database.reading() as unit:
        found = _services_of(unit, slug, _newest(unit, slug), source)
    if found is None:
        raise NotFoundError(
            Fault(
                "source",
                source.isoformat(),
                _("no version of the kitchen file has services on that day"),
                _("Choose another day"),
            )
        )
    services = found.services

    def change(data: bytes, _today: dt.date) -> EnteredFile:
        return with_services(data, date, services)

    return _changed(database, slug, version, change, actor=actor, now=now)


def _changed(
    database: Database,
    slug: str,
    version: int,
    change: _Change,
    *,
    actor: str,
    now: Now,
    only_check: bool = False,
) -> SavedDay:
    with database.writing() as unit:
        stored = _newest(unit, slug)
        kitchen = kept_kitchen(stored.document)
        today = today_in(kitchen.time_zone, now)
        # A form that is sent twice finds on the second time that it is saved already.
        if stored.number != version and (only_check or _changes(change, stored, today)):
            raise StaleError(
                Fault(
                    "version",
                    str(version),
                    _(
                        "somebody has changed the kitchen file meanwhile: it is at version "
                        "%(version)s",
                        version=stored.number,
                    ),
                    _("Look over what is entered and save again"),
                )
            )
        made = change(stored.document, today)
        if only_check or not made.changed:
            return SavedDay(stored.number, changed=False, notes=made.notes)
        summary, _new = unit.kitchens.add(
            slug=slug, name=kitchen.name, document=made.data, actor=actor, now=now()
        )
        unit.commit()
    return SavedDay(summary.version, changed=True, notes=made.notes)


def _changes(change: _Change, stored: StoredVersion, today: dt.date) -> bool:
    """Whether a change does anything, or would be refused."""
    try:
        return change(stored.document, today).changed
    except (EntryErrors, KitchenErrors):
        return True


@lru_cache(maxsize=16)
def _services(document: bytes) -> Mapping[str, Services]:
    return services_by_day(document)


def _newest(unit: UnitOfWork, slug: str) -> StoredVersion:
    stored = unit.kitchens.newest(slug)
    if stored is None:
        raise no_such_kitchen(slug)
    return stored


def _services_of(
    unit: UnitOfWork, slug: str, newest: StoredVersion, date: dt.date
) -> ServicesOf | None:
    """Services of a day in the newest file, else in the newest version that had some."""
    services = _services(newest.document).get(date.isoformat(), ())
    if services:
        return ServicesOf(date, services)
    for version in unit.kitchens.with_text(slug, f'"{date.isoformat()}"'):
        services = _services(version.document).get(date.isoformat(), ())
        if services:
            return ServicesOf(date, services)
    return None


def _takable(
    stored: StoredVersion, date: dt.date, last_week: ServicesOf | None
) -> tuple[ServicesOf, ...]:
    """The same weekday first, then the nearest."""
    others = [
        ServicesOf(dt.date.fromisoformat(day), services)
        for day, services in _services(stored.document).items()
        if last_week is None or day != last_week.date.isoformat()
    ]
    others.sort(key=lambda one: (one.date.weekday() != date.weekday(), abs(one.date - date)))
    first = () if last_week is None else (last_week,)
    return (*first, *others)[:_OFFERED]
