"""The costs' page as text."""

from collections.abc import Sequence

from planner.money.report import KitchenCosts
from web.chef.pages import CHEF_STYLESHEETS
from web.engine import render
from web.links import Choice
from web.money.view import costs_view
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
