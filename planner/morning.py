"""The main job: a kitchen and a date in, one planned and checked morning out."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Protocol

from planner.batches import plan_batches
from planner.check.out_of_cold import check_out_of_cold
from planner.check.pins import check_pins
from planner.check.quantities import check_quantities
from planner.check.spells import check_spells
from planner.check.timetable import check_timetable
from planner.check.violation import Violation
from planner.demand.types import DishDemand
from planner.kitchen.document import Kitchen
from planner.labor.cleans import cleans_of
from planner.labor.dish_by_dish import dish_by_dish
from planner.labor.minutes import cook_minutes
from planner.lots.lacking import Shared, share_out
from planner.lots.types import Workload
from planner.pins.types import Pin
from planner.plan import Labor, Plan
from planner.quantities.compute import kitchenry, quantities_of
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import Quantities
from planner.schedule.search import SearchOptions
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Progress, Solution
from planner.troubles.find import troubles_of
from planner.troubles.plated import plated_wants
from planner.troubles.remedies import remedies_of


@dataclass(frozen=True, slots=True)
class PlanOptions:
    """How long to search.

    Attributes
    ----------
    seconds
        Wall-clock seconds for the schedule; ignored where ``deterministic_limit`` is set.
    deterministic_limit
        CP-SAT deterministic time: the same file, seed and limit give the same plan.
    seed, workers
        For the search; neighbourhoods solved side by side.
    remedy_seconds
        Wall-clock seconds (or deterministic time) for each change that is tried on an over-full
        morning.
    remedies
        Whether to try such changes; off for a first look.
    """

    seconds: float = 10.0
    deterministic_limit: float | None = None
    seed: int = 1
    workers: int = 2
    remedy_seconds: float = 0.4
    remedies: bool = True


class PlanBatches(Protocol):
    """Divides a day's food into lots and plans them."""

    def __call__(
        self,
        kit: Kitchenry,
        demands: tuple[DishDemand, ...],
        quantities: Quantities,
        options: SearchOptions,
        on_progress: Callable[[Progress], None] | None = None,
        food: Shared | None = None,
    ) -> tuple[Workload, Solution]:
        """The lots and their timetable."""


class BrokenPlanError(RuntimeError):
    """The independent checker found a rule broken; such a plan is shown to nobody."""


def plan_morning(
    kitchen: Kitchen,
    date: dt.date,
    options: PlanOptions | None = None,
    on_progress: Callable[[Progress], None] | None = None,
    batches: PlanBatches = plan_batches,
) -> Plan:
    """Plan ``date`` for a kitchen that was read and checked.

    ``batches`` plans the day's lots. ``on_progress`` is called with every improving plan; it may
    raise :class:`planner.schedule.search.StopSearch` to end the search with the best so far.

    Raises
    ------
    BrokenPlanError
        The plan breaks a rule: a defect of this program, never of the kitchen.
    """
    chosen = options or PlanOptions()
    kit = kitchenry(kitchen, date)
    demands, quantities = quantities_of(kit)
    food = _Food(demands, quantities, share_out(kit, demands, quantities))
    search = SearchOptions(chosen.seconds, chosen.deterministic_limit, chosen.seed, chosen.workers)
    workload, solution = batches(kit, demands, quantities, search, on_progress, food.shared)
    return _around(kit, food, workload, solution, chosen)


def plan_around(
    kitchen: Kitchen,
    date: dt.date,
    workload: Workload,
    solution: Solution,
    pins: tuple[Pin, ...] = (),
) -> Plan:
    """The plan around a workload and a solution that were found otherwise.

    Nothing is searched, and no remedy is tried.

    Raises
    ------
    BrokenPlanError
        They break a rule, or are of another kitchen or day.
    """
    _refuse(check_timetable(workload.problem, solution.timetable))
    kit = kitchenry(kitchen, date)
    demands, quantities = quantities_of(kit)
    food = _Food(demands, quantities, share_out(kit, demands, quantities))
    plan = replace(_around(kit, food, workload, solution, PlanOptions(remedies=False)), pins=pins)
    refuse_unkept(plan)
    return plan


def refuse_unkept(plan: Plan) -> None:
    """Raise BrokenPlanError where a plan does not keep its pins."""
    workload = plan.workload
    _refuse(check_pins(plan.pins, workload.lots, workload.cooks, plan.solution.timetable))


@dataclass(frozen=True, slots=True)
class _Food:
    """What is wanted, how much of it there must be, and who gets the raw food."""

    demands: tuple[DishDemand, ...]
    quantities: Quantities
    shared: Shared


def _around(
    kit: Kitchenry, food: _Food, workload: Workload, solution: Solution, chosen: PlanOptions
) -> Plan:
    """Everything that is said of a solution, and the last check of it."""
    demands, quantities = food.demands, food.quantities
    tables = tables_of(workload.problem)
    plated, pulls = plated_wants(kit, demands, quantities, workload, food.shared), quantities.pulls
    troubles = troubles_of(kit, workload, tables, solution.timetable, plated, pulls)
    minutes = cook_minutes(kit, workload.problem, solution.timetable)
    separate = dish_by_dish(kit, demands, quantities)
    cleans, clean_minutes = cleans_of(tables, solution.timetable)
    deterministic = None if chosen.deterministic_limit is None else chosen.remedy_seconds
    small = SearchOptions(chosen.remedy_seconds, deterministic, chosen.seed, chosen.workers)
    plan = Plan(
        kitchen=kit.catalog.kitchen.name,
        date=kit.date,
        demands=demands,
        quantities=quantities,
        workload=workload,
        solution=solution,
        labor=Labor(
            cooks=minutes,
            total=sum(m.hands_on + m.set_up + m.changeover for m in minutes),
            dish_by_dish=separate.labor,
            dish_by_dish_late=separate.late,
            dish_by_dish_short=separate.short,
            comparable=solution.score.short == 0,
            cleans=cleans,
            clean_minutes=clean_minutes,
        ),
        troubles=troubles,
        remedies=(
            remedies_of(kit, workload, solution, troubles, small, plated, pulls)
            if chosen.remedies
            else ()
        ),
    )
    _verify(kit.catalog.kitchen, plan)
    return plan


def _verify(kitchen: Kitchen, plan: Plan) -> None:
    """Let the independent checker go over the timetable, then over quantities and lots."""
    _refuse(
        (
            *check_timetable(plan.workload.problem, plan.solution.timetable),
            *check_quantities(kitchen, plan),
            *check_out_of_cold(kitchen, plan),
            *check_spells(kitchen, plan),
        )
    )


def _refuse(violations: tuple[Violation, ...]) -> None:
    if violations:
        raise BrokenPlanError("; ".join(str(violation) for violation in violations[:5]))
