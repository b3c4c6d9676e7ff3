"""Which way to forecast has served best, week by week over weeks that it had not seen."""

import datetime as dt
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from planner.forecast.history import Series
from planner.forecast.models import CORE, FORECASTERS, NAIVE, WEEK, Forecast, TooShortError
from planner.forecast.newsvendor import Demand

_LEVEL = 0.9


@dataclass(frozen=True, slots=True)
class Score:
    """How one way did over the held-back days.

    Attributes
    ----------
    off
        Mean of portions (or covers) that it was off by, either way.
    ready
        Share of days on which as many as its 90 % quantile were enough; 0.9 is right.
    """

    name: str
    off: float
    ready: float
    days: int


@dataclass(frozen=True, slots=True)
class Chosen:
    """The way that was off by least, with all scores, best first."""

    name: str
    scores: tuple[Score, ...]

    @property
    def naive_wins(self) -> bool:
        """Nothing beats what the same day last week had."""
        return self.name == NAIVE

    @property
    def gain(self) -> float:
        """Share by which it is off less than the naive way; 0 where that one wins."""
        naive = next(one.off for one in self.scores if one.name == NAIVE)
        return 0.0 if naive == 0 else 1 - self.scores[0].off / naive


@dataclass(frozen=True, slots=True)
class Tried:
    """What came of holding weeks back: the way that served best, and what each way had said."""

    chosen: Chosen
    forecasts: Mapping[str, tuple[Forecast, ...]]


def choose(
    series: Series,
    holidays: Collection[dt.date] = (),
    *,
    names: Sequence[str] = CORE,
    weeks: int = 8,
) -> Chosen:
    """Hold back the last weeks one after the other, and see who forecast them best.

    Raises as ``tried``.
    """
    return tried(series, holidays, names=names, weeks=weeks).chosen


def tried(
    series: Series,
    holidays: Collection[dt.date] = (),
    *,
    names: Sequence[str] = CORE,
    weeks: int = 8,
) -> Tried:
    """Hold back the last weeks one after the other, and keep what each way said of them.

    Each week is forecast from what was known before its first day. The naive way is always among
    those that are tried.

    Raises
    ------
    TooShortError
        There is no week that can be held back.
    KeyError
        There is no way of that name.
    """
    ways = dict.fromkeys((NAIVE, *names))
    of_days = held_back(series, holidays, names=tuple(ways), weeks=weeks)
    scores = [_score(name, forecasts, series) for name, forecasts in of_days.items()]
    scores.sort(key=lambda one: (one.off, one.name != NAIVE))
    return Tried(Chosen(scores[0].name, tuple(scores)), of_days)


def held_back(
    series: Series,
    holidays: Collection[dt.date] = (),
    *,
    names: Sequence[str],
    weeks: int,
) -> Mapping[str, tuple[Forecast, ...]]:
    """Forecasts of the last ``weeks``, by way; each week from what was known before it."""
    last = series.dates[-1] if series.dates else dt.date.min
    found: dict[str, list[Forecast]] = {name: [] for name in names}
    for back in range(weeks, 0, -1):
        begin = last - dt.timedelta(back * WEEK - 1)
        end = begin + dt.timedelta(WEEK)
        days = [date for date in series.dates if begin <= date < end]
        known = series.before(begin)
        if not days:
            continue
        try:
            of_week = {name: FORECASTERS[name](known, days, holidays) for name in names}
        except TooShortError:
            continue
        for name, forecasts in of_week.items():
            found[name] += forecasts
    if not any(found.values()):
        raise TooShortError(
            "the history is too short to hold a week back: bring at least three weeks"
        )
    return {name: tuple(forecasts) for name, forecasts in found.items()}


def _score(name: str, forecasts: Sequence[Forecast], series: Series) -> Score:
    counts = dict(zip(series.dates, series.counts, strict=True))
    off = [abs(counts[one.date] - one.mean) for one in forecasts]
    ready = [counts[one.date] <= Demand(one.mean, one.sd).quantile(_LEVEL) for one in forecasts]
    return Score(name, sum(off) / len(off), sum(ready) / len(ready), len(off))
