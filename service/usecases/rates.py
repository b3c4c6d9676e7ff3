"""Learned rates: from all ticks of the last weeks, taken over into the kitchen file and back."""

import datetime as dt
import json
import uuid
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from zoneinfo import ZoneInfo

from planner.floor.review import batch_reviews
from planner.floor.state import floor_of
from planner.kitchen.document import Kitchen
from planner.kitchen.reading import KitchenErrors, read_kitchen
from planner.kitchen.work import Per
from planner.quantities.compute import kitchenry
from planner.rates.apply import Change, Use, differing, taken_back, with_rates
from planner.rates.ticked import Gathering, LotWork, Ticked
from planner.rates.types import Book, Key, LeftOut, Observation, SkillRates
from planner.wording import sentence
from service.clock import Now, today_in
from service.db.history import ReleasedDay
from service.db.kitchens import StoredVersion, VersionNote
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import kept_kitchen, kitchen_bytes
from service.errors import ConflictError, Fault, StaleError
from service.kept import Kept
from service.usecases.floor import tick_of
from service.usecases.kitchens import no_such_kitchen
from service.usecases.released import released_plan
from web.language import _

WINDOW = dt.timedelta(60)
"""Ticks of so many days count: older ones are of other people and other food."""
TAKEN_OVER, TAKEN_BACK = "rates learned", "rates back"
SET_UP_TICKED, FIRST_CUT_TICKED = "set-up ticked", "first cut ticked"
"""Who stored a version of the kitchen file, where it was one of these decisions."""
_OF_RATES = (TAKEN_OVER, TAKEN_BACK)


@dataclass(frozen=True, slots=True)
class RatesNow:
    """What ticks have taught, and what was decided.

    Attributes
    ----------
    version
        Of the kitchen file, which ``changes`` would change.
    skills
        All that is learned; ``ticked`` tells from what, and what could not be learned from.
    changes, cautious
        What taking over would change, at the mean and at the cautious quantile.
    decisions
        Rates taken over and back, and when *Start* is ticked, the newest first.
    """

    slug: str
    kitchen: Kitchen
    version: int
    zone: ZoneInfo
    days: int
    ticked: Ticked
    skills: tuple[SkillRates, ...]
    changes: tuple[Change, ...]
    cautious: tuple[Change, ...]
    decisions: tuple[VersionNote, ...]

    @property
    def can_take_back(self) -> bool:
        """The newest decision was to take rates over."""
        newest = next((one.actor for one in self.decisions if one.actor in _OF_RATES), "")
        return newest == TAKEN_OVER


CAUTIOUS = Use(quantile=0.8)
"""Four batches in five take no longer than planned with it."""


