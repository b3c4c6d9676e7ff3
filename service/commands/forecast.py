"""``forecast``: a day's covers, mix and portions from a sales history."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from rich.table import Table

from planner.forecast.choose import Chosen
from planner.forecast.history import History, HistoryError
from planner.forecast.holidays import public_holidays
from planner.forecast.models import CORE, FORECASTERS, MissingExtraError, TooShortError
from planner.forecast.portions import dish_portions, shared_components
from planner.forecast.service import ServiceForecast, forecast_service, with_forecast
from planner.kitchen.day import Service
from planner.kitchen.document import Kitchen
from planner.quantities.compute import kitchenry
from planner.quantities.kitchenry import Kitchenry
from service.commands.exits import Exit
from service.commands.inputs import day_of, read_file, usable_kitchen
from service.commands.output import results, say, warn
from service.documents import kitchen_bytes
from service.errors import UserError
from service.sales_csv import read_sales
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass, number

_GAPS = 5


@dataclass(frozen=True, slots=True)
class Asked:
    """What the options say; ``matches`` are ``SERVICE=NAME``: what the history calls a service."""

    country: str | None
    region: str | None
    matches: Sequence[str]
    with_statsmodels: bool
    out: Path | None


def forecast(path: Path, sales: Path, date: dt.datetime | None, asked: Asked) -> Exit:
    """Forecast the services of a day; write them into a kitchen file where that is asked for."""
    _, kitchen = usable_kitchen(path)
    day = day_of(kitchen, date)
    history = _history(sales)
    services = [service for service in kitchen.services if service.date == day]
    if not services:
        raise UserError(f"{path}: it has no service on {day}. Enter the day's services first.")
    holidays = _holidays(history, day, asked, kitchen)
    names = _matches(asked.matches, kitchen)
    ways = tuple(FORECASTERS) if asked.with_statsmodels else CORE
    kit = kitchenry(kitchen, day)
    found: dict[str, Service] = {}
    for service in services:
        name = names.get(service.id, service.id if service.id in history.sold else service.name)
        try:
            one = forecast_service(history, name, day, holidays, names=ways)
        except KeyError:
            known = ", ".join(history.sold)
            raise UserError(
                f"{sales}: it has no service {name!r}; it has: {known}. Say which one is "
                f"{service.name} with --match {service.id}=NAME."
            ) from None
        except (TooShortError, MissingExtraError) as error:
            raise UserError(f"{sales}: {error}") from None
        found[service.id] = with_forecast(service, one)
        _print(kit, history, service, one)
    if asked.out is not None:
        _write(kitchen, found, asked.out)
    return Exit.ON_TIME


def _history(path: Path) -> History:
    try:
        history = read_sales(read_file(path))
    except HistoryError as error:
        raise UserError(f"{path}: it cannot be used:\n{error}") from None
    for gap in history.gaps[:_GAPS]:
        warn(f"{path}: nothing of {gap.service} on {gap.date}: was it closed, or is it missing?")
    if len(history.gaps) > _GAPS:
        warn(f"{path}: and {len(history.gaps) - _GAPS} more such days.")
    return history


def _holidays(history: History, day: dt.date, asked: Asked, kitchen: Kitchen) -> frozenset[dt.date]:
    """Those of the country that was asked for, else of the kitchen file's."""
    country = asked.country or kitchen.country
    region = asked.region or (kitchen.region if asked.country is None else None)
    if country is None:
        return frozenset()
    dates = {date for days in history.sold.values() for date in days} | {day}
    try:
        return public_holidays(country, dates, region)
    except ValueError as error:
        raise UserError(f"--country: {error}") from None


def _matches(given: Sequence[str], kitchen: Kitchen) -> dict[str, str]:
    found = {}
    ids = {service.id for service in kitchen.services}
    for one in given:
        service, _, name = one.partition("=")
        if service not in ids or not name:
            raise UserError(
                f"--match: {one!r} names no service. Write SERVICE=NAME, with one of the kitchen "
                f"file's: {', '.join(sorted(ids))}."
            )
        found[service] = name
    return found


def _print(kit: Kitchenry, history: History, service: Service, one: ServiceForecast) -> None:
    level = service.service_level or kit.catalog.kitchen.rules.service_level
    if one.covers is not None and one.chosen is not None:
        say(
            f"{service.name}, {one.date}: {one.covers.mean:.0f} covers, give or take "
            f"{one.covers.sd:.0f}; the kitchen file has {service.covers}."
        )
        say(_way(one.chosen))
    else:
        say(f"{service.name}, {one.date}: the history counts no covers, only dishes.")
    if service.guaranteed:
        say("Its covers are guaranteed: the forecast does not change them.")
    table = Table("Dish", box=None, pad_edge=False)
    for head in ("A cover", "Expected", "Give or take", "Ready for", "By", "Keeps"):
        table.add_column(head, justify="right")
    per_cover = {dish.dish: dish.per_cover for dish in one.dishes}
    for dish in dish_portions(kit, one, level):
        table.add_row(
            dish.name,
            number(per_cover[dish.dish], 2),
            number(dish.expected, 1),
            number(dish.sd, 1),
            str(dish.portions),
            f"{'costs' if dish.by_costs else 'level'} {dish.ratio * 100:.0f} %",
            f"{dish.keeps} d" if dish.by_costs else "",
        )
    results().print(table)
    for shared in shared_components(kit, history, one, level):
        if shared.grams.saved >= 1:
            say(
                f"{shared.name}, for {len(shared.dishes)} dishes: "
                f"{mass(shared.grams.together, Preferences())} with one buffer for all, "
                f"{mass(shared.grams.apart, Preferences())} with one for each."
            )
    say("")


def _way(chosen: Chosen) -> str:
    best = chosen.scores[0]
    days = f"over the last {best.days} open days, each forecast from what was known before its week"
    if chosen.naive_wins:
        others = ", ".join(f"{one.name} {one.off:.1f}" for one in chosen.scores[1:])
        return (
            f"By what the same day last week had: nothing was better {days} "
            f"(off by {best.off:.1f} covers; {others})."
        )
    return (
        f"By {best.name}: off by {best.off:.1f} covers {days}, {chosen.gain * 100:.0f} % less than "
        "what the same day last week had."
    )


def _write(kitchen: Kitchen, found: dict[str, Service], out: Path) -> None:
    services = tuple(found.get(service.id, service) for service in kitchen.services)
    out.write_bytes(kitchen_bytes(kitchen.model_copy(update={"services": services})))
    say(f"{out}: the kitchen file with these covers, their spread and the mix.")
