"""Cooks of a day as the schedule sees them."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.kitchen.base import clock_minutes
from planner.kitchen.document import Kitchen, Rules
from planner.kitchen.hours import shift_of
from planner.kitchen.pairs import learners_on
from planner.kitchen.rests import latest_end, rests_of
from planner.kitchen.work import Cook, Operation, Shift
from planner.schedule.problem import Rest, Worker


@dataclass(frozen=True)
class Crew:
    """Cooks who are in, in the order of the worker indexes."""

    cooks: tuple[Cook, ...]
    workers: tuple[Worker, ...]
    beside: Mapping[str, Cook] = field(default_factory=dict)
    """Trainees by the cook whose whole shift they work beside."""

    def paces(self, operation: Operation) -> dict[int, float]:
        """Pace by worker index of all who may do the operation: skill and station."""
        found: dict[int, float] = {}
        for index, cook in enumerate(self.cooks):
            pace = next((s.pace for s in cook.skills if s.skill == operation.skill), None)
            if pace is not None and (cook.stations is None or operation.station in cook.stations):
                found[index] = pace * self._pair_pace(cook, operation)
        return found

    def _pair_pace(self, cook: Cook, operation: Operation) -> float:
        """How much quicker a cook is with the trainee beside them, where that one may be there."""
        trainee = self.beside.get(cook.id)
        if trainee is None:
            return 1.0
        there = trainee.stations is None or operation.station in trainee.stations
        return trainee.pair_pace if there else 1.0


def crew_of(kitchen: Kitchen, date: dt.date) -> Crew:
    """Everybody who has a shift on ``date``; a trainee is no worker, but makes another quicker."""
    pairs = [
        (cook, shift)
        for cook in kitchen.cooks
        if cook.learns_from is None and (shift := shift_of(cook, date)) is not None
    ]
    return Crew(
        tuple(cook for cook, _ in pairs),
        tuple(_worker(cook, shift, kitchen.rules) for cook, shift in pairs),
        {
            one.mentor.id: one.trainee
            for one in learners_on(kitchen, date)
            if one.mentor is not None and one.whole_shift
        },
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
