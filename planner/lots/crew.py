"""Cooks of a day as the schedule sees them."""

import datetime as dt
from dataclasses import dataclass

from planner.kitchen.base import clock_minutes
from planner.kitchen.document import Kitchen, Rules
from planner.kitchen.hours import shift_of
from planner.kitchen.rests import latest_end, rests_of
from planner.kitchen.work import Cook, Operation, Shift
from planner.schedule.problem import Rest, Worker


@dataclass(frozen=True)
class Crew:
    """Cooks who are in, in the order of the worker indexes."""

    cooks: tuple[Cook, ...]
    workers: tuple[Worker, ...]

    def paces(self, operation: Operation) -> dict[int, float]:
        """Pace by worker index of all who may do the operation: skill and station."""
        found: dict[int, float] = {}
        for index, cook in enumerate(self.cooks):
            pace = next((s.pace for s in cook.skills if s.skill == operation.skill), None)
            if pace is not None and (cook.stations is None or operation.station in cook.stations):
                found[index] = pace
        return found

    @property
    def longest_rest(self) -> int:
        """Minutes of the longest break of anybody."""
        return max((rest.minutes for worker in self.workers for rest in worker.rests), default=0)


def crew_of(kitchen: Kitchen, date: dt.date) -> Crew:
    """Everybody who has a shift on ``date``."""
    pairs = [(cook, shift) for cook in kitchen.cooks if (shift := shift_of(cook, date)) is not None]
    return Crew(
        tuple(cook for cook, _ in pairs),
        tuple(_worker(cook, shift, kitchen.rules) for cook, shift in pairs),
    )


def _worker(cook: Cook, shift: Shift, rules: Rules) -> Worker:
    set_up = rules.station_set_up_minutes
    start, end = clock_minutes(shift.start), clock_minutes(shift.end)
    blocked = [(start, start + set_up)] if set_up else []
    blocked += [(clock_minutes(line.start), clock_minutes(line.end)) for line in shift.on_line]
    return Worker(
        id=cook.id,
        start=start,
        end=end,
        latest_end=latest_end(shift, rules),
        blocked=tuple(sorted(blocked)),
        wage_per_hour=cook.wage_per_hour,
        flexible=shift.flexible,
        min_paid=shift.min_paid_minutes,
        rests=tuple(
            Rest(rest.minutes, rest.earliest, rest.latest) for rest in rests_of(shift, rules)
        ),
    )
