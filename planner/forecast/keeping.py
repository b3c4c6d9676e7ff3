"""What new lines do to a history that is kept: what they add, repeat, and contradict."""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from planner.forecast.history import HistoryFault, Sale
from planner.wording import sentence

_LONG_GONE = 20 * 366
"""Days: starting guess."""

Key = tuple[dt.date, str, str]
"""A day, a service and a dish, which has one count."""


@dataclass(frozen=True, slots=True)
class Differing:
    """A line whose count is another than the one that is kept."""

    sale: Sale
    kept: int


@dataclass(frozen=True, slots=True)
class Compared:
    """Lines beside what is kept; ``same`` counts those that it has already."""

    new: tuple[Sale, ...]
    same: int
    differing: tuple[Differing, ...]


def compared(sales: Iterable[Sale], kept: Mapping[Key, int]) -> Compared:
    """Lines, of which no two are of one key, beside what is kept."""
    new: list[Sale] = []
    differing: list[Differing] = []
    same = 0
    for sale in sales:
        count = kept.get((sale.date, sale.service, sale.dish))
        if count is None:
            new.append(sale)
        elif count == sale.count:
            same += 1
        else:
            differing.append(Differing(sale, count))
    return Compared(tuple(new), same, tuple(differing))


def odd_days(sales: Iterable[Sale], today: dt.date) -> Iterator[HistoryFault]:
    """Lines of days that have not come, or are long gone: dates that were typed wrong."""
    first = today - dt.timedelta(min(_LONG_GONE, (today - dt.date.min).days))
    for sale in sales:
        if sale.date > today:
            trouble = sentence("that day is not here yet")
            remedy = sentence("Enter days up to {date}", date=today)
        elif sale.date < first:
            trouble = sentence("that day is too long gone to say anything of today")
            remedy = sentence("Look at the year, or leave out days before {date}", date=first)
        else:
            continue
        yield HistoryFault(sale.line, "date", sale.date.isoformat(), trouble, remedy)
