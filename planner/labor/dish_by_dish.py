"""The same food made one dish after the other, to measure what batching saves."""

from dataclasses import dataclass, replace

from planner.demand.types import DishDemand
from planner.lots.build import workload_of
from planner.lots.types import Lot
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import Quantities
from planner.schedule.clusters import clusters_of
from planner.schedule.construct import construct
from planner.schedule.problem import Problem
from planner.schedule.rules import Key
from planner.schedule.score import score_of
from planner.schedule.tables import tables_of

_LONG = 2880
"""Minutes past the end of a shift: as many hours as it takes."""
_NO_DISH = 10_000


@dataclass(frozen=True, slots=True)
class DishByDish:
    """Hands-on, set-up and changeover minutes; minutes late; portions not made at all."""

    labor: int
    late: int
    short: int


def dish_by_dish(
    kit: Kitchenry, demands: tuple[DishDemand, ...], quantities: Quantities
) -> DishByDish:
    """Schedule each dish's work to itself: earliest due dish first, by the next free able cook.

    Cooks may work on as long as it takes, without breaks after their shift, so that the comparison
    is of minutes for the same food; what is late by today's clock is counted apart.
    """
    workload = workload_of(kit, demands, quantities, pooled=False)
    tables = tables_of(_open_ended(workload.problem))
    rank = {
        key: place
        for place, key in enumerate(
            (d.service, d.dish) for d in sorted(demands, key=lambda d: (d.due, d.dish))
        )
    }
    clusters = clusters_of(tables)
    keys: list[Key] = [_key(workload.lots, rank, group) for group in clusters]
    timetable = construct(tables, clusters, keys, thrift=0.0)
    tasks = tables.problem.tasks
    labor = sum(
        tasks[item.task].minutes[item.worker] + item.lead.total for item in timetable.assignments
    )
    late = sum(
        max(0, item.end - due)
        for item in timetable.assignments
        if (due := tasks[item.task].due) is not None
    )
    return DishByDish(labor, late, score_of(tables, timetable).short)


def _key(lots: tuple[Lot, ...], rank: dict[tuple[str, str], int], group: list[int]) -> Key:
    dishes = [rank[service, dish] for job in group for service, dish, _ in lots[job].dishes]
    return min(dishes, default=_NO_DISH), "", min(lots[job].due for job in group)


def _open_ended(problem: Problem) -> Problem:
    return replace(
        problem,
        horizon=problem.horizon + _LONG,
        workers=tuple(
            replace(worker, latest_end=worker.latest_end + _LONG) for worker in problem.workers
        ),
        tasks=tuple(replace(task, until=None) for task in problem.tasks),
    )
