"""The planner's own way from a kitchen file to a morning, with its first plans and no search."""

import datetime as dt
from collections.abc import Iterable
from itertools import islice

from planner.kitchen.document import Kitchen
from planner.lots.build import workload_of
from planner.lots.types import Workload
from planner.morning import plan_around
from planner.plan import Plan
from planner.quantities.compute import kitchenry, quantities_of
from planner.quantities.making import Kitchenry
from planner.quantities.types import Quantities
from planner.schedule.construct import constructive_plans
from planner.schedule.rules import FIRST_RULES
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Assignment, Solution, Status
from tests.bench.learning.house import STARTS

IN_HAND = 15
"""Minutes before it is due by which the plan must be ready, else the cooks come earlier."""


def food_of(kitchen: Kitchen, date: dt.date) -> tuple[Kitchenry, Quantities, Workload]:
    """Quantities and lots of a day, without who does them when."""
    kit = kitchenry(kitchen, date)
    demands, quantities = quantities_of(kit)
    return kit, quantities, workload_of(kit, demands, quantities)


def morning_of(kitchen: Kitchen, date: dt.date) -> tuple[Kitchen, Plan, int]:
    """(kitchen as planned, plan, which of ``STARTS``): the latest start that leaves time in hand.

    Everybody's habit, whatever figures they plan with.
    """
    _, _, workload = food_of(kitchen, date)
    best = None
    for number, start in enumerate(STARTS):
        staffed = kitchen if number == 0 else _from(kitchen, start)
        if number:
            _, _, workload = food_of(staffed, date)
        timetable = min(
            islice(constructive_plans(tables_of(workload.problem)), FIRST_RULES),
            key=lambda found: found[2],
        )
        best = staffed, workload, timetable, number
        if _in_hand(workload, timetable[1].assignments) >= IN_HAND:
            break
    assert best is not None  # noqa: S101 - there is a first start
    staffed, workload, (_, timetable, score), number = best
    solution = Solution(timetable, score, Status.FEASIBLE, (), (), 0.0, 0.0, 1)
    return staffed, plan_around(staffed, date, workload, solution), number


def ready_at(workload: Workload, ends: dict[int, float]) -> float:
    """When all that dishes take is ready; ``ends`` of the tasks that are done, by index."""
    last = 0.0
    for lot in workload.lots:
        if lot.dishes:
            tasks = [task.task for task in lot.tasks]
            if not all(task in ends for task in tasks):
                return float("inf")
            finished = len(tasks) > 1 or not lot.unattended
            last = max(last, max(ends[task] for task in tasks) + (not finished) * lot.unattended)
    return last


def due_of(workload: Workload) -> float:
    """When all of it has to be ready."""
    return min((lot.due for lot in workload.lots if lot.finishes and lot.dishes), default=1440.0)


def _in_hand(workload: Workload, assignments: Iterable[Assignment]) -> float:
    return due_of(workload) - ready_at(workload, {a.task: float(a.end) for a in assignments})


def _from(kitchen: Kitchen, start: str) -> Kitchen:
    """Everybody comes at ``start``."""
    cooks = tuple(
        cook.model_copy(
            update={"shifts": tuple(s.model_copy(update={"start": start}) for s in cook.shifts)}
        )
        for cook in kitchen.cooks
    )
    return kitchen.model_copy(update={"cooks": cooks})
