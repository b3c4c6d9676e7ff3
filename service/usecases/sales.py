"""Keep what was sold: take lines, say that a service was closed, put an entry back.

Each is one transaction: all of it is kept, or nothing.
"""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from planner.entry.country import with_country
from planner.forecast.history import COVERS, Gap, HistoryError, HistoryFault, Sale, history_of
from planner.forecast.holidays import NoHolidaysError, countries, public_holidays
from planner.forecast.keeping import Compared, Counted, Key, compared, odd_days
from planner.forecast.names import (
    Answers,
    KnownNames,
    Settled,
    Unknown,
    known_names,
    settled,
)
from planner.kitchen.document import Kitchen
from planner.kitchen.errors import KitchenErrors
from planner.wording import sentence
from service.clock import Now, today_in
from service.db.kitchens import StoredVersion
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import kept_kitchen
from service.errors import AskedError, ConflictError, Fault, InvalidError, NotFoundError
from service.sales_choices import Differ
from service.sales_values import CLOSED, KeptSales, SalesChange, SalesEntry, SalesWay
from service.usecases.sales_questions import differing_fault, fault_of, names_of, unknown_fault
from service.usecases.yield_lessons import newest_version
from web.language import _

_TOLD = 20
"""Faults of each kind: more are not read."""


@dataclass(frozen=True, slots=True)
class SalesWish:
    """How lines are taken: from where, what unknown names are, what is done where counts differ."""

    source: str = ""
    answers: Answers = field(default_factory=dict)
    differing: Differ = Differ.ASK


@dataclass(frozen=True, slots=True)
class SalesImport:
    """What became of lines. ``number`` is the entry's, None where nothing was new."""

    number: int | None
    added: int
    changed: int
    same: int
    left: int
    left_out: int
    gaps: tuple[Gap, ...]


class SalesAskedError(AskedError):
    """Lines that need an answer: names that nobody knows, counts that differ from those kept."""

    def __init__(self, unknown: Sequence[Unknown], found: Compared, known: KnownNames) -> None:
        self.unknown = tuple(unknown)
        self.compared = found
        super().__init__(
            *(unknown_fault(one, known) for one in unknown[:_TOLD]),
            *(differing_fault(one) for one in found.differing[:_TOLD]),
        )


class SalesFaultsError(InvalidError):
    """Lines that cannot be kept."""

    def __init__(self, faults: Sequence[HistoryFault]) -> None:
        self.found = tuple(faults)
        super().__init__(*(fault_of(one) for one in self.found[:_TOLD]))


@dataclass(frozen=True, slots=True)
class KeptNow:
    """What is kept of a kitchen, with the kitchen's newest file."""

    stored: StoredVersion
    kitchen: Kitchen
    kept: KeptSales


def kept_now(database: Database, slug: str) -> KeptNow:
    """What is kept of a kitchen.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    with database.reading() as unit:
        return _kept(unit, slug)


def sales_entries(database: Database, slug: str) -> tuple[SalesEntry, ...]:
    """All that changed a kitchen's history, the newest first; raises as ``kept_now``."""
    with database.reading() as unit:
        return unit.sales.entries(newest_version(unit, slug).kitchen_id)


def take_sales(
    database: Database, slug: str, sales: Sequence[Sale], wish: SalesWish, *, actor: str, now: Now
) -> SalesImport:
    """Keep lines of a history. The same again changes nothing.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    SalesFaultsError
        Lines cannot be: of days to come, or two of one dish.
    SalesAskedError
        Somebody has to say what names are, or which of two counts is right.
    """
    with database.writing() as unit:
        here = _kept(unit, slug)
        known = known_names(here.kitchen, {(key[1], key[2]) for key in here.kept.counts})
        answers = {**_remembered(unit, here), **wish.answers}
        found = settled(sales, known, answers)
        _refuse_bad(found, wish, known, today_in(here.kitchen.time_zone, now))
        beside = compared(found.sales, here.kept.counts)
        asks = wish.differing is Differ.ASK
        if found.unknown or (asks and beside.differing):
            raise SalesAskedError(found.unknown, beside, known)
        changes = _changes(beside, wish.differing, here.kept)
        number = None
        if changes:
            number = unit.sales.add(
                here.stored.kitchen_id,
                SalesWay.HAND if wish.source == SalesWay.HAND else SalesWay.FILE,
                changes,
                source="" if wish.source == SalesWay.HAND else wish.source[:120],
                answers=wish.answers,
                actor=actor,
                now=now(),
            )
        after = unit.sales.kept(here.stored.kitchen_id)
        unit.commit()
    changed = len(beside.differing) if wish.differing is Differ.REPLACE else 0
    return SalesImport(
        number,
        added=len(beside.new),
        changed=changed,
        same=beside.same,
        left=len(beside.differing) - changed,
        left_out=found.left_out,
        gaps=history_of(after.sales, after.closed).gaps,
    )


def say_closed(
    database: Database, slug: str, service: str, date: dt.date, *, actor: str, now: Now
) -> int:
    """Keep that a service was closed on a day: nobody asks for it again. The entry's number.

    Raises
    ------
    NotFoundError
        There is no such kitchen or service.
    ConflictError
        Something was sold on that day.
    """
    with database.writing() as unit:
        here = _kept(unit, slug)
        if service not in {key[1] for key in here.kept.counts}:
            raise NotFoundError(
                Fault(
                    "service", service[:80], _("nothing of it is kept"), _("Choose one on the page")
                )
            )
        if any((date, service) == key[:2] and key[2] != CLOSED for key in here.kept.counts):
            raise ConflictError(
                Fault(
                    "date",
                    date.isoformat(),
                    _("something was sold on that day"),
                    _("Put back the entry that says so first"),
                )
            )
        if (date, service, CLOSED) in here.kept.counts:
            return here.kept.version
        change = SalesChange(date, service, CLOSED, Counted(0))
        number = unit.sales.add(
            here.stored.kitchen_id, SalesWay.CLOSED, [(change, None)], actor=actor, now=now()
        )
        unit.commit()
    return number


