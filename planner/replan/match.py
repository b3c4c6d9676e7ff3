"""Which batch of the old plan a batch of the new one stands for."""

from collections.abc import Collection
from dataclasses import dataclass, field, replace

from planner.lots.alike import alike, tasks_alike
from planner.lots.types import Lot
from planner.replan.begun import Standing
from planner.replan.course import Course
from planner.replan.residual import Residual
from planner.schedule.rests import Slot
from planner.schedule.timetable import Assignment


@dataclass(frozen=True, slots=True)
class Match:
    """What people expect of the rest of the day.

    Attributes
    ----------
    old
        Old assignments by new task.
    added
        New lots that no old one stands for, by index.
    dropped
        Old lots that no new one stands for.
    left_out
        New lots whose old one the old plan did not make, by index.
    names
        Ids by new lot: its old one's, or one that is not taken.
    rests
        Where breaks are expected, by worker.
    """

    old: dict[int, Assignment]
    added: Collection[int] = ()
    dropped: tuple[Lot, ...] = ()
    left_out: Collection[int] = ()
    names: dict[int, str] = field(default_factory=dict)
    rests: tuple[tuple[Slot, ...], ...] = ()


def match(before: Course, rest: Residual, day: Standing) -> Match:
    """Pair lots of the same work on the same component, in the order they are due.

    Lots under way are themselves. What the old plan left undone has no assignment.
    """
    by_task = {item.task: item for item in before.timetable.assignments}
    old: dict[int, Assignment] = {
        task: by_task[known] for task, known in rest.old_task.items() if known in by_task
    }
    waiting = [lot for lot in before.workload.lots if lot.index not in day.lots]
    names = {lot.index: lot.id for lot in rest.workload.lots[rest.new_lots :]}
    added: set[int] = set()
    left_out: set[int] = set()
    number = len(before.workload.lots)
    new = rest.workload.lots[: rest.new_lots]
    pairs = alike(waiting, new)
    for lot in sorted(new, key=lambda one: (one.due, one.index)):
        known = pairs.get(lot.index)
        if known is None:
            added.add(lot.index)
            names[lot.index] = f"{number}:{lot.operation}"
            number += 1
            continue
        names[lot.index] = known.id
        if not any(item.task in by_task for item in known.tasks):
            left_out.add(lot.index)
        for task, before_task in tasks_alike(lot, known):
            if before_task in by_task:
                old[task] = by_task[before_task]
    stand = {lot.index for lot in pairs.values()}
    dropped = tuple(
        lot
        for lot in waiting
        if lot.index not in stand and any(item.task in by_task for item in lot.tasks)
    )
    return Match(old, added, dropped, left_out, names, tuple(one.expected for one in rest.breaks))


def named(rest: Residual, names: dict[int, str]) -> Residual:
    """``rest`` with its lots called as people know them."""
    lots = tuple(replace(lot, id=names[lot.index]) for lot in rest.workload.lots)
    return replace(rest, workload=replace(rest.workload, lots=lots))
