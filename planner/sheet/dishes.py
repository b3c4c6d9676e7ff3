"""Dishes by name, with the service they are for, and its day where that is not the planned one."""

from collections.abc import Iterable

from planner.lots.types import Lot
from planner.sheet.view import PlanView
from planner.wording import short_date


def dish_names(view: PlanView, lots: Iterable[Lot]) -> tuple[str, ...]:
    """``Soup (Lunch)``, ``Soup (Dinner, Thu 26 Nov)``: dishes of these lots, each once.

    What is served first comes first.
    """
    wanted = dict.fromkeys((service, dish) for lot in lots for service, dish, _ in lot.dishes)
    ordered = sorted(wanted, key=lambda pair: _opening(view, pair[0]))
    return tuple(dict.fromkeys(dish_name(view, service, dish) for service, dish in ordered))


def _opening(view: PlanView, service: str) -> int:
    """Doors of a service, minutes after midnight of the planned day."""
    return next((one.doors for one in view.plan.demands if one.service == service), 0)


def dish_name(view: PlanView, service: str, dish: str) -> str:
    """A dish with its service; a day is named only where it is another than the planned one."""
    known_dish = view.catalog.dishes.get(dish)
    known_service = view.catalog.services.get(service)
    text = known_dish.name if known_dish else dish
    if known_service is None:
        return text
    if known_service.date == view.plan.date:
        return f"{text} ({known_service.name})"
    return f"{text} ({known_service.name}, {short_date(known_service.date)})"
