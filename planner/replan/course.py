"""A day as it has gone so far and as it was to go on: what the next replan starts from."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from planner.kitchen.document import Kitchen
from planner.lots.types import Workload
from planner.pins.types import Pin
from planner.plan import Plan
from planner.replan.events import Event, Progress
from planner.schedule.rests import paused, slots_of
from planner.schedule.timetable import Assignment, Lead, Timetable


@dataclass(frozen=True, slots=True)
class Course:
    """A day's lots, begun and to come, with when and by whom.

    Attributes
    ----------
    plan
        The morning's plan, with the demands and quantities that the lots are for now.
    kitchen
        The kitchen file as it was counted in the morning.
    counted
        The same as it was counted when those quantities were worked out.
    events
        All that has happened so far.
    told
        Tasks that are known to have begun, whatever events would say of what was planned.
    settled
        What of the food that is lost the lots to come make up for.
    pins
        What people hold by hand of the lots that had not begun.
    """

    plan: Plan
    kitchen: Kitchen
    counted: Kitchen
    workload: Workload
    timetable: Timetable
    events: tuple[Event, ...] = ()
    told: frozenset[int] = frozenset()
    settled: frozenset[tuple[str, str]] = frozenset()
    pins: tuple[Pin, ...] = ()


def course_of(kitchen: Kitchen, plan: Plan) -> Course:
    """A plan that nothing has happened to yet."""
    timetable = plan.solution.timetable
    return Course(plan, kitchen, kitchen, plan.workload, timetable, pins=plan.pins)


def as_told(course: Course, progress: Iterable[Progress], now: int) -> Course:
    """``course`` with what the floor says of single tasks in place of what was planned of them."""
    by_task = {item.task: item for item in course.timetable.assignments}
    told = set(course.told)
    slots = slots_of(course.workload.problem, course.timetable)
    for one in progress:
        worker = course.workload.cooks.index(one.cook)
        planned = by_task.get(one.task)
        spec = course.workload.problem.tasks[one.task]
        minutes = spec.minutes.get(worker, 0)
        if spec.pausable:
            minutes += paused(slots[worker], one.start, minutes)
        end = max(one.start + minutes, now + 1) if one.end is None else one.end
        same = planned is not None and (planned.worker, planned.start) == (worker, one.start)
        by_task[one.task] = Assignment(
            one.task,
            worker,
            one.start,
            end,
            planned.lead if planned is not None and same else Lead(),
            () if planned is None else planned.units,
            () if planned is None else planned.cleaned,
        )
        if one.start < now:
            told.add(one.task)
        else:
            told.discard(one.task)
    ordered = tuple(by_task[task] for task in sorted(by_task))
    timetable = replace(course.timetable, assignments=ordered)
    return replace(course, timetable=timetable, told=frozenset(told))
