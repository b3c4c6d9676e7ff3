"""Forecasts from the kept sales history: reckoned when sales change, then kept at hand.

What takes long, holding weeks back and seeing which way served best, is done once for a version of
the history; a day's page then takes a few milliseconds, and the second time none.
"""

import datetime as dt
import threading
import uuid
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from functools import lru_cache

from planner.forecast.choose import Tried
from planner.forecast.history import History, history_of
from planner.forecast.holidays import NoHolidaysError, named_holidays, public_holidays
from planner.forecast.models import TooShortError
from planner.forecast.outlook import DayOutlook, NoForecast, ServiceOutlook, sold_on
from planner.forecast.portions import dish_portions
from planner.forecast.review import ServiceReview, service_review
from planner.forecast.service import ServiceForecast, forecast_service, tried_ways
from planner.kitchen.day import Service
from planner.kitchen.document import Kitchen
from planner.kitchen.errors import KitchenErrors
from planner.quantities.compute import kitchenry
from service.db.kitchens import StoredVersion
from service.db.unit_of_work import Database
from service.documents import kept_kitchen
from service.kept import Kept
from service.sales_values import KeptSales
from service.usecases.kitchens import list_kitchens
from service.usecases.yield_lessons import newest_version
from web.language import language

_WEEK = dt.timedelta(7)
_AHEAD = 400
"""Days after the history whose holidays are looked up with its own."""
_KITCHENS = 8
_DAYS = 200
"""Kept at hand; more are reckoned again."""

_Version = tuple[int, str | None, str | None]
"""Of the history, and whose holidays count."""


@dataclass(frozen=True, slots=True)
class SalesNow:
    """A kitchen's kept history, with what its forecasts would have been."""

    kitchen: Kitchen
    kept: KeptSales
    history: History
    reviews: tuple[ServiceReview, ...]
    holidays: frozenset[dt.date]


@dataclass(slots=True)
class _Known:
    """A version of a kitchen's history, and what has been made of it."""

    version: _Version
    kept: KeptSales
    history: History
    holidays: frozenset[dt.date]
    tried: dict[str, Mapping[str, Tried]] = field(default_factory=dict)
    forecasts: dict[tuple[str, dt.date], ServiceForecast | None] = field(default_factory=dict)
    days: dict[tuple[int, dt.date], Mapping[str, ServiceOutlook]] = field(default_factory=dict)


class SalesForecasts:
    """Reads histories and keeps what it has made of them.

    Parameters
    ----------
    database
        Where they are stored.
    """

    def __init__(self, database: Database) -> None:
        self._database = database
        self._lock = threading.Lock()
        self._known: Kept[uuid.UUID, _Known] = Kept(_KITCHENS)

    def of_day(self, slug: str, date: dt.date) -> DayOutlook:
        """A day as its history sees it.

        Raises
        ------
        NotFoundError
            There is no such kitchen.
        """
        with self._lock:
            stored, kitchen, known = self._now(slug)
            key = (stored.number, date)
            if key not in known.days:
                if len(known.days) >= _DAYS:
                    known.days.clear()
                known.days[key] = {
                    one.id: _outlook(kitchen, known, one, date)
                    for one in kitchen.services
                    if one.date == date
                }
            services = known.days[key]
        return DayOutlook(
            date,
            holiday_name(kitchen, date),
            max((max(days) for days in known.history.sold.values()), default=None),
            services,
        )

    def now(self, slug: str) -> SalesNow:
        """All that is kept, and how forecasts would have done; raises as ``of_day``."""
        with self._lock:
            _stored, kitchen, known = self._now(slug)
            reviews = tuple(
                service_review(known.history, service, _tried(known, service))
                for service in _in_order(kitchen, known.history)
            )
        return SalesNow(kitchen, known.kept, known.history, reviews, known.holidays)

    def renew(self, slug: str) -> None:
        """Make what takes long, so that no page waits for it; nothing where nothing is kept."""
        with self._database.reading() as unit:
            if not unit.sales.version(newest_version(unit, slug).kitchen_id):
                return
        with self._lock:
            _stored, kitchen, known = self._now(slug)
            for service in known.history.sold:
                _tried(known, service)
        holiday_name(kitchen, kitchen.as_of)

    def renew_all(self) -> None:
        """The same for every kitchen, as when the server starts."""
        for kitchen in list_kitchens(self._database):
            # A file of before a rule that it breaks now is for its own pages to tell.
            with suppress(KitchenErrors):
                self.renew(kitchen.slug)

    def _now(self, slug: str) -> tuple[StoredVersion, Kitchen, _Known]:
        with self._database.reading() as unit:
            stored = newest_version(unit, slug)
            kitchen = kept_kitchen(stored.document)
            number = unit.sales.version(stored.kitchen_id)
            version = (number, kitchen.country, kitchen.region)
            known = self._known.get(stored.kitchen_id)
            if known is None or known.version != version:
                kept = unit.sales.kept(stored.kitchen_id)
                history = history_of(kept.sales, kept.closed)
                made = _Known(version, kept, history, _holidays(kitchen, history))
                known = self._known.put(stored.kitchen_id, made)
        return stored, kitchen, known


