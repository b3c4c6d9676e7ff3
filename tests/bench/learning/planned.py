"""The planner's own way from a kitchen file to a morning, with its first plans and no search."""

import datetime as dt
from collections.abc import Mapping
from itertools import islice

from planner.demand.types import DishDemand
from planner.kitchen.document import Kitchen
from planner.lots.build import workload_of
from planner.lots.types import Workload
from planner.plan import Labor, Plan
from planner.quantities.compute import kitchenry, quantities_of
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import Quantities
from planner.schedule.construct import constructive_plans
from planner.schedule.rules import FIRST_RULES
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Solution, Status
from tests.bench.learning.house import STARTS

IN_HAND = 15
"""Minutes before it is due by which the plan must be ready, else the cooks come earlier."""


def food_of(
    kitchen: Kitchen, date: dt.date
) -> tuple[Kitchenry, tuple[DishDemand, ...], Quantities, Workload]:
    """Demands, quantities and lots of a day, without who does them when."""
    kit = kitchenry(kitchen, date)
    demands, quantities = quantities_of(kit)
    return kit, demands, quantities, workload_of(kit, demands, quantities)


def morning_of(kitchen: Kitchen, date: dt.date) -> tuple[Kitchen, Plan, int]:
    """(kitchen as planned, plan, which of ``STARTS``): the latest start that leaves time in hand.

    Everybody's habit, whatever figures they plan with. What a plan says besides (its labor, its
    troubles) is left out.
    """
    number, staffed, plan = 0, kitchen, _plan(kitchen, date)
    while number + 1 < len(STARTS) and _in_hand(plan) < IN_HAND:
        number += 1
        staffed = _from(kitchen, STARTS[number])
        plan = _plan(staffed, date)
    return staffed, plan, number


def _plan(kitchen: Kitchen, date: dt.date) -> Plan:
    _, demands, quantities, workload = food_of(kitchen, date)
    plans = islice(constructive_plans(tables_of(workload.problem)), FIRST_RULES)
    _, timetable, score = min(plans, key=lambda found: found[2])
    return Plan(
        kitchen=kitchen.name,
        date=date,
        demands=demands,
        quantities=quantities,
        workload=workload,
        solution=Solution(timetable, score, Status.FEASIBLE, (), (), 0.0, 0.0, 1),
        labor=Labor((), 0, 0, 0, 0),
        troubles=(),
        remedies=(),
    )


def ready_at(workload: Workload, ends: Mapping[int, float]) -> float:
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


def ends_of(plan: Plan) -> dict[int, float]:
    """When each task ends by the plan."""
    return {one.task: float(one.end) for one in plan.solution.timetable.assignments}


def _in_hand(plan: Plan) -> float:
    return due_of(plan.workload) - ready_at(plan.workload, ends_of(plan))


def _from(kitchen: Kitchen, start: str) -> Kitchen:
    """Everybody comes at ``start``."""
    cooks = tuple(
        cook.model_copy(
            update={"shifts": tuple(s.model_copy(update={"start": start}) for s in cook.shifts)}
        )
        for cook in kitchen.cooks
    )
    return kitchen.model_copy(update={"cooks": cooks})
