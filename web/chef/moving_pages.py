"""The pages on which batches are moved by hand, as text."""

import datetime as dt
from collections.abc import Sequence

from planner.sheet.types import KitchenSheet
from web.chef.changes_view import changes_view
from web.chef.moving_view import MovingView
from web.chef.pages import CHEF_STYLESHEETS
from web.engine import render
from web.links import Choice, Links
from web.presenters.clock import long_date
from web.presenters.preferences import Preferences

_STYLESHEETS = (*CHEF_STYLESHEETS, "/static/moving.css")


def render_moving(
    view: MovingView,
    *,
    plan: str,
    nav: Sequence[Choice],
    choices: Sequence[Choice],
    kitchen: str,
    date: dt.date,
) -> str:
    """Batches by cook, each with a form; ``plan`` is the path of the plan they are of."""
    return render(
        "chef/moving.html",
        view=view,
        plan=plan,
        nav=nav,
        choices=choices,
        kitchen=kitchen,
        date=long_date(date),
        style="",
        stylesheets=_STYLESHEETS,
    )


def render_moved(
    *,
    sheet: KitchenSheet,
    before: KitchenSheet,
    told: Sequence[str],
    plan: str,
    links: Links,
    nav: Sequence[Choice],
    choices: Sequence[Choice],
    preferences: Preferences,
) -> str:
    """What a plan in which batches were moved changes for whom, and what is short or late in it."""
    return render(
        "chef/moved.html",
        view=changes_view(before, sheet, preferences),
        troubles=sheet.troubles,
        told=told,
        plan=plan,
        links=links,
        nav=nav,
        choices=choices,
        kitchen=sheet.kitchen,
        date=long_date(sheet.date),
        style="",
        stylesheets=_STYLESHEETS,
    )
