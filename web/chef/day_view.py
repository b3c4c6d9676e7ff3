"""The day's page in words: every field with what stands in it, what is wrong, what stood before."""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from planner.entry.lines import CookEntry, CountEntry, DayEntries, MixEntry, ServiceEntry
from planner.forecast.outlook import DayOutlook, ServiceOutlook
from planner.kitchen.day import Delivery
from web.chef.day_form import IN, OUT, PER
from web.chef.fields import FieldError, clock_field, plain
from web.chef.usual_view import UsualDish, UsualService, sales_words, usual_dish, usual_service
from web.chef.weights import in_readers_units, readers_units_first, shown_number
from web.language import _
from web.presenters.clock import long_date, short_date
from web.presenters.preferences import Preferences
from web.presenters.storage import storage_words
from web.presenters.typography import TO
from web.presenters.units import unit_words

_METRIC = Preferences()


@dataclass(frozen=True, slots=True)
class LastWeek:
    """Covers and portions per cover of the same weekday a week before, by the service's name."""

    date: dt.date
    covers: Mapping[str, int]
    per_cover: Mapping[tuple[str, str], float]


@dataclass(frozen=True, slots=True)
class FieldView:
    """One field. ``stands`` is what the file has where that is another thing than what is shown."""

    name: str
    label: str
    value: str
    error: FieldError | None
    stands: str = ""

    @property
    def id(self) -> str:
        """Of the element, and what others that belong to it begin with."""
        return f"f-{self.name}"


@dataclass(frozen=True, slots=True)
class MixView:
    """A dish of a service: portions per hundred covers, in portions, a week before, as usual."""

    field: FieldView
    dish: str
    portions: str
    before: str
    usual: UsualDish


@dataclass(frozen=True, slots=True)
class ServiceView:
    """A service's covers and menu mix."""

    id: str
    name: str
    hours: str
    guaranteed: bool
    covers: FieldView
    spread: FieldView
    before: str
    usual: UsualService
    mix: tuple[MixView, ...]
    dish: FieldView
    portions: FieldView
    others: tuple[tuple[str, str], ...]
    mix_open: bool


@dataclass(frozen=True, slots=True)
class CookView:
    """Whether a cook is in, and when."""

    name: str
    choice: FieldView
    start: FieldView
    end: FieldView
    is_in: bool
    rests: str


@dataclass(frozen=True, slots=True)
class CountView:
    """One line of the count."""

    field: FieldView
    unit: FieldView
    made: FieldView | None
    name: str
    details: str
    past: bool
    units: tuple[tuple[str, str], ...]
    """What it may be counted in: the unit, and the word for it."""


@dataclass(frozen=True, slots=True)
class CountGroup:
    """Lines of the count that are looked for in one place; ``more`` is what was not on hand."""

    id: str
    title: str
    lines: tuple[CountView, ...]
    more: tuple[CountView, ...]
    more_open: bool


@dataclass(frozen=True, slots=True)
class DayView:
    """Everything the day's page asks for."""

    kitchen: str
    date: str
    counted_on: str
    holiday: str
    sales: str
    """What is to be known of the sales history; empty: nothing is."""
    services: tuple[ServiceView, ...]
    last_week: str
    cooks: tuple[CookView, ...]
    groups: tuple[CountGroup, ...]
    coming: tuple[str, ...]
    wrong: tuple[tuple[str, str, FieldError], ...]
    """(element's id, label, error) of every field that is wrong; the id is empty where the error
    is no field's."""
    hours_like: tuple[str, str]
    """How hours may be typed: of a start, of an end."""
    clock_keys: str
    """The keyboard that has what hours are written with."""


