"""Which batch of the old plan a batch of the new one stands for."""

from collections import defaultdict
from dataclasses import dataclass

from planner.lots.types import Lot, LotTask
from planner.replan.begun import Standing
from planner.replan.residual import Before, Residual
from planner.schedule.timetable import Assignment

_Key = tuple[str, int, str, str | None]


@dataclass(frozen=True, slots=True)
class Match:
    """Old assignments by new task; lots that are new, and old ones that are gone."""

    old: dict[int, Assignment]
    added: tuple[Lot, ...]
    dropped: tuple[Lot, ...]


def match(before: Before, rest: Residual, day: Standing) -> Match:
    """Pair lots of the same work on the same component, in the order they are due.

    Lots under way are themselves. What the old plan left undone has no assignment.
    """
    by_task = {item.task: item for item in before.timetable.assignments}
    old: dict[int, Assignment] = {
        task: by_task[known] for task, known in rest.old_task.items() if known in by_task
    }
    waiting: dict[_Key, list[Lot]] = defaultdict(list)
    for lot in sorted(before.workload.lots, key=lambda one: (one.due, one.index)):
        if lot.index not in day.lots:
            waiting[_key(lot)].append(lot)
    added: list[Lot] = []
    new = rest.workload.lots[: rest.new_lots]
    for lot in sorted(new, key=lambda one: (one.due, one.index)):
        pairs = waiting[_key(lot)]
        if not pairs:
            added.append(lot)
            continue
        known = pairs.pop(0)
        for task, before_task in zip(_parts(lot), _parts(known), strict=False):
            if before_task.part is task.part and before_task.task in by_task:
                old[task.task] = by_task[before_task.task]
    dropped = tuple(lot for lots in waiting.values() for lot in lots)
    return Match(old, tuple(added), dropped)


def _key(lot: Lot) -> _Key:
    return lot.component, lot.step, lot.operation, lot.cut


def _parts(lot: Lot) -> list[LotTask]:
    return sorted(lot.tasks, key=lambda one: (one.part, one.task))
