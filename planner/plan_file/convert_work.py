"""From lots and the timetable to the plan file."""

from collections.abc import Mapping

from planner.kitchen.document import Kitchen
from planner.lots.types import Lot, LotTask
from planner.plan import Plan
from planner.plan_file.base import ComponentGrams, ItemGrams, Portions, moment
from planner.plan_file.work import (
    PlanDone,
    PlanLead,
    PlanLot,
    PlanPause,
    PlanTask,
    PlanUpstream,
    PlanUse,
)
from planner.schedule.timetable import Assignment, Lead
from planner.sheet.runs import Run, batch_of_task, runs
from planner.sheet.view import PlanView


def plan_lots(kitchen: Kitchen, plan: Plan) -> tuple[PlanLot, ...]:
    """All lots with their tasks, done or not; batch numbers are those of the sheet."""
    view = PlanView(kitchen, plan)
    run_of_task = batch_of_task(runs(view))
    return tuple(_lot(view, lot, run_of_task) for lot in view.lots)


def _lot(view: PlanView, lot: Lot, run_of_task: Mapping[int, Run]) -> PlanLot:
    return PlanLot(
        index=lot.index,
        id=lot.id,
        operation=lot.operation,
        operation_name=view.operation(lot).name,
        food=lot.food,
        food_name=view.catalog.name(lot.food),
        component=lot.component,
        step=lot.step,
        cut=lot.cut,
        grams_in=lot.grams_in,
        grams_out=lot.grams_out,
        shares=tuple(
            ComponentGrams(component=share.component, grams=share.grams) for share in lot.shares
        ),
        unattended=lot.unattended,
        release=moment(lot.release),
        due=moment(lot.due),
        until=moment(lot.until),
        finishes=lot.finishes,
        missed=lot.missed,
        made=view.is_done(lot),
        upstream=tuple(PlanUpstream(lot=index, grams=grams) for index, grams in lot.upstream),
        pulls=_items(lot.pulls),
        stock=_items(lot.stock),
        trim=_items(lot.trim),
        dishes=tuple(
            Portions(service=service, dish=dish, portions=portions)
            for service, dish, portions in lot.dishes
        ),
        allergens=tuple(sorted(lot.allergens)),
        tasks=tuple(_task(view, task, run_of_task) for task in lot.tasks),
    )


def _items(items: tuple[tuple[str, float], ...]) -> tuple[ItemGrams, ...]:
    return tuple(ItemGrams(item=item, grams=grams) for item, grams in items)


def _task(view: PlanView, task: LotTask, run_of_task: Mapping[int, Run]) -> PlanTask:
    assignment = view.assignments.get(task.task)
    done = None if assignment is None else _done(view, assignment, run_of_task[task.task])
    return PlanTask(task=task.task, part=task.part, book_minutes=task.book_minutes, done=done)


def _done(view: PlanView, one: Assignment, run: Run) -> PlanDone:
    family = view.problem.families[view.problem.tasks[one.task].family]
    return PlanDone(
        cook=view.plan.workload.cooks[one.worker],
        station=family.station,
        batch=run.number,
        uses=_uses(view, one),
        lead=_lead(one.lead),
        lead_start=moment(one.start - one.lead.total),
        start=moment(one.start),
        end=moment(one.end),
        pauses=tuple(
            PlanPause(start=moment(begin), end=moment(end)) for begin, end in view.spanned(one)
        ),
    )


def _uses(view: PlanView, one: Assignment) -> tuple[PlanUse, ...]:
    units = dict(one.units)
    return tuple(
        PlanUse(
            hold=index,
            resource=view.problem.resources[hold.resource].id,
            units=hold.units,
            unit=units.get(index),
            cleaned=index in one.cleaned,
        )
        for index, hold in view.opened_holds.get(one.task, ())
    )


def _lead(lead: Lead) -> PlanLead:
    return PlanLead(
        set_up=lead.set_up,
        changeover=lead.changeover,
        hand_wash=lead.hand_wash,
        clean=lead.clean,
        total=lead.total,
    )
