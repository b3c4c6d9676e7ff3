"""Pages and the chart as text: sheet values in, HTML or SVG out.

No page needs JavaScript. With ``inline_style`` a page carries its style and opens as a file;
without it the page links to the style sheets and holds under a content security policy of
``default-src 'self'``.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

from planner.quantities.types import Trace
from planner.sheet.types import CookSheet, KitchenSheet
from web.chart.axis import FLAG_SIZE
from web.chart.layout import PAPER, SCREEN, chart, charts
from web.chart.rows import SIZE, TITLE_SIZE, UPRIGHT_SIZE
from web.chart.shapes import Chart
from web.engine import render, stylesheet
from web.language import _, language, ngettext
from web.links import STYLESHEETS, Choice, Links
from web.presenters.clock import long_date
from web.presenters.cook import cook_view
from web.presenters.doors import KitchenEntry, kitchen_doors
from web.presenters.kitchen import kitchen_view
from web.presenters.plans import PlanEntry, plan_views
from web.presenters.preferences import Preferences
from web.presenters.why import why_view, why_views
from web.qr import qr_svg

__all__ = [
    "KitchenEntry",
    "Links",
    "PlanEntry",
    "Preferences",
    "lane_chart_svg",
    "render_cook",
    "render_index",
    "render_kitchen",
    "render_problem",
    "render_wall",
    "render_why",
    "render_whys",
    "stylesheet",
]

_METRIC = Preferences()

_KEPT = 24
"""Drawn charts that are kept, the last ones asked for: some 100 kB each."""

_PATTERNS = ("lead", "unattended", "line", "station")
"""Bars with a pattern of their own; work is solid, a break is blank."""


@dataclass(frozen=True, slots=True)
class _NavCook:
    """A cook in the page's navigation."""

    id: str
    name: str


def render_kitchen(
    sheet: KitchenSheet,
    links: Links,
    inline_style: bool = False,
    preferences: Preferences = _METRIC,
) -> str:
    """The whole kitchen's page: services, troubles, cooks, chart, pull list, labor, how sure.

    Parameters
    ----------
    sheet
        Masses in grams, times in minutes after midnight of its day.
    links
        Where the page's links lead.
    inline_style
        Whether the page carries its style sheets.
    preferences
        Units and clock of the reader; of stored sentences `web.reading` has them.
    """
    return render(
        "kitchen.html",
        view=kitchen_view(sheet, preferences),
        charts=_embedded(sheet, preferences, PAPER, "chart"),
        **page_frame(sheet, links, inline_style, "kitchen"),
    )


def render_cook(
    sheet: KitchenSheet,
    cook_id: str,
    links: Links,
    inline_style: bool = False,
    preferences: Preferences = _METRIC,
    live: str = "",
) -> str:
    """The sheet of one cook, to be pinned to the wall; further parameters as for `render_kitchen`.

    Parameters
    ----------
    live
        Address of the cook's live page, which a code on paper leads to; empty: none.

    Raises
    ------
    LookupError
        The sheet has no cook with that id.
    """
    cook = cook_of(sheet, cook_id)
    return render(
        "cook.html",
        cook=cook_view(sheet, cook, preferences),
        live=live,
        live_code=qr_svg(live, _("Live page of %(cook)s", cook=cook.name)) if live else "",
        **page_frame(sheet, links, inline_style, cook_id),
    )


def render_wall(
    sheet: KitchenSheet,
    links: Links,
    inline_style: bool = False,
    preferences: Preferences = _METRIC,
) -> str:
    """The lane chart by itself, for a screen on the wall; parameters as for `render_kitchen`."""
    return render(
        "wall.html",
        date=long_date(sheet.date),
        screen_charts=_embedded(sheet, preferences, SCREEN, "screen"),
        paper_charts=_embedded(sheet, preferences, PAPER, "paper"),
        **page_frame(sheet, links, inline_style, "wall"),
    )


def render_why(
    sheet: KitchenSheet,
    item: str,
    trace: Trace,
    links: Links,
    inline_style: bool = False,
) -> str:
    """Why the quantity of one item is what it is; further parameters as for `render_kitchen`."""
    return render(
        "why.html",
        date=long_date(sheet.date),
        only=why_view(item, trace),
        views=(),
        **page_frame(sheet, links, inline_style, ""),
    )


def render_whys(
    sheet: KitchenSheet,
    traces: Mapping[str, Trace],
    links: Links,
    inline_style: bool = False,
) -> str:
    """Why every quantity is what it is: on a screen an index of which one opens, on paper all.

    ``traces`` are by item; further parameters as for `render_kitchen`.
    """
    return render(
        "why.html",
        date=long_date(sheet.date),
        only=None,
        views=why_views(traces),
        **page_frame(sheet, links, inline_style, "why"),
    )


