"""The manager's pages as text."""

from planner.floor.state import Floor
from planner.sheet.types import KitchenSheet
from web.engine import render
from web.links import STYLESHEETS
from web.presenters.clock import long_date
from web.presenters.preferences import Preferences
from web.review.view import review_view


def render_review(
    sheet: KitchenSheet,
    floor: Floor,
    *,
    table_href: str,
    floor_href: str,
    release: int,
    preferences: Preferences,
) -> str:
    """What a day took so far.

    ``table_href`` is the file of every batch, ``floor_href`` the page of the floor.
    """
    return render(
        "review.html",
        kitchen=sheet.kitchen,
        date=long_date(sheet.date),
        view=review_view(sheet, floor, preferences),
        release=release,
        table_href=table_href,
        floor_href=floor_href,
        style="",
        stylesheets=STYLESHEETS,
    )
