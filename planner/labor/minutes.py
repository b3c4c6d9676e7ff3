"""Planned minutes of each cook, kind by kind; wages follow paid minutes, not hands-on ones."""

from collections.abc import Sequence

from planner.kitchen.base import clock_minutes
from planner.kitchen.document import Kitchen
from planner.kitchen.hours import shift_of
from planner.lots.crew import crew_of
from planner.plan import CookMinutes
from planner.quantities.making import Kitchenry
from planner.schedule.problem import Problem, Worker
from planner.schedule.timetable import Assignment, Timetable


def cook_minutes(kit: Kitchenry, problem: Problem, timetable: Timetable) -> tuple[CookMinutes, ...]:
    """Minutes of every cook who is in, by worker index."""
    crew = crew_of(kit.catalog.kitchen, kit.date)
    by_worker: dict[int, list[Assignment]] = {i: [] for i in range(len(crew.cooks))}
    for item in timetable.assignments:
        by_worker[item.worker].append(item)
    return tuple(
        _minutes(kit, problem.workers[index], crew.cooks[index].name, items)
        for index, items in by_worker.items()
    )


def _minutes(kit: Kitchenry, worker: Worker, name: str, items: Sequence[Assignment]) -> CookMinutes:
    hands_on = sum(item.end - item.start for item in items)
    set_up = sum(item.lead.set_up for item in items)
    changeover = sum(item.lead.total - item.lead.set_up for item in items)
    first = min((item.start - item.lead.total for item in items), default=worker.start)
    last = max((item.end for item in items), default=worker.start)
    overtime = max(0, last - worker.end)
    away = sum(max(0, min(end, last) - max(begin, first)) for begin, end in worker.blocked)
    rests, line, station = _away(kit.catalog.kitchen, kit, worker)
    paid = _paid(worker, first, last) if items or not worker.flexible else worker.min_paid
    return CookMinutes(
        cook=worker.id,
        name=name,
        hands_on=hands_on,
        set_up=set_up,
        changeover=changeover,
        waiting=max(0, last - first - hands_on - set_up - changeover - away),
        breaks=rests,
        on_line=line,
        overtime=overtime,
        paid=paid,
        wages=round(paid / 60 * worker.wage_per_hour, 2),
        station_set_up=station,
    )


def _paid(worker: Worker, first: int, last: int) -> int:
    """The shift with its overtime; first to last where the shift is flexible.

    A flexible cook sets the station up and stays for every block on the line, so those bound it.
    """
    if not worker.flexible:
        return worker.end - worker.start + max(0, last - worker.end)
    begin, end = first, last
    for start, stop in worker.blocked:
        if start > worker.start:
            begin, end = min(begin, start), max(end, stop)
        else:
            begin -= stop - start
    return max(worker.min_paid, end - max(begin, worker.start))


def _away(kitchen: Kitchen, kit: Kitchenry, worker: Worker) -> tuple[int, int, int]:
    """Minutes of breaks, on the line, and of station set-up."""
    shift = shift_of(kit.catalog.cooks[worker.id], kit.date)
    if shift is None:
        return 0, 0, 0
    rests = sum(rest.minutes for rest in shift.breaks)
    line = sum(clock_minutes(b.end) - clock_minutes(b.start) for b in shift.on_line)
    return rests, line, kitchen.rules.station_set_up_minutes
