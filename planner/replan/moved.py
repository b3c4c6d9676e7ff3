"""A plan in which people move batches, or hold them: the rest is solved around, near as it was.

For a day that has not begun. One under way is planned anew with the same pins
(:mod:`planner.replan.replan`).
"""

import time
from collections.abc import Callable, Mapping

from planner.check.timetable import check_timetable
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.lots.types import Lot, Workload
from planner.morning import plan_around
from planner.pins.apply import expected, pinned, work_task
from planner.pins.checking import check_wishes
from planner.pins.types import Pin, PinError
from planner.plan import Plan
from planner.replan.budget import Budget
from planner.replan.match import Match
from planner.replan.repair import repair
from planner.schedule.rests import slots_of
from planner.schedule.search import SearchOptions
from planner.schedule.timetable import Assignment, Score, Timetable
from planner.wording import sentence


def moved(
    kitchen: Kitchen,
    plan: Plan,
    pins: tuple[Pin, ...],
    options: SearchOptions,
    on_first: Callable[[Timetable, Score], None] | None = None,
) -> Plan:
    """``plan`` with its batches held as ``pins`` say and in no other way, and few other changes.

    What was made is made, and no later, where that goes with what is held; what does not is short
    or late in the plan returned, for people to see. ``on_first`` is called with a first plan.

    Raises
    ------
    PinError
        A batch cannot be held so, by itself or beside the others.
    """
    budget = Budget(options, time.monotonic())
    workload, before = plan.workload, plan.solution.timetable
    catalog = Catalog(kitchen)
    check_wishes(catalog, workload, pins)
    by_task = {item.task: item for item in before.assignments}
    known = Match(
        old=expected(workload, pins, by_task),
        left_out=left_out(workload, by_task, pins),
        rests=slots_of(workload.problem, before),
    )
    score, problem = plan.solution.score, pinned(workload, pins)
    if not check_timetable(problem, before) and not unmade(workload, pins, before):
        # All is where it is to be held: not even another board is taken.
        return plan_around(kitchen, plan.date, workload, plan.solution, pins)
    repaired = repair(problem, known, budget, (score.short, score.tardiness), on_first)
    solution = repaired.solution
    refuse_left_out(catalog, workload, pins, solution.timetable)
    return plan_around(kitchen, plan.date, workload, solution, pins)


def left_out(
    workload: Workload, by_task: Mapping[int, Assignment], pins: tuple[Pin, ...]
) -> tuple[int, ...]:
    """Lots that a plan does not make and nobody holds, by index."""
    held = {pin.lot for pin in pins}
    return tuple(
        lot.index
        for lot in workload.lots
        if lot.id not in held and not any(item.task in by_task for item in lot.tasks)
    )


def unmade(workload: Workload, pins: tuple[Pin, ...], timetable: Timetable) -> tuple[Lot, ...]:
    """Lots that are held and that a timetable does not make."""
    done = {item.task for item in timetable.assignments}
    held = {pin.lot for pin in pins}
    return tuple(lot for lot in workload.lots if lot.id in held and work_task(lot) not in done)


def refuse_left_out(
    catalog: Catalog, workload: Workload, pins: tuple[Pin, ...], timetable: Timetable
) -> None:
    """Raise PinError for the first lot that is held and not made."""
    for error in no_room(catalog, workload, pins, timetable):
        raise error


def no_room(
    catalog: Catalog, workload: Workload, pins: tuple[Pin, ...], timetable: Timetable
) -> tuple[PinError, ...]:
    """An error for each lot that is held and not made."""
    return tuple(
        PinError(
            lot.id,
            "batch",
            f"{catalog.operations[lot.operation].name} {catalog.name(lot.food)}",
            sentence(
                "finds no room there: beside all else that is held, its cook, a place, or what "
                "it is made of is not free then"
            ),
            sentence("Give it another time or cook, or hold fewer others"),
        )
        for lot in unmade(workload, pins, timetable)
    )
