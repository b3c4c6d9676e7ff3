"""Enter a day: a kitchen file in, the same file with what was entered out, read and checked.

The file is changed as JSON values, so that all that was not entered stays as it was written.
"""

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from planner.entry.counting import Counted, recounted
from planner.entry.lines import CookEntry, DayEntries, ServiceEntry, entries_of
from planner.entry.shifts import hours_on
from planner.kitchen.catalog import Catalog
from planner.kitchen.errors import FileError, KitchenErrors
from planner.kitchen.json_text import parse_document
from planner.kitchen.reading import read_kitchen

_Values = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Hours:
    """When a cook is in, ``HH:MM``."""

    start: str
    end: str


@dataclass(frozen=True, slots=True)
class DayEntered:
    """What was entered, by the keys of ``DayEntries``; what is left out stays as it is.

    Attributes
    ----------
    covers, spreads, per_cover
        Covers by service, their standard deviation / covers, portions per cover by line of its mix.
    added
        Dish and portions per cover to add, by key of the service.
    hours
        By key of the cook; None: out.
    counts
        By line of the count.
    """

    covers: Mapping[str, int] = field(default_factory=dict)
    spreads: Mapping[str, float] = field(default_factory=dict)
    per_cover: Mapping[str, float] = field(default_factory=dict)
    added: Mapping[str, tuple[str, float]] = field(default_factory=dict)
    hours: Mapping[str, Hours | None] = field(default_factory=dict)
    counts: Mapping[str, Counted] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class EnteredFile:
    """The file with what was entered.

    ``changed`` is False where it says the same as before; ``notes`` tell what followed from it.
    """

    data: bytes
    changed: bool
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class EntryError:
    """What is wrong with one line; ``key`` is empty where it is no line's alone."""

    key: str
    error: FileError


class EntryErrors(Exception):  # noqa: N818  it carries several
    """What was entered cannot be; ``errors`` has everything found."""

    def __init__(self, errors: tuple[EntryError, ...]) -> None:
        self.errors = errors
        super().__init__("\n".join(str(one.error) for one in errors))


def entered(data: bytes, date: dt.date, today: dt.date, entry: DayEntered) -> EnteredFile:
    """Enter a day into a kitchen file that can be read.

    Parameters
    ----------
    data
        The file.
    date
        The day.
    today
        The day it is, on which all was counted, and food that is new to the file came.
    entry
        What was entered.

    Raises
    ------
    EntryErrors
        The file would be bad.
    """
    kitchen = read_kitchen(data)
    lines = entries_of(kitchen, date)
    file: _Values = parse_document(data).values
    work = _Entering(file, date)
    for service in lines.services:
        work.service(service, entry)
    for cook in lines.cooks:
        if cook.key in entry.hours:
            work.cook(cook, entry.hours[cook.key])
    work.counts(lines, entry.counts, Catalog(kitchen), today)
    if not work.changed:
        return EnteredFile(data, changed=False)
    made = file_bytes(file)
    try:
        read_kitchen(made)
    except KitchenErrors as errors:
        raise EntryErrors(tuple(work.located(one) for one in errors.errors)) from None
    return EnteredFile(made, changed=True, notes=tuple(work.notes))


def file_bytes(file: Mapping[str, Any]) -> bytes:
    """A kitchen file of these values."""
    return json.dumps(file, ensure_ascii=False, indent=1).encode()


class _Entering:
    """The file's values as they are changed, and which place of them came from which line."""

    def __init__(self, file: _Values, date: dt.date) -> None:
        self.changed = False
        self.notes: list[str] = []
        self._file = file
        self._date = date
        self._places: dict[str, str] = {}

    def service(self, line: ServiceEntry, entry: DayEntered) -> None:
        place = f"services[{line.index}]"
        stands = self._file["services"][line.index]
        covers = entry.covers.get(line.key, line.covers)
        self._put(stands, "covers", covers, line.covers, place, line.key)
        spread = entry.spreads.get(line.spread_key, line.spread)
        self._put(stands, "covers_spread", spread, line.spread, place, line.spread_key)
        for one in line.mix:
            per_cover = entry.per_cover.get(one.key, one.per_cover)
            below = f"{place}.mix[{one.index}]"
            row = stands["mix"][one.index]
            self._put(row, "per_cover", per_cover, one.per_cover, below, one.key)
        if line.key in entry.added:
            dish, per_cover = entry.added[line.key]
            below = f"{place}.mix[{len(stands['mix'])}]"
            self._places |= {f"{below}.dish": line.dish_key, below: line.portions_key}
            stands["mix"].append({"dish": dish, "per_cover": per_cover})
            self.changed = True

    def cook(self, line: CookEntry, hours: Hours | None) -> None:
        stands = self._file["cooks"][line.index]
        day = self._date.isoformat()
        if line.is_in != (hours is not None):
            off = {one for one in stands.pop("days_off", ()) if one != day}
            if hours is None:
                off.add(day)
            if off:
                stands["days_off"] = sorted(off)
            self.changed = True
        if hours is None or (hours.start, hours.end) == (line.start, line.end):
            return
        shift, left_out = hours_on(stands["shifts"], self._date, hours.start, hours.end)
        self.notes += [f"{line.name}: {words}." for words in left_out]
        others = [one for one in stands["shifts"] if one.get("date") != day]
        stands["shifts"] = [shift, *others]
        place = f"cooks[{line.index}].shifts[0]"
        self._places |= {f"{place}.start": line.start_key, place: line.end_key}
        self.changed = True

    def counts(
        self, lines: DayEntries, counts: Mapping[str, Counted], catalog: Catalog, today: dt.date
    ) -> None:
        found = recounted(self._file, lines.counts, counts, catalog.components, today)
        if found.changed:
            self._file.update(found.lists)
            self._file["as_of"] = today.isoformat()
            self._places.update(found.places)
            self.changed = True

    def located(self, error: FileError) -> EntryError:
        """The line an error of the file came from: the longest place that its path begins with."""
        places = [one for one in self._places if error.path.startswith(one)]
        return EntryError(self._places[max(places, key=len)] if places else "", error)

    def _put(
        self, values: _Values, name: str, value: object, before: object, place: str, key: str
    ) -> None:
        self._places[f"{place}.{name}"] = key
        if value != before:
            values[name] = value
            self.changed = True
