"""What buffers would have done on weeks that have passed: portions short, and portions thrown away.

Food is taken to keep for its day only; what was sold is taken to be what guests wanted, though a
dish that ran out sold fewer than that.
"""

import math
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from planner.forecast.choose import held_back
from planner.forecast.history import Series
from planner.forecast.models import Forecast
from planner.forecast.newsvendor import Demand

Buffer = Callable[[Forecast], int]
"""Whole portions to be ready for."""


def flat(share: float) -> Buffer:
    """The simple way: so much on top of the forecast."""
    return lambda one: math.ceil(one.mean * (1 + share) - 1e-9)


def at_level(level: float) -> Buffer:
    """Ready with chance ``level``, by the forecast's own spread."""
    return lambda one: Demand(one.mean, one.sd).quantile(level)


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a buffer fared.

    Attributes
    ----------
    short
        Portions that guests wanted and did not get / portions wanted.
    waste
        Portions left / portions made.
    ran_out
        Share of days and dishes on which it was not enough.
    """

    name: str
    short: float
    waste: float
    ran_out: float
    days: int


def outcomes(
    dishes: Mapping[str, Series],
    buffers: Mapping[str, Buffer],
    *,
    way: str,
    weeks: int,
    holidays: Collection[object] = (),
) -> tuple[Outcome, ...]:
    """Every buffer over the last ``weeks`` of every dish, each week forecast from what was before.

    Raises
    ------
    planner.forecast.models.TooShortError
        A history is too short to hold a week back.
    """
    days = [
        (forecast, count)
        for series in dishes.values()
        for forecast, count in _days(series, holidays, way, weeks)
    ]
    return tuple(_outcome(name, buffer, days) for name, buffer in buffers.items())


def short_at_waste(curve: Iterable[Outcome], waste: float) -> float | None:
    """Share short of a curve where it wastes ``waste``, between its points; None outside of it."""
    points = sorted((one.waste, one.short) for one in curve)
    for (low, above), (high, below) in pairwise(points):
        if low <= waste <= high:
            part = 0.0 if high == low else (waste - low) / (high - low)
            return above + part * (below - above)
    return None


def _days(
    series: Series, holidays: Collection[object], way: str, weeks: int
) -> list[tuple[Forecast, int]]:
    counts = dict(zip(series.dates, series.counts, strict=True))
    of_holidays = [date for date in series.dates if date in holidays]
    forecasts = held_back(series, of_holidays, names=(way,), weeks=weeks)[way]
    return [(one, counts[one.date]) for one in forecasts]


def _outcome(name: str, buffer: Buffer, days: Sequence[tuple[Forecast, int]]) -> Outcome:
    made = wanted = short = left = out = 0
    for forecast, count in days:
        portions = buffer(forecast)
        made, wanted = made + portions, wanted + count
        short, left = short + max(0, count - portions), left + max(0, portions - count)
        out += count > portions
    return Outcome(
        name=name,
        short=short / wanted if wanted else 0.0,
        waste=left / made if made else 0.0,
        ran_out=out / len(days) if days else 0.0,
        days=len(days),
    )
