"""The time axis: which minutes the chart spans, and where each of them lies."""

from dataclasses import dataclass

from planner.sheet.types import KitchenSheet
from web.chart.shapes import DueLine, Tick, Words
from web.chart.words import text_width
from web.language import _
from web.presenters.clock import clock, clock_mark
from web.presenters.preferences import Preferences

_HOUR = 60
_DAY = 24 * _HOUR
_LEAST_HOUR = 70
"""An hour label needs about so much room; narrower hours are labelled every second or third."""

FLAG_SIZE = 20.0
_FLAG_GAP = 16.0


@dataclass(frozen=True, slots=True)
class Axis:
    """Minutes ``start`` to ``end`` over ``left`` to ``right``."""

    start: int
    end: int
    left: float
    right: float

    def x(self, minute: int) -> float:
        """Place of ``minute``; what lies outside is moved to the nearer end."""
        inside = min(max(minute, self.start), self.end)
        share = (inside - self.start) / (self.end - self.start)
        return round(self.left + share * (self.right - self.left), 1)


def axis(sheet: KitchenSheet, left: float, right: float) -> Axis:
    """Whole hours around all attended work and services.

    What runs on unattended, such as a dough overnight, would squeeze the cooks' day into a corner;
    it is cut off at the end of the chart, where its bar says until when it runs.
    """
    starts = [block.start for lane in sheet.lanes for block in lane.blocks]
    ends = [
        block.end for lane in sheet.lanes for block in lane.blocks if block.kind != "unattended"
    ]
    today = [service.doors for service in sheet.services if service.date == sheet.date]
    first = min([*starts, sheet.start]) // _HOUR * _HOUR
    last = max([*ends, *today, first + _HOUR])
    return Axis(first, -(-last // _HOUR) * _HOUR, left, right)


def ticks(axis: Axis, preferences: Preferences) -> tuple[Tick, ...]:
    """Hours with their labels, as many as there is room for."""
    room = (axis.right - axis.left) / (axis.end - axis.start) * _HOUR
    every = max(1, -int(-_LEAST_HOUR // room)) * _HOUR
    marks = []
    day = axis.start // _DAY
    for minute in range(axis.start, axis.end + 1, every):
        # The day is named where it begins, not at every hour after it.
        text = clock_mark(minute, preferences)
        named = minute // _DAY != day
        day = minute // _DAY
        marks.append(Tick(axis.x(minute), text if named else text.split(" +")[0]))
    return tuple(marks)


def due_lines(
    sheet: KitchenSheet, axis: Axis, first_y: float, step: float, preferences: Preferences
) -> tuple[DueLine, ...]:
    """Lines of the services within the axis; flags that would touch go one row further down."""
    rows: list[float] = []
    lines = []
    for service in sorted(sheet.services, key=lambda one: one.due):
        if not axis.start <= service.due <= axis.end:
            continue
        time = clock(service.due, preferences)
        text = _("%(service)s: on the line %(time)s", service=service.name, time=time)
        x, width = axis.x(service.due), text_width(text, FLAG_SIZE)
        flag = min(x + 6, axis.right - width)
        row = next((row for row, end in enumerate(rows) if end + _FLAG_GAP < flag), len(rows))
        rows[row : row + 1] = [flag + width]
        lines.append(DueLine(x, Words(round(flag, 1), first_y + row * step, text)))
    return tuple(lines)
