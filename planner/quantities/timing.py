"""On which day each step of a route must start, walking back from when it is wanted."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.flow import Flows
from planner.kitchen.foods import Component
from planner.kitchen.hours import DAY, Hours, hours_of
from planner.quantities.effort import Effort, Efforts

_FARTHEST = 7
"""Days before the planned one that work may have had to start."""


@dataclass(frozen=True, slots=True)
class StepTiming:
    """Latest start and end of one step (minutes; day 0 is the planned day)."""

    start: int
    end: int

    @property
    def day(self) -> int:
        """Day the step starts on; negative days are past."""
        return self.start // DAY


@dataclass(frozen=True, slots=True)
class StepMinutes:
    """Least minutes of a whole step and of its hands-on start.

    ``stretches``: it may be taken out later than when it is done; ``taken_out``: by hand.
    """

    whole: int
    hands: int
    stretches: bool
    taken_out: bool

    @classmethod
    def of(cls, effort: Effort, grams: float) -> "StepMinutes":
        """Minutes of a step on ``grams`` going in."""
        whole = effort.quickest(grams)
        hands = whole - effort.unattended - effort.finish
        return cls(whole, hands, effort.stretches, effort.finish > 0)


class Calendar:
    """The kitchen's hours around the planned day."""

    def __init__(self, catalog: Catalog, date: dt.date) -> None:
        rules = catalog.kitchen.rules
        self.margin = rules.day_margin_minutes
        days = range(-_FARTHEST, rules.lookahead_days + 2)
        self.hours: dict[int, Hours | None] = {
            day: hours_of(catalog.kitchen, date, day) for day in days
        }

    def closes(self, day: int) -> int:
        """When the last shift of ``day`` ends; midnight where nobody is in."""
        hours = self.hours.get(day)
        return (day + 1) * DAY if hours is None else hours.closes

    def latest_start(self, end: int, timing: "StepMinutes", margin: tuple[int, int]) -> int:
        """Latest start, inside working hours, of a step that must be over at ``end``.

        A step that ``stretches`` may be left by itself over night; any other, and one that is
        wanted on the day it starts, must also be taken out while somebody is in. ``margin`` is
        (day, minutes to spare after opening on that day).
        """
        start = end - timing.whole
        day = start // DAY
        while day >= -_FARTHEST:
            hours = self.hours.get(day)
            if hours is not None:
                over_night = end >= (day + 1) * DAY or not timing.taken_out
                left = timing.stretches and over_night
                inside = hours.closes - (timing.hands if left else timing.whole)
                candidate = min(start, inside)
                spare = margin[1] if day == margin[0] else 0
                if candidate >= hours.opens + spare:
                    return candidate
            day -= 1
        return start


def timings(
    calendar: Calendar,
    flows: Flows,
    efforts: Efforts,
    component: Component,
    grams: float,
    due: int,
) -> tuple[StepTiming, ...]:
    """Latest timing of every step so that ``grams`` are finished at ``due``.

    For a later day's service, work that bare minutes would squeeze into that day with less than
    the kitchen's margin to spare starts the day before; not so today, when there is no day before
    any more, nor food that must be made on its day.
    """
    service_day = due // DAY
    keeps = component.shelf_life_days > 1 and component.fresh_hours is None
    margin = (service_day, calendar.margin if keeps and service_day > 0 else 0)
    minutes = [
        StepMinutes.of(efforts.of(component, index), grams * step.grams_in)
        for index, step in enumerate(flows.of(component))
    ]
    found = _walk_back(component, minutes, due, calendar, margin)
    if component.days_ahead is not None and found[0].day > service_day - component.days_ahead:
        early = calendar.closes(service_day - component.days_ahead)
        found = _walk_back(component, minutes, min(due, early), calendar, margin)
    return found


def _walk_back(
    component: Component,
    minutes: Sequence[StepMinutes],
    due: int,
    calendar: Calendar,
    margin: tuple[int, int],
) -> tuple[StepTiming, ...]:
    end = due
    found: list[StepTiming] = []
    for index in reversed(range(len(component.route))):
        if index < len(component.route) - 1:
            end -= component.route[index].min_wait_minutes
        start = calendar.latest_start(end, minutes[index], margin)
        found.append(StepTiming(start, end))
        end = start
    return tuple(reversed(found))
