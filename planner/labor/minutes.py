"""Planned minutes of each cook, kind by kind; wages follow paid minutes, not hands-on ones."""

from collections.abc import Sequence

from planner.kitchen.base import clock_minutes
from planner.kitchen.hours import shift_of
from planner.kitchen.pairs import Learner, learners_on
from planner.kitchen.rests import rests_of
from planner.kitchen.work import Cook, Shift
from planner.lots.crew import crew_of
from planner.plan import CookMinutes
from planner.quantities.kitchenry import Kitchenry
from planner.schedule.problem import Problem, Worker
from planner.schedule.rests import slots_of
from planner.schedule.timetable import Assignment, Timetable


def cook_minutes(kit: Kitchenry, problem: Problem, timetable: Timetable) -> tuple[CookMinutes, ...]:
    """Minutes of every cook who is in, by worker index; after them, of trainees who are in.

    What a trainee and a cook do together stands with the cook; the trainee's shift is paid.
    """
    crew = crew_of(kit.catalog.kitchen, kit.date)
    by_worker: dict[int, list[Assignment]] = {i: [] for i in range(len(crew.cooks))}
    rests = slots_of(problem, timetable)
    for item in timetable.assignments:
        by_worker[item.worker].append(item)
    return tuple(
        _minutes(kit, crew.cooks[index], problem, index, rests[index], items)
        for index, items in by_worker.items()
    ) + tuple(_learning(kit, one) for one in learners_on(kit.catalog.kitchen, kit.date))


def _learning(kit: Kitchenry, one: Learner) -> CookMinutes:
    start, end = clock_minutes(one.shift.start), clock_minutes(one.shift.end)
    return CookMinutes(
        cook=one.trainee.id,
        name=one.trainee.name,
        hands_on=0,
        set_up=0,
        changeover=0,
        waiting=0,
        breaks=sum(rest.minutes for rest in rests_of(one.shift, kit.catalog.kitchen.rules)),
        on_line=sum(last - first for first, last in _on_line(one.shift)),
        overtime=0,
        paid=end - start,
        wages=round((end - start) / 60 * one.trainee.wage_per_hour, 2),
        beside="" if one.mentor is None else one.mentor.id,
    )


def _minutes(
    kit: Kitchenry,
    cook: Cook,
    problem: Problem,
    index: int,
    rests: Sequence[tuple[int, int]],
    items: Sequence[Assignment],
) -> CookMinutes:
    worker = problem.workers[index]
    shift = shift_of(cook, kit.date)
    station = kit.catalog.kitchen.rules.station_set_up_minutes
    line = [] if shift is None else _on_line(shift)
    tasks = problem.tasks
    hands_on = sum(
        tasks[item.task].minutes[item.worker]
        if tasks[item.task].pausable
        else item.end - item.start
        for item in items
    )
    set_up = sum(item.lead.set_up for item in items)
    changeover = sum(item.lead.total - item.lead.set_up for item in items)
    first = min((item.start - item.lead.total for item in items), default=worker.start)
    last = max((item.end for item in items), default=worker.start)
    away = _away((*worker.blocked, *rests), first, last)
    work = [(first - station, last)] if items else []
    paid = _paid(worker, [*work, *line])
    return CookMinutes(
        cook=worker.id,
        name=cook.name,
        hands_on=hands_on,
        set_up=set_up,
        changeover=changeover,
        waiting=last - first - hands_on - set_up - changeover - away,
        breaks=sum(rest.minutes for rest in worker.rests),
        on_line=sum(end - start for start, end in line),
        overtime=max(0, last - worker.end),
        paid=paid,
        wages=round(paid / 60 * worker.wage_per_hour, 2),
        station_set_up=station,
    )


def _on_line(shift: Shift) -> list[tuple[int, int]]:
    return [(clock_minutes(block.start), clock_minutes(block.end)) for block in shift.on_line]


def _away(stretches: Sequence[tuple[int, int]], first: int, last: int) -> int:
    """Minutes between the first and last work in which the cook is not at prep."""
    away, until = 0, first
    for begin, end in sorted(stretches):
        seen = max(begin, until)
        until = max(until, min(end, last))
        away += max(0, until - seen)
    return away


def _paid(worker: Worker, present: Sequence[tuple[int, int]]) -> int:
    """The shift with its overtime; where it is flexible, from first to last presence.

    ``present`` is work, the station set-up before it, and every block on the line. Rests before or
    after all of that are not waited for.
    """
    last = max((end for _, end in present), default=worker.start)
    if not worker.flexible:
        return worker.end - worker.start + max(0, last - worker.end)
    first = max(worker.start, min((start for start, _ in present), default=worker.start))
    return max(worker.min_paid, last - first)
