r"""Ways to forecast counts some days ahead, each with its spread.

- *Same day last week* (seasonal naive): what the last same weekday had. Nothing is easier, and it
  wins more often than one would think; whatever is better must show it.
- *Weekdays about a level*: y = level x factor of the weekday x factor of holidays, the level an
  exponentially weighted mean. Small, quick, and knows holidays.
- *Exponential smoothing* of level and week (Holt-Winters, additive), by statsmodels.

Sources: Hyndman and Athanasopoulos, *Forecasting: Principles and Practice*, chapters 5 and 8 (from
memory).
"""

import datetime as dt
import math
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.forecast.history import Series

Floats = NDArray[np.float64]
WEEK = 7
_LEAST_DAYS = 14
_AHEAD = 3
"""Open days for which the weight of the newest is chosen: menus are planned so far ahead."""
_WEIGHTS = (0.02, 0.04, 0.07, 0.1, 0.15, 0.2, 0.3, 0.4)
_RECENT = 84
"""Open days whose misses tell the spread: summer's are not winter's."""
_SHRINK = 2.0
"""Days of no difference that a weekday's, and a holiday's, factor begins with."""


class TooShortError(ValueError):
    """There is too little history to forecast from."""


class MissingExtraError(RuntimeError):
    """A library that this way needs is not installed; names the remedy."""


@dataclass(frozen=True, slots=True)
class Forecast:
    """What is expected on a day, and its standard deviation."""

    date: dt.date
    mean: float
    sd: float


Forecaster = Callable[[Series, Sequence[dt.date], Collection[dt.date]], tuple[Forecast, ...]]
"""(history, days to forecast, holidays among all of them) -> forecasts, in the order of days."""


def same_day_last_week(
    series: Series, days: Sequence[dt.date], holidays: Collection[dt.date] = ()
) -> tuple[Forecast, ...]:
    """What the newest same weekday had; its spread is that of such guesses about what came."""
    del holidays
    _refuse_short(series)
    known: dict[int, int] = {}
    off = []
    for date, count in zip(series.dates, series.counts, strict=True):
        if date.weekday() in known:
            off.append(count - known[date.weekday()])
        known[date.weekday()] = count
    recent = off[-_RECENT:]
    sd = math.sqrt(sum(one**2 for one in recent) / len(recent)) if recent else 0.0
    usual = float(np.mean(series.counts[-WEEK:]))
    return tuple(_forecast(day, known.get(day.weekday(), usual), sd) for day in days)


def weekdays_about_a_level(
    series: Series, days: Sequence[dt.date], holidays: Collection[dt.date] = ()
) -> tuple[Forecast, ...]:
    """Level x weekday x holiday. Its spread grows with what is expected."""
    _refuse_short(series)
    counts = np.array(series.counts, dtype=np.float64)
    weekdays = np.array([date.weekday() for date in series.dates])
    off_days = np.array([date in holidays for date in series.dates])
    of_week = _factors(counts, weekdays, off_days)
    plain = counts / of_week[weekdays]
    levels, relative = _best_levels(plain, off_days)
    of_holidays = _holiday_factor(plain, levels, off_days)
    level = levels[-1]
    found = []
    for day in days:
        mean = level * of_week[day.weekday()] * (of_holidays if day in holidays else 1.0)
        found.append(_forecast(day, float(mean), float(mean * relative)))
    return tuple(found)


def exponential_smoothing(
    series: Series, days: Sequence[dt.date], holidays: Collection[dt.date] = ()
) -> tuple[Forecast, ...]:
    """Holt-Winters of level and week, by statsmodels; it knows no holidays.

    Raises
    ------
    MissingExtraError
        statsmodels is not installed.
    """
    del holidays
    _refuse_short(series)
    try:
        from statsmodels.tsa.holtwinters import ExponentialSmoothing  # noqa: PLC0415 - slow
    except ImportError:
        raise MissingExtraError(
            "exponential smoothing needs statsmodels: install it with "
            "'pip install \"prepwright[forecast]\"', or leave this way out"
        ) from None
    period = len({date.weekday() for date in series.dates})
    counts = np.array(series.counts, dtype=np.float64)
    weekly = period > 1 and len(counts) >= 2 * period
    fitted = ExponentialSmoothing(
        counts,
        seasonal="add" if weekly else None,
        seasonal_periods=period if weekly else None,
        initialization_method="estimated",
    ).fit()
    sd = float(np.sqrt(np.mean(np.asarray(fitted.resid)[-_RECENT:] ** 2)))
    open_days = {date.weekday() for date in series.dates}
    ahead = _open_days_after(series.dates[-1], max(days), open_days)
    values = np.asarray(fitted.forecast(max(1, len(ahead))))
    means = dict(zip(ahead, values, strict=False))
    usual = float(np.mean(counts[-period:]))
    return tuple(_forecast(day, float(means.get(day, usual)), sd) for day in days)


