"""Days of a range, or its weeks where there are many, each summed up."""

import datetime as dt
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from planner.floor.days import DayLabor
from planner.floor.progress import Stage
from planner.floor.sums import LaborSum, whole_sum
from web.language import _
from web.review.words import day_mark, short_day

_MOST_DAYS = 31
"""Longer ranges are shown by week."""


@dataclass(frozen=True, slots=True)
class Period:
    """A day, or a week.

    Attributes
    ----------
    name, mark
        In a table and on a chart's axis.
    paid
        Minutes that cooks are paid for by the plan.
    """

    name: str
    mark: str
    covers: int
    whole: LaborSum
    paid: int
    left: int


def periods_of(days: Sequence[DayLabor]) -> tuple[Period, ...]:
    """Days in their order; weeks, from Monday (ISO 8601), where the range is long."""
    if not by_week(days):
        return tuple(_period(short_day(day.date), day_mark(day.date), [day]) for day in days)
    weeks: dict[dt.date, list[DayLabor]] = defaultdict(list)
    for day in days:
        weeks[day.date - dt.timedelta(day.date.weekday())].append(day)
    return tuple(
        _period(_("Week of %(day)s", day=short_day(monday)), day_mark(monday), group)
        for monday, group in weeks.items()
    )


def by_week(days: Sequence[DayLabor]) -> bool:
    """Whether the range is so long that its weeks are shown."""
    return bool(days) and (days[-1].date - days[0].date).days >= _MOST_DAYS


def _period(name: str, mark: str, days: Sequence[DayLabor]) -> Period:
    lines = [line for day in days for line in day.lines]
    return Period(
        name=name,
        mark=mark,
        covers=sum(day.covers for day in days),
        whole=whole_sum(lines),
        paid=sum(cook.minutes for day in days for cook in day.paid),
        left=sum(line.stage is not Stage.DONE for line in lines),
    )
