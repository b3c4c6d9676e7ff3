"""A morning under way, planned anew: what is done stays, the rest is repaired with few changes."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace

from planner.check.quantities import check_quantities
from planner.check.timetable import check_timetable
from planner.check.violation import Violation
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.lots.build import workload_of
from planner.lots.types import Workload
from planner.morning import BrokenPlanError
from planner.plan import Plan, Trouble
from planner.quantities.compute import kitchenry, quantities_of
from planner.replan.begun import Standing, standing
from planner.replan.changes import Change, changes_of
from planner.replan.events import CoversChanged, DeliveryLate, Event, Overran, Spoiled
from planner.replan.kept import kept
from planner.replan.kitchen import UnknownEventError, counted_now
from planner.replan.links import links_by_lot, links_by_stock
from planner.replan.match import match
from planner.replan.repair import repair
from planner.replan.residual import Before, Residual, residual
from planner.replan.stock import Left, left_by
from planner.replan.told import notes_of, stranded
from planner.schedule.search import SearchOptions
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Score, Solution, Timetable
from planner.troubles.find import troubles_of
from planner.troubles.plated import plated_wants


@dataclass(frozen=True, slots=True)
class Replan:
    """The rest of a day from ``now`` on.

    ``workload`` holds the lots that have not begun, then those under way with what is left of
    them; ``done`` is how many lots of the old plan were begun. ``rung`` says how free the plan is
    (see :mod:`planner.replan.repair`), ``changes`` what is different for whom, ``notes`` what
    people must be told beside (food to discard, food to move).
    """

    date: dt.date
    now: int
    kitchen: Kitchen
    day: Standing
    workload: Workload
    solution: Solution
    rung: int
    troubles: tuple[Trouble, ...]
    changes: tuple[Change, ...]
    notes: tuple[str, ...]


def replan(
    kitchen: Kitchen,
    plan: Plan,
    now: int,
    events: tuple[Event, ...] = (),
    options: SearchOptions | None = None,
    on_first: Callable[[Timetable, Score], None] | None = None,
) -> Replan:
    """Plan what is left of ``plan`` at ``now`` (minutes), after ``events``.

    The plan is taken to have been kept until now but for what the events say. There is always an
    answer; what cannot be made any more is short, and said. ``on_first`` gets the first repaired
    plan before any search.

    Raises
    ------
    UnknownEventError
        An event names what the kitchen or the plan does not have.
    BrokenPlanError
        The plan breaks a rule: a defect of this program, never of the kitchen.
    """
    _check_lots(plan, events)
    chosen = options or SearchOptions(seconds=2.5)
    before = Before(plan.workload, plan.solution.timetable)
    day = standing(plan.workload, plan.solution.timetable, now, events)
    left = left_by(Catalog(kitchen), plan.workload, day)
    changed = counted_now(kitchen, plan.date, now, left, events)
    kit = kitchenry(changed, plan.date)
    if _food_changes(day, left, events):
        demands, quantities = quantities_of(kit)
        new = workload_of(kit, demands, quantities)
        links = links_by_stock(kit.catalog, new, left.sources)
        _check_food(changed, replace(plan, demands=demands, quantities=quantities, workload=new))
    else:
        demands, quantities = plan.demands, plan.quantities
        new, new_index = kept(plan.workload, day)
        begun = {one.lot.index: one for one in day.begun}
        links = links_by_lot(kit.catalog, plan.workload, new_index, begun)
    rest = residual(before, new, day, links, events)
    known = match(before, rest, day)
    repaired = repair(rest.workload.problem, known, chosen, on_first)
    solution = repaired.solution
    _refuse(check_timetable(rest.workload.problem, solution.timetable))
    plain = _without_marks(rest)
    tables = tables_of(plain.problem)
    plated = plated_wants(kit, demands, quantities, plain)
    pulls = quantities.pulls
    return Replan(
        date=plan.date,
        now=now,
        kitchen=changed,
        day=day,
        workload=rest.workload,
        solution=solution,
        rung=repaired.rung,
        troubles=troubles_of(kit, plain, tables, solution.timetable, plated, pulls),
        changes=changes_of(kit.catalog, rest, known, solution.timetable),
        notes=notes_of(kit.catalog, day, left, stranded(rest, solution.timetable)),
    )


def _without_marks(rest: Residual) -> Workload:
    """The rest of the day, with promises for dishes and pars alone."""
    jobs = tuple(
        job if index < rest.new_lots else replace(job, serves=())
        for index, job in enumerate(rest.workload.problem.jobs)
    )
    return replace(rest.workload, problem=replace(rest.workload.problem, jobs=jobs))


def _check_lots(plan: Plan, events: tuple[Event, ...]) -> None:
    known = {lot.id for lot in plan.workload.lots}
    for event in events:
        if isinstance(event, Overran | Spoiled) and event.lot not in known:
            raise UnknownEventError(f"batch '{event.lot}' is not in the plan of {plan.date}")


def _food_changes(day: Standing, left: Left, events: tuple[Event, ...]) -> bool:
    """Whether other food is wanted, or other food is there, than the old plan's lots are for."""
    return (
        any(isinstance(event, CoversChanged | DeliveryLate | Spoiled) for event in events)
        or bool(left.discarded)
        or any(one.share < 1 for one in day.begun)
    )


def _check_food(kitchen: Kitchen, plan: Plan) -> None:
    """Let the independent checker go over lots that were worked out anew."""
    _refuse(check_quantities(kitchen, plan))


def _refuse(violations: tuple[Violation, ...]) -> None:
    if violations:
        raise BrokenPlanError("; ".join(str(violation) for violation in violations[:5]))