FORECASTERS: Mapping[str, Forecaster] = {
    "same day last week": same_day_last_week,
    "weekdays about a level": weekdays_about_a_level,
    "exponential smoothing": exponential_smoothing,
}
NAIVE = "same day last week"
CORE = ("same day last week", "weekdays about a level")
"""Those that need nothing but what is installed anyway."""


def _refuse_short(series: Series) -> None:
    if len(series.dates) < _LEAST_DAYS:
        raise TooShortError(
            f"a history of {len(series.dates)} days is too short to forecast from: "
            f"bring at least {_LEAST_DAYS} days on which the service was open"
        )


def _forecast(day: dt.date, mean: float, sd: float) -> Forecast:
    """Guests are counted, so the spread of pure chance is the least there is."""
    expected = max(0.0, mean)
    return Forecast(day, expected, max(sd, math.sqrt(expected)))


def _factors(counts: Floats, weekdays: NDArray[np.int_], off_days: NDArray[np.bool_]) -> Floats:
    """Factor of each weekday about the mean, drawn to 1 where there are few; holidays left out."""
    ordinary = ~off_days if (~off_days).any() else np.ones_like(off_days)
    mean = max(float(counts[ordinary].mean()), 1e-9)
    found = np.ones(WEEK)
    for day in range(WEEK):
        own = counts[ordinary & (weekdays == day)]
        found[day] = (own.sum() / mean + _SHRINK * 0.5) / (len(own) + _SHRINK * 0.5)
    return np.maximum(found, 0.02)


def _best_levels(plain: Floats, off_days: NDArray[np.bool_]) -> tuple[Floats, float]:
    """(level after each day, spread / mean some days ahead), by the weight that served best."""
    best: tuple[float, Floats, Floats] | None = None
    counted = ~off_days[WEEK + _AHEAD :]
    for weight in _WEIGHTS:
        levels = _levels(plain, off_days, weight)
        before, after = levels[WEEK:-_AHEAD], plain[WEEK + _AHEAD :]
        off = (after / np.maximum(before, 1e-9) - 1)[counted]
        score = float(np.mean(off**2)) if len(off) else 0.0
        if best is None or score < best[0]:
            best = (score, levels, off)
    if best is None:
        raise ValueError("there is no weight to choose from")
    recent = best[2][-_RECENT:]
    return best[1], float(np.sqrt(np.mean(recent**2))) if len(recent) else 0.0


def _levels(plain: Floats, off_days: NDArray[np.bool_], weight: float) -> Floats:
    """Exponentially weighted mean, begun with the first week's; a holiday does not move it."""
    level = float(plain[:WEEK].mean())
    found = []
    # Plain numbers: one by one they are quicker than an array's.
    for value, off in zip(plain.tolist(), off_days.tolist(), strict=True):
        if not off:
            level += weight * (value - level)
        found.append(level)
    return np.array(found)


def _holiday_factor(plain: Floats, levels: Floats, off_days: NDArray[np.bool_]) -> float:
    """What a holiday has / what its weekday would have, drawn to 1 where there are few."""
    seen = plain[off_days] / np.maximum(levels[off_days], 1e-9)
    return float((seen.sum() + _SHRINK) / (len(seen) + _SHRINK))


def _open_days_after(
    last: dt.date, until: dt.date, weekdays: Collection[int]
) -> tuple[dt.date, ...]:
    days = (last + dt.timedelta(n) for n in range(1, (until - last).days + 1))
    return tuple(day for day in days if day.weekday() in weekdays)
