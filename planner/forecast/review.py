"""How forecasts would have done over the last weeks, beside the same day last week."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.forecast.choose import Chosen, Tried
from planner.forecast.history import COVERS, History
from planner.forecast.models import NAIVE, Forecast


@dataclass(frozen=True, slots=True)
class HeldDay:
    """A day that was held back: what came, what the chosen way said, what it was a week before."""

    date: dt.date
    count: int
    forecast: Forecast
    last_week: float


@dataclass(frozen=True, slots=True)
class HeldWeek:
    """A week of such days, from its first: how many came, and by how many each was off a day."""

    first: dt.date
    days: int
    count: int
    off: float
    off_last_week: float


@dataclass(frozen=True, slots=True)
class ServiceReview:
    """A service: its covers day by day, and by dish (``COVERS`` among them) which way served best.

    ``days`` are empty where too little of its covers is known.
    """

    service: str
    days: tuple[HeldDay, ...]
    chosen: Mapping[str, Chosen]


def service_review(history: History, service: str, known: Mapping[str, Tried]) -> ServiceReview:
    """What holding weeks back told of a service; ``known`` is of ``tried_ways``."""
    chosen = {thing: one.chosen for thing, one in known.items()}
    covers = known.get(COVERS)
    if covers is None:
        return ServiceReview(service, (), chosen)
    counts = history.sold[service]
    days = tuple(
        HeldDay(one.date, counts[one.date].get(COVERS, 0), one, naive.mean)
        for one, naive in zip(
            covers.forecasts[covers.chosen.name], covers.forecasts[NAIVE], strict=True
        )
    )
    return ServiceReview(service, days, chosen)


def held_weeks(days: Sequence[HeldDay]) -> tuple[HeldWeek, ...]:
    """Days by their weeks (ISO 8601), in order."""
    weeks: dict[dt.date, list[HeldDay]] = {}
    for day in days:
        weeks.setdefault(day.date - dt.timedelta(day.date.weekday()), []).append(day)
    return tuple(
        HeldWeek(
            first,
            len(of_week),
            sum(day.count for day in of_week),
            sum(abs(day.count - day.forecast.mean) for day in of_week) / len(of_week),
            sum(abs(day.count - day.last_week) for day in of_week) / len(of_week),
        )
        for first, of_week in weeks.items()
    )
