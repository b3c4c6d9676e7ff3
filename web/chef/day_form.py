"""The day's form as it was sent: its fields into what is entered, or what is wrong with them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from planner.entry.counting import Counted
from planner.entry.edit import DayEntered, EntryErrors, Hours
from planner.entry.lines import CookEntry, CountEntry, DayEntries, ServiceEntry
from planner.kitchen.base import Amount
from web.chef.fields import BadFieldError, FieldError, clock_text, day, decimal, plain, whole
from web.chef.weights import is_as_shown
from web.language import _
from web.presenters.preferences import Preferences

IN, OUT = "in", "out"
PER = 100
"""The form asks for portions per so many covers: kitchens speak in percent of covers."""

_METRIC = Preferences()
_Read = TypeVar("_Read")


@dataclass(frozen=True, slots=True)
class FormRead:
    """What was entered, and what cannot be read, by the field's name."""

    entered: DayEntered
    errors: Mapping[str, FieldError]


def read_day_form(
    entries: DayEntries, fields: Mapping[str, str], preferences: Preferences = _METRIC
) -> FormRead:
    """Read the fields of the day's form. A line none of whose fields was sent stays as it is.

    What was sent as it was shown stays as it is too: numbers are shown rounded.
    """
    form = _Form(fields, preferences)
    for service in entries.services:
        form.service(service)
    for cook in entries.cooks:
        form.cook(cook)
    for line in entries.counts:
        form.count(line)
    entered = DayEntered(
        form.covers, form.spreads, form.per_cover, form.added, form.hours, form.counts
    )
    return FormRead(entered, form.errors)


def form_errors(errors: EntryErrors) -> Mapping[str, FieldError]:
    """What the kitchen file's reading found, by the field's name; several of one are one."""
    found: dict[str, FieldError] = {}
    for one in errors.errors:
        error = one.error
        where = "" if one.key else f"{error.where}: "
        said = FieldError(error.value, f"{where}{error.message}", error.remedy)
        if one.key in found:
            first = found[one.key]
            said = FieldError(first.value, f"{first.message}; {said.message}", first.remedy)
        found[one.key] = said
    return found


@dataclass(slots=True)
class _Form:
    fields: Mapping[str, str]
    preferences: Preferences
    covers: dict[str, int] = field(default_factory=dict)
    spreads: dict[str, float] = field(default_factory=dict)
    per_cover: dict[str, float] = field(default_factory=dict)
    added: dict[str, tuple[str, float]] = field(default_factory=dict)
    hours: dict[str, Hours | None] = field(default_factory=dict)
    counts: dict[str, Counted] = field(default_factory=dict)
    errors: dict[str, FieldError] = field(default_factory=dict)

    def service(self, service: ServiceEntry) -> None:
        covers = self._read(service.key, lambda text: whole(text, example="70"))
        if covers is not None:
            self.covers[service.key] = covers
        spread = self._read(service.spread_key, _percent)
        if spread is not None:
            as_shown = spread == float(plain(service.spread * 100))
            self.spreads[service.spread_key] = service.spread if as_shown else per_cover(spread)
        for line in service.mix:
            portions = self._read(line.key, lambda text: decimal(text, example="28"))
            if portions is not None:
                as_shown = portions == float(plain(line.per_cover * PER))
                self.per_cover[line.key] = line.per_cover if as_shown else per_cover(portions)
        dish, text = self._text(service.dish_key), self._text(service.portions_key)
        if dish and not text:
            self.errors[service.portions_key] = FieldError(
                "",
                _("nothing is entered"),
                _("write portions per %(covers)s covers, such as 28", covers=PER),
            )
        elif text and not dish:
            self.errors[service.dish_key] = FieldError(
                "",
                _("no dish is chosen"),
                _("choose the dish, or clear the portions beside it"),
            )
        elif dish:
            portions = self._read(service.portions_key, lambda said: decimal(said, example="28"))
            if portions is not None:
                self.added[service.key] = (dish, per_cover(portions))

    def cook(self, cook: CookEntry) -> None:
        choice = self._text(cook.key)
        if choice == OUT:
            self.hours[cook.key] = None
        elif choice == IN:
            start = self._read(cook.start_key, self._clock)
            end = self._read(cook.end_key, self._clock)
            if start is not None and end is not None:
                self.hours[cook.key] = Hours(start, end)
        elif choice:
            self.errors[cook.key] = FieldError(
                choice[:60], _("no such choice"), _("choose in or out")
            )

    def count(self, line: CountEntry) -> None:
        text = self._text(line.key)
        if line.key not in self.fields or (not text and line.amount is None):
            return
        if not text:
            self.errors[line.key] = FieldError(
                "", _("nothing is entered"), _("write 0 if there is none of it")
            )
            return
        number = self._read(line.key, lambda said: decimal(said, example="2.5"))
        unit = self._text(line.unit_key) or (line.amount.unit if line.amount else "")
        if not unit:
            self.errors[line.key] = FieldError(
                "", _("no unit is chosen"), _("choose one beside it")
            )
        elif number is not None:
            made = None
            if self._text(line.made_key):
                made = self._read(line.made_key, day)
            amount = Amount(number, unit)
            if line.amount is not None and is_as_shown(line.amount, number, unit):
                amount = line.amount
            self.counts[line.key] = Counted(amount, made)

    def _clock(self, text: str) -> str:
        return clock_text(text, self.preferences)

    def _text(self, key: str) -> str:
        return " ".join(self.fields.get(key, "").split())

    def _read(self, key: str, read: Callable[[str], _Read]) -> _Read | None:
        if key not in self.fields:
            return None
        try:
            return read(self._text(key))
        except BadFieldError as error:
            self.errors[key] = error.error
            return None


def _percent(text: str) -> float:
    value = decimal(text, example="10")
    if value > 100:
        raise BadFieldError(
            text, _("that is more than all covers"), _("write percent of covers, such as 10")
        )
    return value


def per_cover(portions: float) -> float:
    """Portions per cover of portions per hundred, without what binary fractions add."""
    return round(portions / PER, 6)
