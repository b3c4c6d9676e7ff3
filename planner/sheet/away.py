"""When a cook is not at prep: station set-up, breaks, the line."""

import datetime as dt

from planner.kitchen.base import clock_minutes
from planner.kitchen.document import Rules
from planner.kitchen.hours import shift_of
from planner.kitchen.work import Cook
from planner.sheet.types import Away

SET_UP = "station set-up"
BREAK = "break"
ON_LINE = "on the line"


def away(cook: Cook, date: dt.date, rules: Rules) -> tuple[Away, ...]:
    """Stretches without prep on the cook's shift, by start."""
    shift = shift_of(cook, date)
    if shift is None:
        return ()
    start = clock_minutes(shift.start)
    stretches = [
        Away(BREAK, clock_minutes(one.start), clock_minutes(one.start) + one.minutes)
        for one in shift.breaks
    ]
    stretches += [
        Away(ON_LINE, clock_minutes(one.start), clock_minutes(one.end)) for one in shift.on_line
    ]
    if rules.station_set_up_minutes:
        stretches.append(Away(SET_UP, start, start + rules.station_set_up_minutes))
    return tuple(sorted(stretches, key=lambda one: (one.start, one.end)))