def rates_now(database: Database, slug: str, *, now: Now) -> RatesNow:
    """What is learned of a kitchen's rates.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    with database.reading() as unit:
        newest = _newest(unit, slug)
        kitchen = kept_kitchen(newest.document)
        today = today_in(kitchen.time_zone, now)
        days, ticked = _gathered(unit, slug, kitchen, today + dt.timedelta(1))
        decisions = unit.kitchens.stored_by(slug, (*_OF_RATES, SET_UP_TICKED, FIRST_CUT_TICKED))
    skills = _learned(ticked)
    return RatesNow(
        slug=slug,
        kitchen=kitchen,
        version=newest.number,
        zone=ZoneInfo(kitchen.time_zone),
        days=days,
        ticked=ticked,
        skills=skills,
        changes=with_rates(kitchen, skills)[1],
        cautious=with_rates(kitchen, skills, CAUTIOUS)[1],
        decisions=decisions,
    )


def learned_before(
    unit: UnitOfWork, slug: str, document: bytes, date: dt.date
) -> tuple[SkillRates, ...]:
    """What the days before ``date`` have taught a plan that is made from this kitchen file."""
    try:
        kitchen = kept_kitchen(document)
    except KitchenErrors:
        return ()  # Planning itself says what is wrong with the file.
    return _learned(_gathered(unit, slug, kitchen, date)[1])


def take_over(
    database: Database, slug: str, version: int, use: Use, *, now: Now
) -> tuple[int, tuple[Change, ...]]:
    """Store the kitchen file with the learned rates: (its version, what changed).

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    StaleError
        Somebody has stored a newer version than the one that was looked at.
    ConflictError
        Nothing is learned yet that would change it.
    """
    current = rates_now(database, slug, now=now)
    changed, changes = with_rates(current.kitchen, current.skills, use)
    if not changes:
        raise ConflictError(
            Fault(
                "rates",
                slug,
                _("nothing is learned that would change the kitchen file"),
                _("Tick more batches: the figures of a skill are used from five batches on"),
            )
        )

    def of(_: StoredVersion) -> Kitchen:
        return changed

    return _store(database, slug, version, of, TAKEN_OVER, now), changes


def take_back(database: Database, slug: str, version: int, *, now: Now) -> int:
    """Store the kitchen file with the rates of before they were last taken over: its version.

    Whatever else was changed since stays.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    StaleError
        Somebody has stored a newer version than the one that was looked at.
    ConflictError
        None are taken over, or they are back already.
    """
    with database.reading() as unit:
        decisions = unit.kitchens.stored_by(slug, _OF_RATES)
        if not decisions or decisions[0].actor != TAKEN_OVER:
            _newest(unit, slug)
            raise ConflictError(
                Fault(
                    "rates",
                    slug,
                    _("no learned rates are in use"),
                    _("There is nothing to take back"),
                )
            )
        after = unit.kitchens.numbered(slug, decisions[0].number)
        before = unit.kitchens.numbered(slug, decisions[0].number - 1)
    if after is None or before is None:
        raise LookupError(f"versions around {decisions[0].number} of {slug} are gone")
    earlier, later = read_kitchen(before.document), read_kitchen(after.document)
    keys = differing(earlier, later)

    def of(newest: StoredVersion) -> Kitchen:
        return taken_back(read_kitchen(newest.document), earlier, keys)

    return _store(database, slug, version, of, TAKEN_BACK, now)


def tick_set_ups(database: Database, slug: str, version: int, *, ticked: bool, now: Now) -> int:
    """Store whether *Start* is ticked before the set-up: the kitchen file's version with it.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    StaleError
        Somebody has stored a newer version than the one that was looked at.
    """
    with database.reading() as unit:
        newest = _newest(unit, slug)
    if newest.number == version and read_kitchen(newest.document).rules.set_up_ticked == ticked:
        return version  # Sent twice: it is so already.

    def of(stored: StoredVersion) -> Kitchen:
        kitchen = read_kitchen(stored.document)
        rules = kitchen.rules.model_copy(update={"set_up_ticked": ticked})
        return kitchen.model_copy(update={"rules": rules})

    actor = SET_UP_TICKED if ticked else FIRST_CUT_TICKED
    return _store(database, slug, version, of, actor, now)


def _store(
    database: Database,
    slug: str,
    version: int,
    of: Callable[[StoredVersion], Kitchen],
    actor: str,
    now: Now,
) -> int:
    with database.writing() as unit:
        newest = _newest(unit, slug)
        if newest.number != version:
            raise StaleError(
                Fault(
                    "version",
                    str(version),
                    _("the kitchen file is at version %(number)s by now", number=newest.number),
                    _("Look at the rates again"),
                )
            )
        data = kitchen_bytes(of(newest))
        name = read_kitchen(data).name
        summary, _new = unit.kitchens.add(
            slug=slug, name=name, document=data, actor=actor, now=now()
        )
        unit.commit()
    return summary.version


def _newest(unit: UnitOfWork, slug: str) -> StoredVersion:
    found = unit.kitchens.newest(slug)
    if found is None:
        raise no_such_kitchen(slug)
    return found


def _learned(ticked: Ticked) -> tuple[SkillRates, ...]:
    books = tuple(ticked.books.items())
    return tuple(_skill(found, books) for found in ticked.by_skill.values() if found)


@lru_cache(maxsize=32)
def _skill(found: tuple[Observation, ...], books: tuple[tuple[Key, Book], ...]) -> SkillRates:
    """Learned once from the same batches: a tick changes those of one skill."""
    # The mathematics loads a library that nothing else of the server needs.
    from planner.rates.fit import learn_skill  # noqa: PLC0415

    return learn_skill(found, dict(books))


def _gathered(unit: UnitOfWork, slug: str, wanted: Kitchen, until: dt.date) -> tuple[int, Ticked]:
    """(days with a release, batches of the window before ``until``), in units of ``wanted``.

    When *Start* is ticked is what the ``wanted`` file says, for all of these days: whoever says so
    tells what cooks have been doing.
    """
    gathering, days = Gathering(), 0
    units = tuple((one.id, one.per) for one in wanted.operations)
    for day in unit.history.days(slug, until - WINDOW, until - dt.timedelta(1)):
        if not day.version:
            continue
        days += 1
        key = (day.releases[0], day.version, wanted.rules.set_up_ticked, units)
        gathering.join(_days.get(key) or _days.put(key, _of_day(unit, slug, day, wanted)))
    return days, gathering.ticked()


_Units = tuple[tuple[str, Per], ...]
_days: Kept[tuple[uuid.UUID, int, bool, _Units], Gathering] = Kept(2 * WINDOW.days)
"""By the newest release of a day and how many ticks are kept, for neither plan nor tick changes,
and by what the wanted file says of ticks and units."""


def _of_day(unit: UnitOfWork, slug: str, day: ReleasedDay, wanted: Kitchen) -> Gathering:
    found = Gathering(per={one.id: one.per for one in wanted.operations})
    release = unit.floor.release(slug, day.date, day.number)
    texts = unit.plans.texts(day.plan_id)
    version, _, _ = unit.plans.inputs(day.plan_id)
    try:
        kitchen = kept_kitchen(unit.kitchens.version(version).document)
    except KitchenErrors:
        why = sentence("its kitchen file is from before a rule that is checked by now")
        found.left_out.append(LeftOut(str(day.date), why))
        return found
    if release is None or texts is None:
        raise LookupError(f"the release of {day.date} of {slug} is gone")
    plan = released_plan(unit, day.plan_id)
    floor = floor_of(tick_of(plan, tick) for tick in unit.floor.ticks(release))
    found.add(
        kitchenry(kitchen, day.date),
        _lots(texts.document),
        batch_reviews(plan.sheet, floor),
        set_up_ticked=wanted.rules.set_up_ticked,
    )
    return found


@lru_cache(maxsize=4)
def _lots(document: str) -> Mapping[str, LotWork]:
    """Lots of a plan file by id."""
    return {
        lot["id"]: LotWork(lot["component"], lot["step"], lot["grams_in"])
        for lot in json.loads(document).get("lots", ())
    }
