r"""What guests would have taken of a dish on days on which it ran out.

What was sold of it then is the least that was wanted. With what is expected of a day, mu = share x
guests, and a variance in proportion, phi mu, the wanted number D is normal, and given that it was
no less than the c that were sold

    E[D | D >= c] = mu + sigma h(z),    z = (c - 1/2 - mu) / sigma,

h the normal's density over its upper tail. Share and phi follow from all days, those that ran out
with what they are expected to have been: expectation maximisation for censored counts.

Source: unconstraining of demand by expectation maximisation, Talluri and van Ryzin, *The Theory and
Practice of Revenue Management*, chapter 9 (from memory).
"""

import datetime as dt
import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from statistics import NormalDist

from planner.forecast.history import COVERS, History

_DAYS = 84
"""Days before the forecast one that are looked at: older ones are of another menu."""
_ROUNDS = 40
_STILL = 1e-4
_MOST = 2.0
"""Spreads above what was sold that are believed: a dish that always runs out has no upper end."""
_PHI = (0.3, 6.0)
_STANDARD = NormalDist()


@dataclass(frozen=True, slots=True)
class _Day:
    """A day of one dish; ``guests`` is what its portions are in proportion to."""

    date: dt.date
    guests: float
    sold: int
    ran_out: bool


def wanted(history: History, before: dt.date) -> History:
    """The history with what was wanted, of what ran out in the weeks before a day.

    In proportion to guests where they are counted, else to what its weekday sells of it. Days on
    and after ``before`` are not looked at. Whole portions, and never less than was sold.
    """
    by_dish: dict[tuple[str, str], list[dt.date]] = defaultdict(list)
    for service, date, dish in history.ran_out:
        if 0 < (before - date).days <= _DAYS:
            by_dish[service, dish].append(date)
    if not by_dish:
        return history
    sold = {service: dict(days) for service, days in history.sold.items()}
    for (service, dish), dates in sorted(by_dish.items()):
        found = _expected(_days(history, service, dish, before))
        for date in dates:
            sold[service][date] = {**sold[service][date], dish: found[date]}
    return replace(history, sold=sold)


def _days(history: History, service: str, dish: str, before: dt.date) -> list[_Day]:
    recent = {
        date: counts
        for date, counts in history.sold[service].items()
        if 0 < (before - date).days <= _DAYS and dish in counts
    }
    guests = _guests(recent, dish)
    return [
        _Day(date, guests[date], counts[dish], (service, date, dish) in history.ran_out)
        for date, counts in recent.items()
    ]


def _guests(recent: Mapping[dt.date, Mapping[str, int]], dish: str) -> Mapping[dt.date, float]:
    if all(counts.get(COVERS, 0) > 0 for counts in recent.values()):
        return {date: float(counts[COVERS]) for date, counts in recent.items()}
    of_weekday: dict[int, list[int]] = defaultdict(list)
    for date, counts in recent.items():
        of_weekday[date.weekday()].append(counts[dish])
    means = {day: sum(counts) / len(counts) for day, counts in of_weekday.items()}
    return {date: max(0.5, means[date.weekday()]) for date in recent}


def _expected(days: Sequence[_Day]) -> dict[dt.date, int]:
    """Whole portions that were wanted on each day."""
    guests = sum(day.guests for day in days)
    share, phi = sum(day.sold for day in days) / guests, 1.0
    values: list[float] = []
    for _ in range(_ROUNDS):
        values, squares = [], 0.0
        for day in days:
            mean = max(share * day.guests, 1e-6)
            value, square = _day(day, mean, math.sqrt(phi * mean))
            values.append(value)
            squares += square / mean
        before, share = share, sum(values) / guests
        phi = min(max(squares / len(days), _PHI[0]), _PHI[1])
        if abs(share - before) <= _STILL * before:
            break
    return {day.date: round(value) for day, value in zip(days, values, strict=True)}


def _day(day: _Day, mean: float, sd: float) -> tuple[float, float]:
    """(what was wanted, its expected square about the mean)."""
    if not day.ran_out:
        return day.sold, (day.sold - mean) ** 2
    z = (day.sold - 0.5 - mean) / sd
    tail = 1 - _STANDARD.cdf(z)
    # Far out the tail has no digits left; its hazard is z then.
    hazard = _STANDARD.pdf(z) / tail if tail > 1e-9 else z
    most = day.sold + _MOST * math.sqrt(day.sold + 1)
    return min(mean + sd * hazard, most), sd**2 * (1 + z * hazard)
