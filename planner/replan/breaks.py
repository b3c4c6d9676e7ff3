"""Breaks of a day under way: those that are over, and those still to come."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.clock import clock
from planner.kitchen.catalog import Catalog
from planner.replan.begun import Standing
from planner.replan.course import Course
from planner.schedule.problem import Rest, Worker
from planner.schedule.rests import Slot, first_slots, slots_of
from planner.schedule.timetable import Timetable
from planner.wording import sentence


@dataclass(frozen=True, slots=True)
class Breaks:
    """One cook's breaks.

    Attributes
    ----------
    over
        Where those are that have begun, or that a task under way is put down over.
    to_come
        Indexes of the others among the cook's rests.
    planned
        Where the plan before has those.
    expected
        The same, no earlier than the cook is free.
    """

    over: tuple[Slot, ...]
    to_come: tuple[int, ...]
    planned: tuple[Slot, ...]
    expected: tuple[Slot, ...] = ()

    def after(self, worker: Worker, rests: tuple[Rest, ...]) -> tuple["Breaks", Worker]:
        """``worker`` with the ``rests`` that are to come, as far as they can still be kept.

        One that is overdue, as work before it overran, is due as soon as the cook is free. Where
        there is no room in a window any more a break stays where it was planned. Who has left has
        none.
        """
        mine, kept = [], []
        for place, index in enumerate(self.to_come):
            earliest = max(rests[index].earliest, worker.start)
            if earliest < worker.latest_end:
                latest = max(rests[index].latest, earliest)
                mine.append(replace(rests[index], earliest=earliest, latest=latest))
                kept.append(place)
        planned = tuple(self.planned[place] for place in kept)
        expected = tuple(
            (begin, begin + rest.minutes)
            for (since, _), rest in zip(planned, mine, strict=True)
            for begin in [min(max(since, rest.earliest), rest.latest)]
        )
        ahead = replace(worker, rests=tuple(mine))
        if first_slots(ahead) is None:
            pinned = (
                replace(rest, earliest=begin, latest=begin)
                for rest, (begin, _) in zip(mine, expected, strict=True)
            )
            ahead = replace(worker, rests=tuple(pinned))
        to_come = tuple(self.to_come[place] for place in kept)
        return Breaks(self.over, to_come, planned, expected), ahead


def breaks_of(before: Course, day: Standing, comes: dict[int, int]) -> tuple[Breaks, ...]:
    """Breaks of every cook at ``day.now``; ``comes``: who is in late, by worker, and when."""
    problem = before.workload.problem
    slots = slots_of(problem, before.timetable)
    found = []
    for number, own in enumerate(slots):
        under_way = [
            (item.start, day.ended[item.task])
            for item in before.timetable.assignments
            if item.worker == number
            and problem.tasks[item.task].pausable
            and day.ended.get(item.task, 0) > day.now
        ]
        over, to_come = [], []
        for index, (begin, end) in enumerate(own):
            paused = any(since < begin and end < until for since, until in under_way)
            if begin < day.now or paused or end <= comes.get(number, 0):
                over.append((begin, end))
            else:
                to_come.append(index)
        found.append(Breaks(tuple(over), tuple(to_come), tuple(own[index] for index in to_come)))
    return tuple(found)


def breaks_of_day(
    before: Course, breaks: tuple[Breaks, ...], plan: Timetable
) -> tuple[tuple[int, ...], ...]:
    """When every break of the day starts: those that are over as they were, the rest as planned."""
    starts = [
        [begin for begin, _ in own] for own in slots_of(before.workload.problem, before.timetable)
    ]
    for number, one in enumerate(breaks):
        new = plan.rests[number] if plan.rests else [begin for begin, _ in one.expected]
        for index, begin in zip(one.to_come, new, strict=True):
            starts[number][index] = begin
    return tuple(map(tuple, starts)) if any(starts) else ()


def moved_breaks(
    catalog: Catalog,
    cooks: tuple[str, ...],
    breaks: tuple[Breaks, ...],
    plan: Timetable,
    least: int,
) -> Iterator[str]:
    """Say whose break is at another time, by ``least`` minutes or more."""
    for number, one in enumerate(breaks):
        new = plan.rests[number] if plan.rests else ()
        for (before, _), after in zip(one.planned, new, strict=False):
            if abs(after - before) >= least:
                name = catalog.cooks[cooks[number]].name
                yield sentence(
                    "{name}'s break is at {at}, not at {at_2}.",
                    name=name,
                    at=clock(after),
                    at_2=clock(before),
                )