def day_view(
    entries: DayEntries,
    last_week: LastWeek | None,
    typed: Mapping[str, str] | None = None,
    errors: Mapping[str, FieldError] | None = None,
    preferences: Preferences = _METRIC,
    outlook: DayOutlook | None = None,
) -> DayView:
    """The page of what stands, or of what was ``typed`` over it with what is wrong with that.

    ``outlook`` is what the sales history makes of the day.
    """
    page = _Page(typed or {}, errors or {}, last_week, entries.date, preferences, outlook)
    services = tuple(page.service(one) for one in entries.services)
    cooks = tuple(page.cook(one) for one in entries.cooks)
    groups = tuple(_groups(page, entries.counts))
    twelve = preferences.clock == 12
    return DayView(
        kitchen=entries.kitchen,
        date=long_date(entries.date),
        counted_on=short_date(entries.as_of),
        holiday=outlook.holiday if outlook else "",
        sales=sales_words(outlook) if outlook and services else "",
        services=services,
        last_week=short_date(last_week.date) if last_week else "",
        cooks=cooks,
        groups=groups,
        coming=tuple(_coming(name, one, preferences) for name, one in entries.coming),
        wrong=tuple(page.wrong()),
        hours_like=("7 am", "3:30 pm") if twelve else ("0700", "1530"),
        clock_keys="text" if twelve else "numeric",
    )


def delivered(one: Delivery, preferences: Preferences) -> tuple[str, str]:
    """How much comes and when, as the reader counts and reads clocks."""
    amount = in_readers_units(one.amount, preferences)
    said = f"{shown_number(one.amount, amount.unit)} {unit_words(amount.unit)}"
    return said, clock_field(one.at, preferences)


def _coming(name: str, one: Delivery, preferences: Preferences) -> str:
    said, at = delivered(one, preferences)
    if one.supplier:
        return _(
            "%(food)s, %(amount)s at %(time)s from %(supplier)s",
            food=name,
            amount=said,
            time=at,
            supplier=one.supplier,
        )
    return _("%(food)s, %(amount)s at %(time)s", food=name, amount=said, time=at)


