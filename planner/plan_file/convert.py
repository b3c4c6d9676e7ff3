"""From a plan to the plan file."""

from planner.demand.types import DishDemand
from planner.kitchen.document import Kitchen
from planner.pins.types import Pin
from planner.plan import Plan, Trouble
from planner.plan_file.base import moment, moment_or_none
from planner.plan_file.convert_quantities import plan_quantities
from planner.plan_file.convert_schedule import plan_schedule
from planner.plan_file.convert_traces import plan_traces
from planner.plan_file.convert_work import plan_lots
from planner.plan_file.document import PlanDocument
from planner.plan_file.quantities import PlanDemand
from planner.plan_file.results import (
    PlanCookMinutes,
    PlanLabor,
    PlanLeftOut,
    PlanProgress,
    PlanRemedy,
    PlanSolver,
    PlanTerm,
    PlanTrouble,
)
from planner.plan_file.work import PlanBatching, PlanPin
from planner.schedule.rests import slots_of
from planner.schedule.timetable import Bound, Progress


def plan_document(kitchen: Kitchen, plan: Plan) -> PlanDocument:
    """The whole plan as a documented, versioned file.

    ``kitchen`` must be the one the plan was made from.
    """
    return PlanDocument(
        format="prepwright-plan",
        version=1,
        kitchen=plan.kitchen,
        date=plan.date,
        time_zone=kitchen.time_zone,
        currency=kitchen.currency,
        demands=tuple(_demand(one) for one in plan.demands),
        quantities=plan_quantities(plan.quantities),
        lots=plan_lots(kitchen, plan),
        batching=tuple(
            PlanBatching(stage=stage, way=way) for stage, way in sorted(plan.workload.batching.ways)
        ),
        schedule=plan_schedule(kitchen, plan),
        rests={
            cook: tuple(moment(start) for start, _ in slots)
            for cook, slots in zip(
                plan.workload.cooks,
                slots_of(plan.workload.problem, plan.solution.timetable),
                strict=True,
            )
            if slots
        },
        objective=tuple(_term(one) for one in plan.solution.bounds),
        solver=_solver(plan),
        labor=_labor(plan),
        short_portions=plan.short_portions,
        short_kilos=plan.short_kilos,
        troubles=plan_troubles(plan.troubles),
        remedies=tuple(
            PlanRemedy(
                text=one.text,
                late_minutes=one.late_minutes,
                short_portions=one.short_portions,
                solves=one.solves,
                short_kilos=one.short_kilos,
                late_minutes_before=one.late_minutes_before,
                short_portions_before=one.short_portions_before,
                short_kilos_before=one.short_kilos_before,
            )
            for one in plan.remedies
        ),
        pins=tuple(_pin(one) for one in plan.pins),
        traces=plan_traces(kitchen, plan),
    )


def plan_troubles(troubles: tuple[Trouble, ...]) -> tuple[PlanTrouble, ...]:
    """What is late or short."""
    return tuple(
        PlanTrouble(
            kind=one.kind,
            item=one.item,
            text=one.text,
            minutes=one.minutes,
            portions=one.portions,
            binding=one.binding,
            lacks=one.lacks,
            unit=one.unit,
            service=one.service,
            dish=one.dish,
            lacks_too=one.lacks_too,
            resource=one.resource,
            left_out=tuple(PlanLeftOut(item=o.item, name=o.name) for o in one.left_out),
        )
        for one in troubles
    )


def _demand(demand: DishDemand) -> PlanDemand:
    return PlanDemand(
        service=demand.service,
        service_name=demand.service_name,
        dish=demand.dish,
        dish_name=demand.dish_name,
        date=demand.date,
        doors=moment(demand.doors),
        due=moment(demand.due),
        until=moment(demand.until),
        expected=demand.expected,
        buffer=demand.buffer,
        total=demand.total,
        weight=demand.weight,
        lateness_weight=demand.lateness_weight,
        reason=demand.reason,
    )


def _pin(pin: Pin) -> PlanPin:
    return PlanPin(
        lot=pin.lot,
        cook=pin.cook,
        begin=moment_or_none(pin.begin),
        exactly=pin.exactly,
        follows=pin.follows,
    )


def _term(bound: Bound) -> PlanTerm:
    return PlanTerm(
        term=bound.term,
        value=bound.value,
        bound=bound.bound,
        gap=bound.gap,
        proven=bound.proven,
        relaxation=bound.relaxation,
    )


def _solver(plan: Plan) -> PlanSolver:
    solution = plan.solution
    return PlanSolver(
        status=solution.status,
        seed=solution.seed,
        seconds=solution.seconds,
        deterministic_time=solution.deterministic_time,
        history=tuple(_progress(one) for one in solution.history),
    )


def _progress(progress: Progress) -> PlanProgress:
    score = progress.score
    return PlanProgress(
        seconds=progress.seconds,
        origin=progress.origin,
        short=score.short,
        tardiness=score.tardiness,
        labor=score.labor,
        freshness=score.freshness,
        finish=score.finish,
        least_labor=progress.least_labor,
    )


def _labor(plan: Plan) -> PlanLabor:
    labor = plan.labor
    return PlanLabor(
        cooks=tuple(
            PlanCookMinutes(
                cook=one.cook,
                name=one.name,
                hands_on=one.hands_on,
                set_up=one.set_up,
                station_set_up=one.station_set_up,
                changeover=one.changeover,
                waiting=one.waiting,
                breaks=one.breaks,
                on_line=one.on_line,
                overtime=one.overtime,
                paid=one.paid,
                wages=one.wages,
                beside=one.beside,
            )
            for one in labor.cooks
        ),
        total=labor.total,
        dish_by_dish=labor.dish_by_dish,
        dish_by_dish_late=labor.dish_by_dish_late,
        dish_by_dish_short=labor.dish_by_dish_short,
        saved=labor.saved,
        comparable=labor.comparable,
        cleans=labor.cleans,
        clean_minutes=labor.clean_minutes,
    )
