"""What the sous chef must know before the morning starts, in whole sentences."""

from collections.abc import Iterator

from planner.demand.types import DishDemand
from planner.lots.types import Lot
from planner.quantities.types import Alert
from planner.sheet.dishes import dish_name, dish_names
from planner.sheet.learners import learner_alerts
from planner.sheet.view import PlanView
from planner.wording import sentence


def alerts(view: PlanView) -> tuple[str, ...]:
    """Every alert, with the components it holds up and the dishes they are for."""
    told = (_alert(view, alert) for alert in view.plan.quantities.alerts)
    return (*told, *learner_alerts(view))


def _alert(view: PlanView, alert: Alert) -> str:
    if not alert.holds_up:
        return alert.text
    direct = _direct(view, alert)
    # Wants of dishes are told as dishes, with their day; what is left are components.
    wants = {f"{one.dish_name}, {one.service_name}" for one in view.plan.demands} | {
        one.dish_name for one in direct
    }
    known = {component.name for component in view.catalog.components.values()}
    components = [name for name in alert.holds_up if name in known or name not in wants]
    named = [(one.service, one.dish) for one in direct] + list(alert.dishes)
    served = (dish_name(view, service, dish) for service, dish in named)
    dishes = tuple(dict.fromkeys((*dish_names(view, _held_up(view, alert)), *served)))
    held = [
        sentence("Holds up: {list}.", list="; ".join(components)) if components else "",
        sentence("For: {list}.", list="; ".join(dishes)) if dishes else "",
    ]
    return " ".join(filter(None, [alert.text, *held]))


def _direct(view: PlanView, alert: Alert) -> list[DishDemand]:
    """Today's dishes that take it as it is, with nothing prepared in between."""
    return [
        one
        for one in view.plan.demands
        if one.date == view.plan.date
        and one.dish in view.catalog.dishes
        and alert.item in {part.item for part in view.catalog.dishes[one.dish].components}
        and alert.item in view.catalog.ingredients
    ]


def _held_up(view: PlanView, alert: Alert) -> Iterator[Lot]:
    """Lots that wait for raw food that the alert is about, or are not made for want of it."""
    for lot in view.lots:
        if any(item == alert.item for item, _grams in lot.pulls):
            late = lot.release > view.problem.start
            if view.problem.jobs[lot.index].impossible or late:
                yield lot
