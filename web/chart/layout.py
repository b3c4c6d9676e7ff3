"""Puts the chart together: axis, service lines, lanes, legend."""

from planner.sheet.types import KitchenSheet, Lane
from web.chart.axis import Axis, axis, due_lines, ticks
from web.chart.lanes import worded_lanes
from web.chart.rows import SIZE, rows
from web.chart.shapes import Chart, Key, Words
from web.chart.words import text_width
from web.language import _, ngettext
from web.presenters.clock import clock, long_date, span
from web.presenters.preferences import Preferences

_LEAST_WIDTH = 1920.0
"""As wide as a wall screen, so that a font size on the chart is at most a pixel there."""

SCREEN = 1.94
"""Width by height of what a wall screen of 16:9 leaves below the page's head."""

PAPER = 1.55
"""Width by height of a sideways A4 or Letter sheet within its margins."""

_LEFT = 246.0
_RIGHT_MARGIN = 48.0
_LEVELS = (3, 5, 8)
"""Levels of words to choose from: each costs a layout of its own."""

_MOST_WIDENED = 1.2
"""A chart drawn wider than this by its least width is split."""

_FLAG_ROW = 26.0
_KEY_BOX = 44.0
_KEY_GAP = 26.0


def _legend() -> tuple[tuple[str, str, bool], ...]:
    return (
        ("work", _("work, with its batch number"), False),
        ("lead", _("set-up, changeover, cleaning"), False),
        ("unattended", _("runs by itself"), False),
        ("break", _("break"), False),
        ("line", _("on the line"), False),
        ("station", _("station set-up"), False),
        ("work", _("late"), True),
    )


def chart(sheet: KitchenSheet, preferences: Preferences, shape: float = SCREEN) -> Chart:
    """Geometry of the sheet's lane chart.

    Parameters
    ----------
    shape
        Width by height of the place it is for. A chart taller than that is drawn wider, so that it
        fills the place; its words then come out smaller.
    """
    return _best(sheet, worded_lanes(sheet), preferences, shape)


def charts(sheet: KitchenSheet, preferences: Preferences, shape: float) -> tuple[Chart, ...]:
    """One chart, or two where its words would come out too small: cooks, then equipment."""
    whole = chart(sheet, preferences, shape)
    kinds = ("cook", "equipment")
    worded = worded_lanes(sheet)
    lanes = [tuple(lane for lane in worded if lane.kind == kind) for kind in kinds]
    if whole.width <= _LEAST_WIDTH * _MOST_WIDENED or not all(lanes):
        return (whole,)
    return tuple(_best(sheet, part, preferences, shape) for part in lanes)


def _best(
    sheet: KitchenSheet, lanes: tuple[Lane, ...], preferences: Preferences, shape: float
) -> Chart:
    """More levels of words below the bars cut fewer of them short, but make all of them smaller.

    The least loss wins: share of characters cut off + share of the size given up.
    """
    return min(
        (_fitted(sheet, lanes, preferences, shape, levels) for levels in _LEVELS),
        key=lambda found: _loss(found) + 1 - _LEAST_WIDTH / found.width,
    )


def _loss(drawn: Chart) -> float:
    return sum(row.lost for row in drawn.rows) / max(1, sum(row.wanted for row in drawn.rows))


def _fitted(
    sheet: KitchenSheet,
    lanes: tuple[Lane, ...],
    preferences: Preferences,
    shape: float,
    levels: int,
) -> Chart:
    first = _chart(sheet, lanes, preferences, _LEAST_WIDTH, levels)
    if first.height * shape <= first.width:
        return first
    return _chart(sheet, lanes, preferences, round(first.height * shape), levels)


def _chart(
    sheet: KitchenSheet,
    lanes: tuple[Lane, ...],
    preferences: Preferences,
    width: float,
    levels: int,
) -> Chart:
    over = axis(sheet, _LEFT, width - _RIGHT_MARGIN)
    flags = due_lines(sheet, over, 24.0, _FLAG_ROW, preferences)
    axis_y = max([line.words.y for line in flags], default=0.0) + 34
    top = axis_y + 12
    placed = rows(lanes, over, top, _LEFT - 32, levels, preferences)
    bottom = placed[-1].y + placed[-1].height if placed else top
    key_y = bottom + 14
    return Chart(
        title=_("Lane chart, %(whose)s, %(date)s", whose=_whose(lanes), date=long_date(sheet.date)),
        description=_description(sheet, _whose(lanes), over, preferences),
        width=width,
        height=round(key_y + 38, 1),
        left=_LEFT,
        top=top,
        bottom=bottom,
        ticks=ticks(over, preferences),
        dues=flags,
        rows=placed,
        key_y=key_y,
        keys=keys(_legend(), _LEFT, key_y + 20),
    )


def _whose(lanes: tuple[Lane, ...]) -> str:
    cooks = sum(lane.kind == "cook" for lane in lanes)
    others = len(lanes) - cooks
    people = ngettext("%(n)s cook", "%(n)s cooks", cooks)
    things = ngettext("%(n)s piece of equipment", "%(n)s pieces of equipment", others)
    if cooks and others:
        return _("%(cooks)s and %(equipment)s", cooks=people, equipment=things)
    return people if cooks else things if others else _("Nobody")


def _description(sheet: KitchenSheet, whose: str, over: Axis, preferences: Preferences) -> str:
    dues = "; ".join(
        _(
            "%(service)s on the line %(time)s",
            service=service.name,
            time=clock(service.due, preferences),
        )
        for service in sheet.services
    )
    services = f" {dues}." if dues else ""
    return _(
        "%(whose)s over time, %(span)s.%(services)s The kitchen page and the cooks' sheets say the "
        "same in words.",
        whose=whose,
        span=span(over.start, over.end, preferences),
        services=services,
    )


def keys(legend: tuple[tuple[str, str, bool], ...], left: float, base: float) -> tuple[Key, ...]:
    """The legend in one line from ``left``: (style, words, whether late) each."""
    found = []
    x = left
    for style, text, late in legend:
        found.append(Key(round(x, 1), style, late, Words(round(x + _KEY_BOX + 8, 1), base, text)))
        x += _KEY_BOX + 8 + text_width(text, SIZE) + _KEY_GAP
    return tuple(found)
