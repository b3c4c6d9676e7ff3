"""When cooks are in: shifts by date, and the hours in which anybody is."""

import datetime as dt
from dataclasses import dataclass

from planner.kitchen.base import clock_minutes
from planner.kitchen.document import Kitchen
from planner.kitchen.work import Cook, Shift

DAY = 1440
"""Minutes in a day."""


@dataclass(frozen=True, slots=True)
class Hours:
    """From the first cook's arrival to the last one's end, minutes after midnight of day 0."""

    opens: int
    closes: int


def shift_of(cook: Cook, date: dt.date) -> Shift | None:
    """Return the shift of ``date``: its own, else the one for every day; None where there is none
    or the cook is out.
    """
    if date in cook.days_off:
        return None
    dated = next((shift for shift in cook.shifts if shift.date == date), None)
    return dated or next((shift for shift in cook.shifts if shift.date is None), None)


def hours_of(kitchen: Kitchen, date: dt.date, day: int) -> Hours | None:
    """Hours of the day ``day`` days after ``date`` (day 0); None where nobody is in.

    A trainee, who works beside another cook, is nobody here.
    """
    on = date + dt.timedelta(days=day)
    shifts = [
        shift
        for cook in kitchen.cooks
        if cook.learns_from is None and (shift := shift_of(cook, on)) is not None
    ]
    if not shifts:
        return None
    opens = min(clock_minutes(shift.start) for shift in shifts)
    closes = max(clock_minutes(shift.end) for shift in shifts)
    return Hours(day * DAY + opens, day * DAY + closes)