class _Page:
    def __init__(
        self,
        typed: Mapping[str, str],
        errors: Mapping[str, FieldError],
        last_week: LastWeek | None,
        date: dt.date,
        preferences: Preferences,
        outlook: DayOutlook | None,
    ) -> None:
        self._outlook = outlook
        self._typed = typed
        self._errors = errors
        self._last_week = last_week
        self._date = date
        self._preferences = preferences
        self._labels: dict[str, str] = {}

    def field(self, name: str, label: str, stands: str) -> FieldView:
        value = self._typed.get(name, stands)
        self._labels[name] = label
        return FieldView(
            name, label, value, self._errors.get(name), stands if value != stands else ""
        )

    def service(self, service: ServiceEntry) -> ServiceView:
        before = self._last_week
        known = None if before is None else before.covers.get(service.name)
        dish = self.field(
            service.dish_key, _("Another dish for %(service)s", service=service.name), ""
        )
        portions = self.field(
            service.portions_key,
            _(
                "Its portions per %(covers)s covers of %(service)s",
                covers=PER,
                service=service.name,
            ),
            "",
        )
        outlook = self._outlook.services.get(service.id) if self._outlook else None
        mix = tuple(self._mix(service, line, outlook) for line in service.mix)
        return ServiceView(
            id=service.id,
            name=service.name,
            hours=self._span(service.opens, service.closes),
            guaranteed=service.guaranteed,
            covers=self.field(
                service.key, _("Covers, %(service)s", service=service.name), str(service.covers)
            ),
            spread=self.field(
                service.spread_key,
                _("Give or take, percent of covers, %(service)s", service=service.name),
                plain(service.spread * 100),
            ),
            before="" if known is None else str(known),
            usual=usual_service(outlook, self._outlook),
            mix=mix,
            dish=dish,
            portions=portions,
            others=service.others,
            mix_open=any(
                one.error or one.stands or (one in (dish, portions) and one.value)
                for one in (dish, portions, *(line.field for line in mix))
            ),
        )

    def _mix(
        self, service: ServiceEntry, line: MixEntry, outlook: ServiceOutlook | None
    ) -> MixView:
        before = self._last_week
        known = None if before is None else before.per_cover.get((service.name, line.dish))
        return MixView(
            field=self.field(
                line.key,
                _(
                    "%(dish)s, %(service)s: portions per %(covers)s covers",
                    dish=line.name,
                    service=service.name,
                    covers=PER,
                ),
                plain(line.per_cover * PER),
            ),
            dish=line.name,
            portions=f"{service.covers * line.per_cover:.0f}",
            before="" if known is None else plain(known * PER),
            usual=usual_dish(outlook, line.dish),
        )

    def cook(self, cook: CookEntry) -> CookView:
        choice = self.field(
            cook.key, _("%(cook)s, in or out", cook=cook.name), IN if cook.is_in else OUT
        )
        return CookView(
            name=cook.name,
            choice=choice,
            start=self.field(
                cook.start_key, _("%(cook)s starts", cook=cook.name), self._clock(cook.start)
            ),
            end=self.field(cook.end_key, _("%(cook)s ends", cook=cook.name), self._clock(cook.end)),
            is_in=choice.value == IN,
            rests=", ".join(
                (
                    *(
                        _("break %(start)s, %(n)s min", start=self._clock(start), n=minutes)
                        for start, minutes in cook.breaks
                    ),
                    *(
                        _("on the line %(hours)s", hours=self._span(start, end))
                        for start, end in cook.on_line
                    ),
                )
            ),
        )

    def count(self, line: CountEntry) -> CountView:
        units = readers_units_first(line.units, self._preferences)
        unit = units[0] if units else ""
        amount = ""
        if line.amount is not None:
            unit = in_readers_units(line.amount, self._preferences).unit
            amount = shown_number(line.amount, unit)
        new = line.part == "prepared" and line.index is None
        details = [
            _("after %(step)s", step=line.done.lower()) if line.done else "",
            # One date tells containers apart; the use-by is what their labels are read for.
            _("use by %(day)s", day=short_date(line.use_by)) if line.use_by else _since(line),
        ]
        name = _known_as(line)
        unit_field = self.field(line.unit_key, _("%(food)s, unit", food=name), unit)
        field = self.field(line.key, _("%(food)s, on hand", food=name), amount)
        if amount and (field.stands or unit_field.stands):
            # A number alone would be read in the unit that was chosen instead.
            field = replace(field, stands=f"{amount} {unit_words(unit)}")
        offered = dict.fromkeys((*units, unit_field.value))
        return CountView(
            field=field,
            unit=unit_field,
            made=self.field(line.made_key, _("%(food)s, made on", food=line.name), "")
            if new
            else None,
            name=line.name,
            details=", ".join(filter(None, details)),
            past=line.use_by is not None and line.use_by < self._date,
            units=tuple((one, unit_words(one)) for one in offered),
        )

    def wrong(self) -> Iterator[tuple[str, str, FieldError]]:
        for name, error in self._errors.items():
            if name in self._labels:
                yield f"f-{name}", self._labels[name], error
            else:
                yield "", "", error

    def _clock(self, text: str) -> str:
        return clock_field(text, self._preferences)

    def _span(self, start: str, end: str) -> str:
        return f"{self._clock(start)}{TO}{self._clock(end)}"


def _known_as(line: CountEntry) -> str:
    """The food, told apart from the same food of another day."""
    return f"{line.name}, {_since(line)}" if line.since else line.name


def _since(line: CountEntry) -> str:
    if line.since is None:
        return ""
    day = short_date(line.since)
    if line.part == "prepared":
        return _("made %(day)s", day=day)
    return _("received %(day)s", day=day)


def _groups(page: _Page, lines: Sequence[CountEntry]) -> Iterator[CountGroup]:
    """By where it is looked for, prepared food first, in the order of the file."""
    places = dict.fromkeys((line.part, line.storage) for line in lines)
    for number, (part, storage) in enumerate(sorted(places, key=lambda one: one[0]), start=1):
        mine = [line for line in lines if (line.part, line.storage) == (part, storage)]
        more = tuple(page.count(line) for line in mine if line.index is None)
        place = storage_words(storage)
        title = place[:1].upper() + place[1:]
        if part == "prepared":
            title = _("Prepared food, %(place)s", place=place)
        yield CountGroup(
            id=f"place-{number}",
            title=title,
            lines=tuple(page.count(line) for line in mine if line.index is not None),
            more=more,
            more_open=any(one.field.value or one.field.error for one in more),
        )
