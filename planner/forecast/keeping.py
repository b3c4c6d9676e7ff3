"""What new lines do to a history that is kept: what they add, repeat, and contradict."""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from planner.forecast.history import HistoryFault, Sale
from planner.wording import sentence

_LONG_GONE = 20 * 366
"""Days: starting guess."""

Key = tuple[dt.date, str, str]
"""A day, a service and a dish, which has one count."""


@dataclass(frozen=True, slots=True)
class Counted:
    """What is kept of a dish: how many were sold, and whether there was not enough."""

    count: int
    ran_out: bool = False


@dataclass(frozen=True, slots=True)
class Differing:
    """A line that says another count than is kept, or otherwise whether the dish ran out.

    ``sale.ran_out`` is what would hold with it.
    """

    sale: Sale
    kept: Counted


@dataclass(frozen=True, slots=True)
class Compared:
    """Lines beside what is kept; ``same`` counts those that it has already."""

    new: tuple[Sale, ...]
    same: int
    differing: tuple[Differing, ...]


def compared(sales: Iterable[Sale], kept: Mapping[Key, Counted]) -> Compared:
    """Lines, of which no two are of one key, beside what is kept.

    A line that does not say whether the dish ran out contradicts nothing that is kept of that.
    """
    new: list[Sale] = []
    differing: list[Differing] = []
    same = 0
    for sale in sales:
        before = kept.get((sale.date, sale.service, sale.dish))
        if before is None:
            new.append(sale)
            continue
        ran_out = before.ran_out if sale.ran_out is None else sale.ran_out
        if Counted(sale.count, ran_out) == before:
            same += 1
        else:
            differing.append(Differing(replace(sale, ran_out=ran_out), before))
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