def enter_covers(
    database: Database,
    slug: str,
    service: str,
    date: dt.date,
    covers: int,
    *,
    actor: str,
    now: Now,
) -> SalesImport:
    """Keep the covers of a day that nothing was known of; raises as ``take_sales``."""
    wish = SalesWish(source=SalesWay.HAND)
    line = Sale(date, service, COVERS, covers)
    return take_sales(database, slug, [line], wish, actor=actor, now=now)


def put_back_sales(database: Database, slug: str, number: int, *, actor: str, now: Now) -> int:
    """Bring again what stood before an entry; number of the new one.

    Raises
    ------
    NotFoundError
        There is no such kitchen or entry.
    ConflictError
        A newer entry says other counts of the same days.
    """
    with database.writing() as unit:
        kitchen_id = newest_version(unit, slug).kitchen_id
        changes = unit.sales.changes(kitchen_id, number)
        if not changes:
            raise NotFoundError(
                Fault(
                    "entry", str(number), _("there is no such entry"), _("Choose one on the page")
                )
            )
        later = unit.sales.later(kitchen_id, number)
        over = max((later.get(change.key, 0) for change, _before in changes), default=0)
        if over:
            raise ConflictError(
                Fault(
                    "entry",
                    str(number),
                    _("entry %(n)s is newer and about the same days", n=over),
                    _("Put that one back first"),
                )
            )
        made = unit.sales.add(
            kitchen_id,
            SalesWay.BACK,
            [(SalesChange(*change.key, before), change.counted) for change, before in changes],
            puts_back=number,
            actor=actor,
            now=now(),
        )
        unit.commit()
    return made


def set_country(
    database: Database, slug: str, country: str, region: str, *, actor: str, now: Now
) -> bool:
    """Say whose public holidays count, in the file's next version; whether that changed it.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    InvalidError
        No holidays are known of that country or region.
    """
    if country:
        try:
            public_holidays(country, [now().date()], region or None)
        except NoHolidaysError as error:
            place, value = ("region", region) if country in countries() else ("country", country)
            raise InvalidError(Fault(place, value, error.trouble, error.remedy)) from None
    with database.writing() as unit:
        stored = newest_version(unit, slug)
        try:
            made = with_country(stored.document, country or None, (country and region) or None)
        except KitchenErrors as errors:
            first = errors.errors[0]
            raise InvalidError(
                Fault(first.path, first.value, first.message, first.remedy)
            ) from None
        if made.changed:
            name = kept_kitchen(stored.document).name
            unit.kitchens.add(slug=slug, name=name, document=made.data, actor=actor, now=now())
            unit.commit()
    return made.changed


def _kept(unit: UnitOfWork, slug: str) -> KeptNow:
    stored = newest_version(unit, slug)
    return KeptNow(stored, kept_kitchen(stored.document), unit.sales.kept(stored.kitchen_id))


def _remembered(unit: UnitOfWork, here: KeptNow) -> Mapping[tuple[str, str], str]:
    """What was answered before, the newest last; what was put back was answered wrong."""
    entries = unit.sales.entries(here.stored.kitchen_id)
    undone = {one.puts_back for one in entries}
    found: dict[tuple[str, str], str] = {}
    for one in reversed(entries):
        if one.number not in undone:
            found.update(one.answers)
    return found


def _refuse_bad(found: Settled, wish: SalesWish, known: KnownNames, today: dt.date) -> None:
    faults = [*_bad_answers(wish.answers, known), *odd_days(found.sales, today)]
    try:
        history_of(found.sales)
    except HistoryError as error:
        faults += error.faults
    if faults:
        raise SalesFaultsError(sorted(faults, key=lambda one: one.line))


def _bad_answers(answers: Answers, known: KnownNames) -> list[HistoryFault]:
    """Answers that name nothing: a name stands for itself, for a known one, or is left out."""
    return [
        HistoryFault(
            0,
            thing,
            name,
            sentence("the kitchen has no such name"),
            sentence("Choose one of: {known}", known=names_of(known, thing)),
        )
        for (thing, value), name in answers.items()
        if name == CLOSED or (name and name != value and name not in known.of(thing).values())
    ]


def _changes(
    found: Compared, differing: Differ, kept: KeptSales
) -> list[tuple[SalesChange, Counted | None]]:
    changes: list[tuple[SalesChange, Counted | None]] = [(_change(one), None) for one in found.new]
    if differing is Differ.REPLACE:
        changes += [(_change(one.sale), one.kept) for one in found.differing]
    # Who sold something was not closed.
    marks: dict[Key, None] = {
        (change.date, change.service, CLOSED): None for change, _before in changes
    }
    changes += [(SalesChange(*mark, None), Counted(0)) for mark in marks if mark in kept.counts]
    return changes


def _change(sale: Sale) -> SalesChange:
    counted = Counted(sale.count, bool(sale.ran_out))
    return SalesChange(sale.date, sale.service, sale.dish, counted)
