"""The lane chart of the wall's live page: the cooks over the hours around now, in large words."""

from collections.abc import Mapping, Set
from dataclasses import dataclass, replace

from planner.sheet.types import KitchenSheet, Lane
from web.chart.axis import Axis, due_lines, ticks
from web.chart.lanes import worded_lanes
from web.chart.layout import keys
from web.chart.rows import SIZE, TITLE_SIZE, Laid, laid, rows
from web.chart.shapes import Chart, NowLine, Row, Words
from web.chart.words import shorten
from web.language import _
from web.presenters.clock import clock, long_date, span
from web.presenters.preferences import Preferences

_WIDTH = 1240.0
"""Units across a screen of 1920 pixels: the chart's 18 come out as 28 pixels. Starting guess."""
_LEFT = 400.0
_RIGHT_MARGIN = 40.0
_FLAG_ROW = 26.0
_BEFORE, _LENGTH, _STEP = 45, 240, 30
"""The window in minutes: how much of what was, how long in all, and by how much it moves on."""
_LEVELS = (2, 1, 0)
_TITLE_Y = 27.0
_LINE = 23.0


def _legend() -> tuple[tuple[str, str, bool], ...]:
    return (
        ("work", _("to do"), False),
        ("done", _("done"), False),
        ("work", _("late"), True),
        ("lead", _("set-up, cleaning"), False),
    )


@dataclass(frozen=True, slots=True)
class Live:
    """What the floor adds to the plan: the time, and numbers of batches."""

    now: float
    done: Set[int]
    late: Set[int]
    at_work: Mapping[str, tuple[str, str]]
    """By the lane's title: the name in short, and what the cook is at."""


def live_chart(sheet: KitchenSheet, live: Live, preferences: Preferences, shape: float) -> Chart:
    """The cooks' lanes around now; ``shape`` is width by height of the place it is for."""
    start = (int(live.now) - _BEFORE) // _STEP * _STEP
    lanes = laid(
        _within(lane, start, start + _LENGTH, live)
        for lane in worded_lanes(sheet)
        if lane.kind == "cook"
    )
    for levels in _LEVELS:
        drawn = _drawn(sheet, lanes, live, start, preferences, _WIDTH, levels)
        if drawn.height * shape <= drawn.width:
            return drawn
    # More cooks than there is room for: all of them in smaller words.
    width = round(drawn.height * shape)
    return _drawn(sheet, lanes, live, start, preferences, width, _LEVELS[-1])


def _within(lane: Lane, start: int, end: int, live: Live) -> Lane:
    return replace(
        lane,
        blocks=tuple(
            replace(block, late=block.batch in live.late)
            for block in lane.blocks
            if block.end > start and block.start < end
        ),
    )


def _told(row: Row, name: str, what: str) -> Row:
    """The lane with its cook's name, and below that what the cook is at."""
    room = _LEFT - 28
    first = row.y + _TITLE_Y
    words = Words(16, round(first + _LINE, 1), shorten(what, room, SIZE))
    title = Words(16, round(first, 1), shorten(name, room, TITLE_SIZE))
    return replace(row, title=(title,), below=(*row.below, words))


def _drawn(
    sheet: KitchenSheet,
    lanes: tuple[Laid, ...],
    live: Live,
    start: int,
    preferences: Preferences,
    width: float,
    levels: int,
) -> Chart:
    over = Axis(start, start + _LENGTH, _LEFT, width - _RIGHT_MARGIN)
    flags = due_lines(sheet, over, 20.0, _FLAG_ROW, preferences)
    axis_y = max([line.words.y for line in flags], default=0.0) + 30
    top = axis_y + 12
    placed = tuple(
        _told(row, *live.at_work.get(one.lane.title, (one.lane.title, "")))
        for row, one in zip(
            rows(lanes, over, top, _LEFT - 28, levels, preferences, live.done), lanes, strict=True
        )
    )
    bottom = placed[-1].y + placed[-1].height if placed else top
    key_y = bottom + 10
    now = clock(int(live.now), preferences)
    return Chart(
        title=_(
            "Cooks, %(date)s, %(span)s",
            date=long_date(sheet.date),
            span=span(over.start, over.end, preferences),
        ),
        description=_(
            "Now %(time)s. The lists above say what is late and what comes out next.", time=now
        ),
        width=width,
        height=round(key_y + 34, 1),
        left=_LEFT,
        top=top,
        bottom=bottom,
        ticks=ticks(over, preferences),
        dues=flags,
        rows=placed,
        key_y=key_y,
        keys=keys(_legend(), _LEFT, key_y + 20),
        now=NowLine(
            over.x(int(live.now)),
            over.right,
            over.start,
            over.end,
            Words(over.x(int(live.now)), bottom - 2, now.time),
        ),
    )
