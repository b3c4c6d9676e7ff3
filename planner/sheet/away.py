"""When a cook is not at prep: station set-up, breaks, the line."""

import datetime as dt
from collections.abc import Iterable

from planner.kitchen.base import clock_minutes
from planner.kitchen.document import Rules
from planner.kitchen.hours import shift_of
from planner.kitchen.work import Cook
from planner.sheet.types import Away

SET_UP = "station set-up"
BREAK = "break"
ON_LINE = "on the line"


def away(
    cook: Cook, date: dt.date, rules: Rules, rests: Iterable[tuple[int, int]]
) -> tuple[Away, ...]:
    """Stretches without prep on the cook's shift, by start; ``rests`` are the plan's breaks."""
    shift = shift_of(cook, date)
    if shift is None:
        return ()
    start = clock_minutes(shift.start)
    stretches = [Away(BREAK, begin, end) for begin, end in rests]
    stretches += [
        Away(ON_LINE, clock_minutes(one.start), clock_minutes(one.end)) for one in shift.on_line
    ]
    if rules.station_set_up_minutes:
        stretches.append(Away(SET_UP, start, start + rules.station_set_up_minutes))
    return tuple(sorted(stretches, key=lambda one: (one.start, one.end)))
