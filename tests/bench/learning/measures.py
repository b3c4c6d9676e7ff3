"""What seasons come to: means over kitchens with intervals, and kitchens side by side.

All measures are ratios of sums over a kitchen's days. Intervals are of the mean over kitchens, by
drawing kitchens with replacement (percentile bootstrap); where two ways are compared, the same
kitchens are drawn for both.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.forecast.backtest import Outcome, short_at_waste
from tests.bench.learning.season import DayResult, Season

Floats = NDArray[np.float64]
STRETCHES = ((1, 10), (11, 30), (31, 60))
"""Days of a season, the first of all being 1."""
_DRAWS = 4000
_ENDS = (5, 95)


@dataclass(frozen=True, slots=True)
class Measure:
    """A ratio of sums over days: ``above`` / ``below``, shown ``times``."""

    name: str
    unit: str
    above: Callable[[DayResult], float]
    below: Callable[[DayResult], float]
    times: float = 1.0
    digits: int = 1


def _one(_: DayResult) -> float:
    return 1.0


PULL_ERROR = Measure("pull error", "%", lambda d: d.off, lambda d: d.needed, 100)
OTHERWISE = Measure("food other than planned", "%", lambda d: d.otherwise, lambda d: d.planned, 100)
SHORT_ITEMS = Measure("short items a day", "", lambda d: d.ran_out, _one, digits=2)
TURNED_AWAY = Measure("portions short", "%", lambda d: d.away, lambda d: d.wanted, 100)
WASTE = Measure("waste", "% of pulled", lambda d: d.wasted, lambda d: d.pulled, 100)
WASTE_KILOS = Measure("waste a day", "kg", lambda d: d.wasted, _one, 0.001, 2)
LATE = Measure("late mornings", "%", lambda d: d.minutes.late > 0, _one, 100, 0)
LATE_MINUTES = Measure("minutes late a morning", "", lambda d: d.minutes.late, _one)
UNFORESEEN = Measure(
    "late and not foreseen",
    "%",
    lambda d: d.minutes.late > 0 and d.minutes.planned_late == 0,
    _one,
    100,
    0,
)
EARLY = Measure("hours begun earlier", "", lambda d: d.minutes.early, _one, digits=2)
FOOD = (PULL_ERROR, OTHERWISE, SHORT_ITEMS, TURNED_AWAY, WASTE)
TIME = (LATE, LATE_MINUTES, UNFORESEEN, EARLY)


@dataclass(frozen=True, slots=True)
class Spoken:
    """A figure with its 90 % interval."""

    value: float
    low: float
    high: float

    def text(self, digits: int, *, signed: bool = False) -> str:
        """As the tables have it: 1.72 (1.60 to 1.85)."""
        sign = "+" if signed else ""
        value, low, high = (f"{one:{sign}.{digits}f}" for one in (self.value, self.low, self.high))
        return f"{value} ({low} to {high})"


def days_of(one: Season, first: int, last: int) -> list[DayResult]:
    """Its days, counted from 1, both ends included."""
    return [day for day in one.days if first <= day.day + 1 <= last]


def of_kitchens(measure: Measure, seasons: Sequence[Season], first: int, last: int) -> Floats:
    """The measure of each kitchen, in the order of the seasons."""
    found = []
    for one in seasons:
        days = days_of(one, first, last)
        found.append(measure.times * sum(map(measure.above, days)) / sum(map(measure.below, days)))
    return np.array(found)


def draws(kitchens: int) -> NDArray[np.intp]:
    """Kitchens drawn with replacement: the same for whatever is compared."""
    return np.random.default_rng(1).integers(kitchens, size=(_DRAWS, kitchens))


def mean(values: Floats) -> Spoken:
    """The mean over kitchens."""
    return _spoken(float(values.mean()), values[draws(len(values))].mean(axis=1))


def less(book: Floats, other: Floats) -> Spoken | None:
    """By how many percent less the mean of ``other`` is; None: there was nothing to be less."""
    if not book.any():
        return None
    drawn = draws(len(book))
    before, after = book[drawn].mean(axis=1), other[drawn].mean(axis=1)
    return _spoken(
        100 * (1 - float(other.mean() / book.mean())), 100 * (1 - after / np.maximum(before, 1e-9))
    )


def more(book: Floats, other: Floats) -> Spoken:
    """By how much the mean of ``other`` is more."""
    return mean(other - book)


def at_waste(
    measure: Measure,
    curve: Sequence[Sequence[Season]],
    learned: Sequence[Season],
    first: int,
    last: int,
) -> tuple[float, Spoken] | None:
    """(what a flat share has at the learned way's waste, by how many percent less learned has).

    ``curve`` are the same kitchens at several flat shares. None: the waste is outside of it.
    """
    short = np.array([of_kitchens(measure, one, first, last) for one in curve])
    waste = np.array([of_kitchens(WASTE, one, first, last) for one in curve])
    own_short = of_kitchens(measure, learned, first, last)
    own_waste = of_kitchens(WASTE, learned, first, last)

    def beside(who: NDArray[np.intp]) -> float | None:
        points = [
            Outcome("", float(s[who].mean()), float(w[who].mean()), 0.0, 0)
            for s, w in zip(short, waste, strict=True)
        ]
        return short_at_waste(points, float(own_waste[who].mean()))

    found = beside(np.arange(len(own_short)))
    if found is None:
        return None
    gains = [
        100 * (1 - float(own_short[who].mean()) / flat)
        for who in draws(len(own_short))[:1000]
        if (flat := beside(who)) is not None
    ]
    return found, _spoken(100 * (1 - float(own_short.mean()) / found), np.array(gains))


def _spoken(value: float, drawn: Floats) -> Spoken:
    low, high = np.percentile(drawn, _ENDS)
    return Spoken(value, float(low), float(high))
