"""The pages of costs as text: a kitchen's by its file, a day's by its plan."""

from collections.abc import Sequence

from planner.money.report import KitchenCosts
from planner.sheet.types import KitchenSheet
from web.chef.pages import CHEF_STYLESHEETS
from web.engine import render
from web.links import Choice, Links
from web.money.day_view import day_facts, day_tables
from web.money.view import costs_view
from web.pages import page_frame
from web.presenters.clock import long_date
from web.presenters.preferences import Preferences


def render_costs(
    costs: KitchenCosts, *, nav: Sequence[Choice], table_href: str, preferences: Preferences
) -> str:
    """What dishes cost; ``table_href`` is the same as a file."""
    return render(
        "chef/costs.html",
        view=costs_view(costs, preferences),
        kitchen=costs.kitchen,
        currency=costs.currency,
        week=long_date(costs.week),
        nav=nav,
        table_href=table_href,
        style="",
        stylesheets=CHEF_STYLESHEETS,
    )


def render_day_costs(
    sheet: KitchenSheet, links: Links, *, table_href: str, preferences: Preferences
) -> str:
    """What the dishes and components of a plan cost; ``table_href`` is the same as a file."""
    costs = sheet.costs
    frame = page_frame(sheet, links, False, "costs")
    frame["stylesheets"] = (*links.stylesheets, "/static/labor.css")
    return render(
        "day_costs.html",
        date=long_date(sheet.date),
        currency=sheet.currency,
        facts=() if costs is None else day_facts(costs),
        tables=() if costs is None else day_tables(costs, sheet, preferences),
        table_href=table_href,
        **frame,
    )
