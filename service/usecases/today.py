"""Where each kitchen's today stands, for the page that everybody begins at."""

import datetime as dt
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from service.clock import Now, today_in
from service.db.unit_of_work import Database
from service.documents import time_zone_of


@dataclass(frozen=True, slots=True)
class KitchenToday:
    """A kitchen, its clock's zone, the date on its wall, whether cooks have a plan to work from."""

    slug: str
    name: str
    zone: ZoneInfo
    date: dt.date
    released: bool


def kitchens_today(database: Database, *, now: Now) -> tuple[KitchenToday, ...]:
    """All kitchens, by name."""
    found = []
    with database.reading() as unit:
        for one in unit.kitchens.summaries():
            stored = unit.kitchens.newest(one.slug)
            zone = time_zone_of(stored.document) if stored else "UTC"
            date = today_in(zone, now)
            released = unit.floor.release(one.slug, date) is not None
            found.append(KitchenToday(one.slug, one.name, ZoneInfo(zone), date, released))
    return tuple(found)
