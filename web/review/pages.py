"""The manager's pages as text."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import quote

from planner.floor.days import DayLabor
from planner.floor.state import Floor
from planner.sheet.types import KitchenSheet
from web.engine import render
from web.language import _
from web.links import STYLESHEETS, Choice
from web.presenters.clock import long_date
from web.presenters.preferences import Preferences
from web.review.charts import Chart
from web.review.drawing import drawn
from web.review.history_view import HistoryView, history_view
from web.review.view import review_view
from web.review.words import short_day

_STYLES = (*STYLESHEETS, "/static/labor.css")
_WEEK = 7


@dataclass(frozen=True, slots=True)
class LaborLinks:
    """Addresses of a kitchen's labor over days.

    ``home`` leads to all plans, ``kitchen`` to the kitchen's today, ``floor`` to a day's review.
    """

    base: str
    kitchen: str
    floor: str
    home: str = "/"

    def range(self, first: dt.date, last: dt.date) -> str:
        """The page of a range."""
        return f"{self.base}/{first}/{last}"

    def file(self, first: dt.date, last: dt.date, name: str) -> str:
        """A file of a range: ``batches.csv``."""
        return f"{self.range(first, last)}/{quote(name)}"

    def week(self, date: dt.date) -> str:
        """The page of paper of the week that a day lies in."""
        return f"{self.base}/week/{monday_of(date)}"


@dataclass(frozen=True, slots=True)
class LaborRange:
    """What the pages of a range are about; ``invented``: nobody worked some of it."""

    kitchen: str
    first: dt.date
    last: dt.date
    today: dt.date
    known: tuple[dt.date, dt.date] | None
    days: Sequence[DayLabor]
    invented: bool = False


def monday_of(date: dt.date) -> dt.date:
    """The Monday of a day's week (ISO 8601)."""
    return date - dt.timedelta(date.weekday())


def render_review(
    sheet: KitchenSheet,
    floor: Floor,
    *,
    table_href: str,
    floor_href: str,
    history_href: str,
    release: int,
    preferences: Preferences,
    day: DayLabor | None = None,
    over: bool = False,
) -> str:
    """What a day took so far; ``day`` sums it up, and says why once it is ``over``.

    ``table_href`` is the file of every batch, ``floor_href`` the page of the floor,
    ``history_href`` that of other days.
    """
    return render(
        "review.html",
        kitchen=sheet.kitchen,
        date=long_date(sheet.date),
        view=review_view(sheet, floor, preferences, day, over=over),
        release=release,
        table_href=table_href,
        floor_href=floor_href,
        history_href=history_href,
        style="",
        stylesheets=_STYLES,
    )


def render_history(found: LaborRange, links: LaborLinks, preferences: Preferences) -> str:
    """What a range of days took."""
    return render(
        "labor/range.html",
        **_common(found, links, history_view(found.days, found.today, preferences)),
        ranges=_ranges(found, links),
        empty=_empty(found, links),
        files=tuple(
            Choice(label, links.file(found.first, found.last, f"{name}.csv"))
            for name, label in (
                ("batches", _("Every batch as CSV")),
                ("sums", _("The sums as CSV")),
                ("variance", _("Why, by day, as CSV")),
            )
        ),
        paper=Choice(
            _("A week on paper, %(day)s", day=short_day(monday_of(found.last))),
            links.week(found.last),
        ),
    )


def render_week(found: LaborRange, links: LaborLinks, preferences: Preferences) -> str:
    """A week as it is printed on paper."""
    one = dt.timedelta(_WEEK)
    nav = []
    if found.first - dt.date.min >= one:
        nav.append(Choice(_("The week before"), links.week(found.first - one)))
    if dt.date.max - found.last >= one:
        nav.append(Choice(_("The week after"), links.week(found.first + one)))
    return render(
        "labor/week.html",
        **_common(found, links, history_view(found.days, found.today, preferences, brief=True)),
        weeks=tuple(nav),
        range_href=links.range(found.first, found.last),
        empty=_empty(found, links),
    )


def chart_svg(chart: Chart) -> str:
    """A chart as the image that a page shows."""
    return drawn(chart.spec)


def _common(found: LaborRange, links: LaborLinks, view: HistoryView) -> dict[str, object]:
    return {
        "kitchen": found.kitchen,
        "first": short_day(found.first),
        "last": _("%(day)s %(year)s", day=short_day(found.last), year=found.last.year),
        "first_iso": found.first.isoformat(),
        "last_iso": found.last.isoformat(),
        "view": view,
        "invented": found.invented,
        "links": links,
        "charts": f"{links.range(found.first, found.last)}/charts",
        "style": "",
        "stylesheets": _STYLES,
    }


def _ranges(found: LaborRange, links: LaborLinks) -> tuple[Choice, ...]:
    last = found.last
    return tuple(
        Choice(
            label,
            links.range(last - dt.timedelta(days - 1), last),
            current=(last - found.first).days == days - 1,
        )
        for days, label in (
            (7, _("1 week")),
            (28, _("4 weeks")),
            (84, _("12 weeks")),
        )
        if (last - dt.date.min).days >= days
    )


def _empty(found: LaborRange, links: LaborLinks) -> Choice | None:
    """Where to go where nothing was worked in the range; None: something was."""
    if found.days:
        return None
    if found.known is None:
        return Choice(_("Open today"), links.kitchen)
    last = found.known[1]
    first = max(found.known[0], last - dt.timedelta(27))
    return Choice(
        _("Show %(first)s to %(last)s", first=short_day(first), last=short_day(last)),
        links.range(first, last),
    )