def _in_order(kitchen: Kitchen, history: History) -> list[str]:
    """Services of a history as the day brings them; those that the file has no more come last."""
    opens = {one.name: one.opens for one in reversed(kitchen.services)}
    return sorted(history.sold, key=lambda name: (opens.get(name, "~"), name))


def holiday_name(kitchen: Kitchen, date: dt.date) -> str:
    """What the public holiday of a day is called in the language of the page; empty: it is none."""
    if kitchen.country is None:
        return ""
    return _holiday_name(kitchen.country, kitchen.region, date, language())


@lru_cache(maxsize=1000)
def _holiday_name(country: str, region: str | None, date: dt.date, spoken: str) -> str:
    try:
        return named_holidays(country, [date], region, spoken).get(date, "")
    except NoHolidaysError:
        return ""  # The page of the history says that none are known of such a country.


def _holidays(kitchen: Kitchen, history: History) -> frozenset[dt.date]:
    """Public holidays among the days of the history and the year after it."""
    days = {date for of_service in history.sold.values() for date in of_service}
    if kitchen.country is None or not days:
        return frozenset()
    ahead = (max(days) + dt.timedelta(n) for n in range(1, _AHEAD))
    try:
        return public_holidays(kitchen.country, [*days, *ahead], kitchen.region)
    except NoHolidaysError:
        return frozenset()


def _tried(known: _Known, service: str) -> Mapping[str, Tried]:
    if service not in known.tried:
        known.tried[service] = tried_ways(known.history, service, known.holidays)
    return known.tried[service]


def _outlook(kitchen: Kitchen, known: _Known, service: Service, date: dt.date) -> ServiceOutlook:
    history, name = known.history, service.name
    sold = sold_on(history, name, date)
    forecast: ServiceForecast | None = None
    why: NoForecast | None = None
    if sold is not None:
        why = NoForecast.SOLD
    elif service.guaranteed:
        why = NoForecast.GUARANTEED
    elif name not in history.sold:
        why = NoForecast.NO_HISTORY
    else:
        forecast = _forecast(known, name, date)
        why = NoForecast.TOO_SHORT if forecast is None else None
    level = service.service_level or kitchen.rules.service_level
    ready = () if forecast is None else dish_portions(kitchenry(kitchen, date), forecast, level)
    return ServiceOutlook(
        service=name,
        sold=sold,
        before=sold_on(history, name, date - _WEEK) if date - dt.date.min >= _WEEK else None,
        forecast=forecast,
        why_none=why,
        ready={one.dish: one for one in ready},
        days=len(history.sold.get(name, {})),
    )


def _forecast(known: _Known, service: str, date: dt.date) -> ServiceForecast | None:
    """None where the history is too short."""
    key = (service, date)
    if key not in known.forecasts:
        # A day in the midst of the history has less before it than all of it.
        after = date > max(known.history.sold[service])
        try:
            known.forecasts[key] = forecast_service(
                known.history,
                service,
                date,
                known.holidays,
                known=_tried(known, service) if after else None,
            )
        except TooShortError:
            known.forecasts[key] = None
    return known.forecasts[key]
