"""Puts the chart together: axis, service lines, lanes, legend."""

from dataclasses import dataclass, replace

from planner.sheet.types import KitchenSheet
from web.chart.axis import Axis, axis, due_lines, ticks
from web.chart.lanes import worded_lanes
from web.chart.rows import SIZE, Laid, Measure, laid, measured, rows
from web.chart.shapes import Chart, DueLine, Key, Words
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
"""Levels of words to choose from: each is measured by itself."""

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


@dataclass(frozen=True, slots=True)
class _Fit:
    """How lanes would be drawn: on which axis, with how many levels of words, and what is lost."""

    lanes: tuple[Laid, ...]
    width: float
    levels: int
    over: Axis
    flags: tuple[DueLine, ...]
    measure: Measure

    @property
    def axis_y(self) -> float:
        """Base line of the hours, below the flags of the services."""
        return max([line.words.y for line in self.flags], default=0.0) + 34

    @property
    def key_y(self) -> float:
        """Top of the legend."""
        return self.measure.bottom + 14

    @property
    def height(self) -> float:
        """Height of the whole chart."""
        return round(self.key_y + 38, 1)

    @property
    def loss(self) -> float:
        """Share of characters cut off + share of the size given up."""
        cut = self.measure.lost / max(1, self.measure.wanted)
        return cut + 1 - _LEAST_WIDTH / self.width


def chart(sheet: KitchenSheet, preferences: Preferences, shape: float = SCREEN) -> Chart:
    """Geometry of the sheet's lane chart.

    Parameters
    ----------
    shape
        Width by height of the place it is for. A chart taller than that is drawn wider, so that it
        fills the place; its words then come out smaller.
    """
    return _drawn(sheet, _best(sheet, laid(worded_lanes(sheet)), preferences, shape), preferences)


def charts(sheet: KitchenSheet, preferences: Preferences, shape: float) -> tuple[Chart, ...]:
    """One chart, or two where its words would come out too small: cooks, then equipment."""
    lanes = laid(worded_lanes(sheet))
    fits = [_best(sheet, lanes, preferences, shape)]
    parts = [tuple(one for one in lanes if one.lane.kind == kind) for kind in ("cook", "equipment")]
    if fits[0].width > _LEAST_WIDTH * _MOST_WIDENED and all(parts):
        fits = [_best(sheet, part, preferences, shape) for part in parts]
    return tuple(_drawn(sheet, fit, preferences) for fit in fits)


def _best(
    sheet: KitchenSheet, lanes: tuple[Laid, ...], preferences: Preferences, shape: float
) -> _Fit:
    """More levels of words below the bars cut fewer of them short, but make all of them smaller.

    The least loss wins.
    """
    return min(
        (_fitted(sheet, lanes, preferences, shape, levels) for levels in _LEVELS),
        key=lambda found: found.loss,
    )


def _fitted(
    sheet: KitchenSheet,
    lanes: tuple[Laid, ...],
    preferences: Preferences,
    shape: float,
    levels: int,
) -> _Fit:
    first = _fit(sheet, lanes, preferences, _LEAST_WIDTH, levels)
    if first.height * shape <= first.width:
        return first
    return _fit(sheet, lanes, preferences, round(first.height * shape), levels)


def _fit(
    sheet: KitchenSheet,
    lanes: tuple[Laid, ...],
    preferences: Preferences,
    width: float,
    levels: int,
) -> _Fit:
    over = axis(sheet, _LEFT, width - _RIGHT_MARGIN)
    flags = due_lines(sheet, over, 24.0, _FLAG_ROW, preferences)
    empty = _Fit(lanes, width, levels, over, flags, Measure(0.0, 0, 0))
    return replace(empty, measure=measured(lanes, over, empty.axis_y + 12, levels, preferences))


def _drawn(sheet: KitchenSheet, fit: _Fit, preferences: Preferences) -> Chart:
    whose = _whose(fit.lanes)
    top = fit.axis_y + 12
    return Chart(
        title=_("Lane chart, %(whose)s, %(date)s", whose=whose, date=long_date(sheet.date)),
        description=_description(sheet, whose, fit.over, preferences),
        width=fit.width,
        height=fit.height,
        left=_LEFT,
        top=top,
        bottom=fit.measure.bottom,
        ticks=ticks(fit.over, preferences),
        dues=fit.flags,
        rows=rows(fit.lanes, fit.over, top, _LEFT - 32, fit.levels, preferences),
        key_y=fit.key_y,
        keys=keys(_legend(), _LEFT, fit.key_y + 20),
    )


def _whose(lanes: tuple[Laid, ...]) -> str:
    cooks = sum(one.lane.kind == "cook" for one in lanes)
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
