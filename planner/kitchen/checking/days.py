"""Clocks and dates run forward, and the wall clock is one that exists."""

import zoneinfo
from collections.abc import Iterator

from planner.kitchen.base import clock_minutes
from planner.kitchen.catalog import Catalog
from planner.kitchen.errors import FileError, Place, places, suggestion
from planner.wording import sentence


def check_days(catalog: Catalog) -> Iterator[FileError]:
    """Yield an unknown time zone, and each end that comes before its beginning."""
    kitchen = catalog.kitchen
    yield from _time_zone(kitchen.time_zone)
    for place, service in places("services", kitchen.services):
        if clock_minutes(service.closes) <= clock_minutes(service.opens):
            yield place.field("closes").error(
                service.closes,
                sentence(
                    "the service closes at {closes}, not after it opens at {opens}",
                    closes=service.closes,
                    opens=service.opens,
                ),
                sentence(
                    "enter a later time; times past midnight go on: 2 in the morning is '26:00'"
                ),
            )
    for place, prepared in places("prepared", kitchen.prepared):
        if prepared.use_by < prepared.made:
            yield place.field("use_by").error(
                prepared.use_by,
                sentence("the use-by comes before the day it was made, {made}", made=prepared.made),
                sentence("correct one of the two; the day of preparation is day 1"),
            )
    for place, stock in places("raw_stock", kitchen.raw_stock):
        if stock.use_by is not None and stock.use_by < stock.received:
            yield place.field("use_by").error(
                stock.use_by,
                sentence(
                    "the use-by comes before the day it was received, {received}",
                    received=stock.received,
                ),
                sentence("correct one of the two"),
            )


def _time_zone(name: str) -> Iterator[FileError]:
    try:
        zoneinfo.ZoneInfo(name)
    except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
        known = zoneinfo.available_timezones()
        yield Place("time_zone").error(
            name,
            sentence("no time zone has this name"),
            suggestion(name, known)
            + sentence("enter an IANA name, such as 'UTC' or a continent and city"),
        )