def render_index(
    plans: Sequence[PlanEntry],
    *,
    stylesheets: tuple[str, ...] = STYLESHEETS,
    inline_style: bool = False,
    start: str = "",
    kitchens: Sequence[KitchenEntry] = (),
    preferences: Preferences = _METRIC,
) -> str:
    """The list of plans, newest day first as given; empty, it says what to do.

    Parameters
    ----------
    kitchens
        Kitchens with the doors of their people.
    start
        How a plan is made here, in one sentence, such as the command or the page for it.
    """
    return render(
        "index.html",
        plans=plan_views(plans),
        count=ngettext("%(n)s plan", "%(n)s plans", len(plans)),
        start=start,
        kitchens=kitchen_doors(kitchens),
        preferences=preferences,
        style=stylesheet() if inline_style else "",
        stylesheets=stylesheets,
    )


def render_problem(
    status: int,
    title: str,
    detail: str,
    remedy: str,
    *,
    stylesheets: tuple[str, ...] = STYLESHEETS,
    inline_style: bool = False,
    home: str | None = "/",
    first: Choice | None = None,
) -> str:
    """An error as a page: what went wrong, with which value, and what to do about it.

    ``first`` is where to go rather than ``home``.
    """
    return render(
        "problem.html",
        status=status,
        title=title,
        detail=detail,
        remedy=remedy,
        home=home,
        first=first,
        style=stylesheet() if inline_style else "",
        stylesheets=stylesheets,
    )


def lane_chart_svg(
    sheet: KitchenSheet,
    preferences: Preferences = _METRIC,
    *,
    shape: float = SCREEN,
    prefix: str = "chart-",
) -> str:
    """The lane chart as an SVG element: cooks' lanes, then equipment, services' lines, a legend.

    It carries its fills, so that it also stands alone as a file; the pages' style sheet replaces
    them on dark screens.

    Parameters
    ----------
    shape
        Width by height of the place the chart is for.
    prefix
        Begins every id in the SVG; two charts on one page need two.
    """
    return chart_svg(chart(sheet, preferences, shape), prefix)


def chart_svg(drawn: Chart, prefix: str) -> str:
    """A drawn chart as an SVG element; ``prefix`` begins every id in it."""
    patterns = {style: f"url(#{prefix}fill-{style})" for style in _PATTERNS}
    return render(
        "lane_chart.svg",
        chart=drawn,
        prefix=prefix,
        fills={"work": "#3d2338", "break": "#fff", "done": "#fff", **patterns},
        size=f"{SIZE:g}",
        title_size=f"{TITLE_SIZE:g}",
        upright_size=f"{UPRIGHT_SIZE:g}",
        flag_size=f"{FLAG_SIZE:g}",
    )


@dataclass(frozen=True, slots=True)
class _Embedded:
    """A chart as part of a page."""

    title: str
    svg: Markup


def _embedded(
    sheet: KitchenSheet, preferences: Preferences, shape: float, name: str
) -> tuple[_Embedded, ...]:
    return _drawn(language(), sheet, preferences, shape, name)


@lru_cache(maxsize=_KEPT)
def _drawn(
    spoken: str, sheet: KitchenSheet, preferences: Preferences, shape: float, name: str
) -> tuple[_Embedded, ...]:
    """Charts of a sheet as whoever reads them in the language ``spoken`` sees them."""
    del spoken  # Tells one reader's chart from another's; it is the one that is written in.
    return tuple(
        # Markup of our own template, which escapes what people wrote.
        _Embedded(drawn.title, Markup(chart_svg(drawn, f"{name}-{number}-")))  # noqa: S704
        for number, drawn in enumerate(charts(sheet, preferences, shape), start=1)
    )


def cook_of(sheet: KitchenSheet, cook_id: str) -> CookSheet:
    """One cook's sheet; raise LookupError, naming those there are, where it has none."""
    for cook in sheet.cooks:
        if cook.cook == cook_id:
            return cook
    known = ", ".join(cook.cook for cook in sheet.cooks) or "none"
    raise LookupError(f"cook '{cook_id}' is not on this sheet; choose one of: {known}")


def page_frame(
    sheet: KitchenSheet, links: Links, inline_style: bool, current: str
) -> dict[str, object]:
    """What every page of one plan has around its own content."""
    return {
        "kitchen": sheet.kitchen,
        "links": links,
        "current": current,
        "nav_cooks": [_NavCook(cook.cook, cook.name) for cook in sheet.cooks],
        "style": stylesheet() if inline_style else "",
        "stylesheets": links.stylesheets,
    }
