"""Invented sales for the demo: what guests of the bundled kitchen might have ordered.

Everything here is made up, with a seed for each day, so that a day that is invented twice is the
same day.
"""

import datetime as dt
import math
import random
from collections.abc import Iterator

from planner.forecast.history import COVERS, Sale
from planner.kitchen.day import Service
from planner.kitchen.document import Kitchen
from service.db.unit_of_work import Database
from service.sales_values import INVENTED_BY
from service.usecases.sales import SalesWish, kept_now, sales_entries, take_sales

WEEKS = 16
BUSY = (0.75, 0.8, 0.85, 0.95, 1.15, 1.2, 0.9)
"""Covers of a weekday, Monday first, against the bundled kitchen's."""
_SOURCE = "invented.csv"
_NOISE = 0.09
_SEASON = 0.06


def add_sales(database: Database, slug: str, bundled: Kitchen, today: dt.date) -> int:
    """Keep what was sold in the weeks before ``today``, unless people have entered their own.

    How many counts are new.
    """
    kept = kept_now(database, slug).kept
    if kept.version and not _only_invented(database, slug):
        return 0
    known = {key[0] for key in kept.counts}
    sales = [one for one in invented_sales(bundled, today) if one.date not in known]
    if not sales:
        return 0
    morning = dt.datetime.combine(today, dt.time(12), dt.UTC)
    found = take_sales(
        database, slug, sales, SalesWish(_SOURCE), actor=INVENTED_BY, now=lambda: morning
    )
    return found.added


def invented_sales(bundled: Kitchen, today: dt.date, weeks: int = WEEKS) -> list[Sale]:
    """Lines of so many weeks before ``today``."""
    return [
        sale
        for back in range(weeks * 7, 0, -1)
        for sale in _day(bundled, today - dt.timedelta(back))
    ]


def _only_invented(database: Database, slug: str) -> bool:
    return all(one.actor == INVENTED_BY for one in sales_entries(database, slug))


def _day(bundled: Kitchen, date: dt.date) -> Iterator[Sale]:
    first: dict[str, Service] = {}
    for service in bundled.services:
        if not service.guaranteed:
            first.setdefault(service.name, service)
    for name, service in first.items():
        chance = random.Random(f"sold {name} {date}")  # noqa: S311 - invented figures
        season = 1 + _SEASON * math.sin(2 * math.pi * date.timetuple().tm_yday / 365)
        mean = service.covers * BUSY[date.weekday()] * season
        covers = max(1, round(mean * chance.lognormvariate(0, _NOISE)))
        yield Sale(date, name, COVERS, covers)
        for line in service.mix:
            sold = sum(chance.random() < line.per_cover for _guest in range(covers))
            yield Sale(date, name, line.dish, sold)
