"""Pins as the solver knows them: limits of tasks; and what people expect by them."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from planner.lots.types import Lot, Part, Workload
from planner.pins.types import Pin
from planner.schedule.problem import Problem
from planner.schedule.timetable import Assignment


def work_task(lot: Lot) -> int:
    """The task in which the hands-on work of a lot is."""
    return next(item.task for item in lot.tasks if item.part is Part.WORK)


def pinned(workload: Workload, pins: Iterable[Pin]) -> Problem:
    """The workload's problem, in which what is held is its cook's alone and begins as it must.

    A lot's looks and its taking out stay with whoever the plan says. Pins of other lots than the
    workload's say nothing.
    """
    lots = {lot.id: lot for lot in workload.lots}
    tasks = list(workload.problem.tasks)
    for pin in pins:
        lot = lots.get(pin.lot)
        if lot is None:
            continue
        index = work_task(lot)
        task = tasks[index]
        if pin.cook is not None:
            worker = workload.cooks.index(pin.cook)
            task = replace(task, minutes={w: m for w, m in task.minutes.items() if w == worker})
        if pin.begin is not None:
            task = replace(task, release=max(task.release, pin.begin))
            if pin.exactly:
                task = replace(task, start_by=pin.begin)
        tasks[index] = task
    return replace(workload.problem, tasks=tuple(tasks))


def expected(
    workload: Workload, pins: Iterable[Pin], old: Mapping[int, Assignment]
) -> dict[int, Assignment]:
    """Who would do what when by the ``old`` plan, were what is held simply moved.

    What a lot is looked at and taken out by moves along, to the same cook if they can do it.
    """
    found = dict(old)
    lots = {lot.id: lot for lot in workload.lots}
    tasks = workload.problem.tasks
    for pin in pins:
        lot = lots.get(pin.lot)
        before = None if lot is None else found.get(work_task(lot))
        if lot is None or before is None:
            continue
        worker = before.worker if pin.cook is None else workload.cooks.index(pin.cook)
        start = before.start
        if pin.begin is not None:
            start = pin.begin if pin.exactly else max(start, pin.begin)
        ahead = lots.get(pin.follows)
        leader = None if ahead is None else found.get(work_task(ahead))
        if leader is not None:
            start = max(leader.end, pin.begin or 0)
        later = start - before.start
        for item in lot.tasks:
            one = found.get(item.task)
            if one is None:
                continue
            who = worker if worker in tasks[item.task].minutes else one.worker
            minutes = tasks[item.task].minutes.get(who, one.end - one.start)
            begin = one.start + later
            found[item.task] = replace(one, worker=who, start=begin, end=begin + minutes)
    return found
