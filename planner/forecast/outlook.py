"""A day as its history sees it: what was sold, what is usual, how many portions to be ready for."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from planner.forecast.history import History
from planner.forecast.portions import DishPortions
from planner.forecast.service import ServiceForecast

LEAST_WEEKS = 3
"""Weeks of history without which nothing is forecast."""
OLD_DAYS = 21
"""A history whose newest day is so far back says little of now: starting guess."""


class NoForecast(StrEnum):
    """Why a service has no forecast."""

    NO_HISTORY = "no history"
    """Nothing of it is kept."""
    TOO_SHORT = "too short"
    GUARANTEED = "guaranteed"
    """A banquet's count is agreed."""
    SOLD = "sold"
    """The day has been: what was sold is known."""


@dataclass(frozen=True, slots=True)
class ServiceOutlook:
    """One service of a day.

    Attributes
    ----------
    sold, before
        Counts by dish of the day itself and of the same day a week before, where they are kept.
    forecast, why_none
        One of the two is None.
    ready
        Portions to be ready for, by dish.
    days
        How many of its days are kept.
    """

    service: str
    sold: Mapping[str, int] | None
    before: Mapping[str, int] | None
    forecast: ServiceForecast | None
    why_none: NoForecast | None
    ready: Mapping[str, DishPortions]
    days: int


@dataclass(frozen=True, slots=True)
class DayOutlook:
    """A day: its services by their id in the kitchen file.

    ``holiday`` names the public holiday that it is, empty where it is none; ``newest`` is the last
    day of the history, None where nothing is kept.
    """

    date: dt.date
    holiday: str
    newest: dt.date | None
    services: Mapping[str, ServiceOutlook]

    @property
    def old(self) -> bool:
        """Whether the history ends so long before the day that it says little of it."""
        return self.newest is not None and (self.date - self.newest).days > OLD_DAYS


def sold_on(history: History, service: str, date: dt.date) -> Mapping[str, int] | None:
    """Counts by dish of a service on a day; None where nothing of it is kept."""
    return history.sold.get(service, {}).get(date)
