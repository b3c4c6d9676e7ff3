"""Live pages as text: a sheet and where the floor stands in, HTML out.

They hold under a content security policy of ``default-src 'self'``. Times are minutes after
midnight of the planned day.
"""

from markupsafe import Markup

from planner.floor.progress import Stage, progress_of
from planner.floor.state import Floor
from planner.sheet.types import KitchenSheet
from web.chart.live import Live, live_chart
from web.engine import render
from web.floor.cook import floor_cook_view
from web.floor.home import home_view
from web.floor.links import FloorLinks
from web.floor.reasons import reasons
from web.floor.state import cook_state, wall_state
from web.floor.wall import at_work, late_numbers, wall_view
from web.pages import chart_svg, cook_of
from web.presenters.preferences import Preferences

__all__ = ["FloorLinks", "render_floor_cook", "render_floor_home", "render_floor_wall"]

_METRIC = Preferences()

_WALL_SHAPE = 2.75
"""Width by height of what the lists above leave of a screen of 16:9."""


def render_floor_home(
    sheet: KitchenSheet, floor: Floor, links: FloorLinks, *, preferences: Preferences = _METRIC
) -> str:
    """Choose your name; the wall screen; which release."""
    return render("floor/home.html", view=home_view(sheet, floor, preferences), links=links)


def render_floor_cook(
    sheet: KitchenSheet,
    cook_id: str,
    floor: Floor,
    links: FloorLinks,
    *,
    now: float,
    preferences: Preferences = _METRIC,
) -> str:
    """A cook's live page: own batches only, the one at hand large.

    Raises
    ------
    LookupError
        The sheet has no cook with that id.
    """
    cook = cook_of(sheet, cook_id)
    return render(
        "floor/cook.html",
        view=floor_cook_view(sheet, cook, floor, now, preferences),
        state=cook_state(sheet, cook, floor, links, now=now, preferences=preferences),
        reasons=reasons(),
        links=links,
    )


def render_floor_wall(
    sheet: KitchenSheet,
    floor: Floor,
    links: FloorLinks,
    *,
    now: float,
    preferences: Preferences = _METRIC,
) -> str:
    """The wall screen: late first, what comes out next, who is at what, lanes with a now line."""
    done = frozenset(
        one.batch.number
        for cook in sheet.cooks
        for one in progress_of(cook, floor)
        if one.stage is Stage.DONE
    )
    live = Live(
        now,
        done,
        late_numbers(sheet, floor, now),
        at_work(sheet, floor, preferences),
    )
    drawn = live_chart(sheet, live, preferences, _WALL_SHAPE)
    return render(
        "floor/wall.html",
        view=wall_view(sheet, floor, now, preferences),
        # Markup of our own template, which escapes what people wrote.
        chart=Markup(chart_svg(drawn, "live-")),  # noqa: S704
        state=wall_state(sheet, links, preferences),
        links=links,
    )
