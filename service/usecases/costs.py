"""What dishes cost, by the newest kitchen file."""

import datetime as dt

from planner.money.report import KitchenCosts, kitchen_costs
from service.clock import Now, today_in
from service.db.unit_of_work import Database
from service.documents import kept_kitchen
from service.usecases.kitchens import kitchen_file


def costs_now(database: Database, slug: str, day: dt.date | None, *, now: Now) -> KitchenCosts:
    """Costs of a kitchen and of the week of ``day``; default: this week.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    kitchen = kept_kitchen(kitchen_file(database, slug))
    return kitchen_costs(kitchen, day or today_in(kitchen.time_zone, now))
