"""The head of the sheet: services, alerts, labor, and what the objective came to."""

from planner.demand.types import DishDemand
from planner.plan import Plan
from planner.sheet.types import Objective, ServiceLine
from planner.sheet.view import PlanView


def services(view: PlanView) -> tuple[ServiceLine, ...]:
    """Services in the order they open, with expected, buffer and total portions apart."""
    by_service: dict[str, list[DishDemand]] = {}
    for demand in sorted(view.plan.demands, key=lambda one: (one.doors, one.service)):
        by_service.setdefault(demand.service, []).append(demand)
    return tuple(_service(view, demands) for demands in by_service.values())


def started_today(plan: Plan) -> tuple[str, ...]:
    """Names of the components that the day's timetable makes or begins, in kitchen order."""
    done = {one.task for one in plan.solution.timetable.assignments}
    begun = {
        share.component
        for lot in plan.workload.lots
        if all(item.task in done for item in lot.tasks)
        for share in lot.shares
    }
    return tuple(need.name for need in plan.quantities.needs if need.component in begun)


def labor_lines(plan: Plan) -> tuple[tuple[str, int, int, int, int, int, float], ...]:
    """(cook, hands-on, set-up, changeover, waiting, paid minutes, wages) by cook."""
    return tuple(
        (
            cook.name,
            cook.hands_on,
            cook.set_up,
            cook.changeover,
            cook.waiting,
            cook.paid,
            cook.wages,
        )
        for cook in plan.labor.cooks
    )


def objective(plan: Plan) -> tuple[Objective, ...]:
    """Terms in their strict order, each with what is proven of it."""
    return tuple(
        Objective(
            bound.term.value,
            bound.value,
            bound.bound,
            bound.proven,
            bound.gap,
            bound.relaxation,
        )
        for bound in plan.solution.bounds
    )


def _service(view: PlanView, demands: list[DishDemand]) -> ServiceLine:
    first = demands[0]
    known = view.catalog.services.get(first.service)
    return ServiceLine(
        service=first.service,
        name=first.service_name,
        date=first.date,
        doors=first.doors,
        due=first.due,
        covers=known.covers if known else 0,
        dishes=tuple(
            (demand.dish_name, demand.expected, demand.buffer, demand.total) for demand in demands
        ),
    )
