"""Where a batch is worked and with what: the station's place, equipment and how many of it."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from planner.lots.types import Part
from planner.schedule.problem import Hold
from planner.schedule.timetable import Assignment
from planner.sheet.runs import Run
from planner.sheet.view import PlanView
from planner.wording import sentence


@dataclass(frozen=True, slots=True)
class HeldTime:
    """One hold as it happened: from the lead of the task that opens it to its end and tail."""

    hold: Hold
    start: int
    end: int
    first: Assignment
    last: Assignment
    unit: int | None
    """The unit held, from 0, where the resource's units are told apart."""


def held_times(view: PlanView) -> tuple[HeldTime, ...]:
    """All holds that took place, by start."""
    found = []
    for index, hold in enumerate(view.problem.holds):
        first = view.assignments.get(hold.first)
        last = view.assignments.get(hold.last)
        if first is None or last is None:
            continue
        start = first.start - first.lead.total
        unit = dict(first.units).get(index)
        found.append(HeldTime(hold, start, last.end + hold.tail, first, last, unit))
    return tuple(sorted(found, key=lambda held: (held.start, held.hold.first)))


def place(view: PlanView, run: Run, held: tuple[HeldTime, ...]) -> str:
    """Which of the station's places, where they are told apart: ``place 2``; else empty."""
    units = {
        one.unit
        for one in _opened(run, held)
        if not view.is_equipment(one.hold) and one.unit is not None
        if view.problem.resources[one.hold.resource].capacity > 1
    }
    return (
        sentence("place {numbers}", numbers=", ".join(str(unit + 1) for unit in sorted(units)))
        if units
        else ""
    )


def equipment(view: PlanView, runs: Iterable[Run], held: tuple[HeldTime, ...]) -> tuple[str, ...]:
    """Equipment that batches use, and how many at once: ``Blender 2``, ``3 x Oven tray``."""
    using: dict[int, dict[HeldTime, None]] = defaultdict(dict)
    for run in runs:
        for one in _used(run, held):
            if view.is_equipment(one.hold):
                using[one.hold.resource][one] = None
    lines = []
    for resource, holds in using.items():
        name = view.resource_name(next(iter(holds)).hold)
        units = sorted({one.unit for one in holds if one.unit is not None})
        if units and view.problem.resources[resource].capacity > 1:
            lines.append(f"{name} {', '.join(str(unit + 1) for unit in units)}")
        else:
            most = most_at_once(list(holds))
            lines.append(name if most == 1 else f"{most} x {name}")
    return tuple(lines)


def most_at_once(holds: list[HeldTime]) -> int:
    """Most units held at the same time."""
    changes = sorted(
        [(one.start, one.hold.units) for one in holds]
        + [(one.end, -one.hold.units) for one in holds]
    )
    most = now = 0
    for _time, change in changes:
        now += change
        most = max(most, now)
    return most


def _opened(run: Run, held: tuple[HeldTime, ...]) -> Iterator[HeldTime]:
    tasks = {one.task for one in run.assignments}
    return (one for one in held if one.hold.first in tasks)


def _used(run: Run, held: tuple[HeldTime, ...]) -> Iterator[HeldTime]:
    if run.part is Part.WORK:
        return _opened(run, held)
    # A check or a take-out is done on what the lot's own work opened earlier.
    tasks = {task.task for lot in run.lots for task in lot.tasks}
    within = {one.task for one in run.assignments}
    return (
        one
        for one in held
        if one.hold.first in tasks and (one.hold.first != one.hold.last or one.hold.first in within)
    )
