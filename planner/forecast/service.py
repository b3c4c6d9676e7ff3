"""From a history to a service of the kitchen file: covers, their spread, and the menu mix."""

import datetime as dt
from collections import defaultdict
from collections.abc import Collection, Mapping
from contextlib import suppress
from dataclasses import dataclass

from planner.forecast.choose import Chosen, Tried, tried
from planner.forecast.history import COVERS, History, Series
from planner.forecast.models import CORE, FORECASTERS, Forecast, TooShortError
from planner.forecast.ran_out import wanted
from planner.kitchen.day import MixLine, Service

_MIX_DAYS = 56
"""Days whose mix counts: menus change with the season."""
_MOST_SPREAD = 1.0


@dataclass(frozen=True, slots=True)
class DishForecast:
    """A dish on a day: portions a cover orders, and portions by its own history."""

    dish: str
    per_cover: float
    portions: Forecast
    way: str


@dataclass(frozen=True, slots=True)
class ServiceForecast:
    """A service on a day.

    ``covers`` is None where the history counts dishes only; ``chosen`` tells how they were
    forecast.
    """

    service: str
    date: dt.date
    covers: Forecast | None
    chosen: Chosen | None
    dishes: tuple[DishForecast, ...]

    @property
    def spread(self) -> float | None:
        """Standard deviation of covers / covers, as the kitchen file has it."""
        if self.covers is None or self.covers.mean <= 0:
            return None
        return min(_MOST_SPREAD, self.covers.sd / self.covers.mean)


def tried_ways(
    history: History,
    service: str,
    holidays: Collection[dt.date] = (),
    *,
    names: tuple[str, ...] = CORE,
    weeks: int = 8,
) -> Mapping[str, Tried]:
    """By covers and dish of a service, how each way to forecast did over its last weeks.

    What is too new to hold a week back is left out. It takes as long as all else together, and is
    the same for every day to come: whoever forecasts many days does it once.
    """
    found = {}
    days = history.sold.get(service)
    if days:
        history = wanted(history, max(days) + dt.timedelta(1))
    things = history.dishes(service)
    if any(COVERS in counts for counts in history.sold.get(service, {}).values()):
        things = (COVERS, *things)
    for thing in things:
        with suppress(TooShortError, KeyError):
            series = history.series(service, thing)
            found[thing] = tried(series, holidays, names=names, weeks=weeks)
    return found


def forecast_service(
    history: History,
    service: str,
    date: dt.date,
    holidays: Collection[dt.date] = (),
    *,
    names: tuple[str, ...] = CORE,
    known: Mapping[str, Tried] | None = None,
) -> ServiceForecast:
    """Covers, portions and mix of ``service`` on ``date``, from what was known before that day.

    Each thing is forecast by the way that served it best over the last weeks, which ``known`` has
    for a day after the last of the history. Of a dish that ran out, what guests would have taken
    counts, not what there was.

    Raises
    ------
    KeyError
        The history has no such service.
    TooShortError
        It is too short; says how much it takes.
    """
    if service not in history.sold:
        names_of = ", ".join(history.sold) or "none"
        raise KeyError(f"the history has no service {service!r}; it has: {names_of}")
    history = wanted(history, date)
    covers: Forecast | None = None
    chosen: Chosen | None = None
    if any(COVERS in counts for counts in history.sold[service].values()):
        try:
            series = history.series(service, COVERS).before(date)
        except KeyError:
            raise TooShortError(
                f"the history of {service!r} counts covers, and has never had any"
            ) from None
        covers, chosen = _one(series, date, holidays, names, (known or {}).get(COVERS))
    dishes = []
    for dish in history.dishes(service):
        try:
            series = history.series(service, dish).before(date)
            portions, of_dish = _one(series, date, holidays, names, (known or {}).get(dish))
        except TooShortError:
            continue  # New on the menu: the kitchen's own mix stands until there is more of it.
        per_cover = _per_cover(history.sold[service], dish, date)
        dishes.append(DishForecast(dish, per_cover, portions, of_dish.name))
    if covers is None and not dishes:
        raise TooShortError(
            f"the history of {service!r} before {date} is too short to forecast from: bring at "
            "least three weeks"
        )
    return ServiceForecast(service, date, covers, chosen, tuple(dishes))


def with_forecast(service: Service, forecast: ServiceForecast) -> Service:
    """The service with forecast covers, their spread, and the mix of what the history has sold.

    A guaranteed count is no forecast's business and stays, as does the mix of dishes that the
    history does not know.
    """
    if service.guaranteed or forecast.covers is None:
        return service
    known = {one.dish: one.per_cover for one in forecast.dishes}
    mix = tuple(
        MixLine(dish=line.dish, per_cover=round(min(10.0, known.get(line.dish, line.per_cover)), 4))
        for line in service.mix
    )
    return service.model_copy(
        update={
            "covers": round(forecast.covers.mean),
            "covers_spread": None if forecast.spread is None else round(forecast.spread, 4),
            "mix": mix,
        }
    )


def _one(
    series: Series,
    date: dt.date,
    holidays: Collection[dt.date],
    names: tuple[str, ...],
    known: Tried | None,
) -> tuple[Forecast, Chosen]:
    chosen = (known or tried(series, holidays, names=names)).chosen
    (forecast,) = FORECASTERS[chosen.name](series, [date], holidays)
    return forecast, chosen


def _per_cover(days: Mapping[dt.date, Mapping[str, int]], dish: str, date: dt.date) -> float:
    """Portions a cover orders on that weekday; 0 where the history does not count covers.

    Its own share is drawn to that of all days, the more the less weekdays differ beyond chance:
    the variance between them by DerSimonian and Laird's moments (1986, from memory).
    """
    portions: defaultdict[int, float] = defaultdict(float)
    covers: defaultdict[int, float] = defaultdict(float)
    sold = [day for day, counts in days.items() if day < date and counts.get(dish, 0) > 0]
    for day, counts in days.items():
        # An open day without a line of it sold none: left out, a rare dish would look a common one.
        on_menu = bool(sold) and min(sold) <= day <= max(sold)
        if on_menu and (date - day).days <= _MIX_DAYS and COVERS in counts:
            portions[day.weekday()] += counts.get(dish, 0)
            covers[day.weekday()] += counts[COVERS]
    of_all = sum(covers.values())
    if of_all == 0:
        return 0.0
    share = sum(portions.values()) / of_all
    noise = share * (1 - share) if share < 1 else share
    own = covers[date.weekday()]
    if noise <= 0 or own == 0:
        return share
    known = {day: n for day, n in covers.items() if n > 0}
    off = sum(n * (portions[day] / n - share) ** 2 for day, n in known.items()) / noise
    room = of_all - sum(n**2 for n in known.values()) / of_all
    between = (off - (len(known) - 1)) * noise / room if room > 0 else 0.0
    if between <= 0:
        return share
    weight = noise / between
    return (portions[date.weekday()] + weight * share) / (own + weight)
