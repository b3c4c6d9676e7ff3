"""Dishes by name, with the service they are for, and its day where that is not the planned one."""

from collections import defaultdict
from collections.abc import Iterable

from planner.lots.types import Lot
from planner.sheet.batch_types import DishShare
from planner.sheet.view import PlanView
from planner.wording import short_date

_CRUMB = 0.01
"""Grams: less than that is rounding."""


def dish_names(view: PlanView, lots: Iterable[Lot]) -> tuple[str, ...]:
    """``Soup (Lunch)``, ``Soup (Dinner, Thu 26 Nov)``: dishes of these lots, each once.

    What is served first comes first.
    """
    wanted = dict.fromkeys((service, dish) for lot in lots for service, dish, _ in lot.dishes)
    ordered = sorted(wanted, key=lambda pair: _opening(view, pair[0]))
    return tuple(dict.fromkeys(dish_name(view, service, dish) for service, dish in ordered))


def dish_shares(view: PlanView, lots: Iterable[Lot]) -> tuple[DishShare, ...]:
    """Grams of these lots by dish and service; what is for no dish comes last, with no name.

    A dish whose service stands twice, as on two days, has a share for each.
    """
    grams: dict[tuple[str, str], float] = defaultdict(float)
    own = 0.0
    for lot in lots:
        for service, dish, part in lot.dish_grams:
            grams[service, dish] += part
        own += lot.grams_out - sum(part for _, _, part in lot.dish_grams)
    found = [
        DishShare(_dish(view, dish), dish_name(view, service, dish), part)
        for (service, dish), part in sorted(
            grams.items(), key=lambda one: (_opening(view, one[0][0]), one[0])
        )
    ]
    if own > _CRUMB or not found:
        found.append(DishShare("", "", max(own, 0.0)))
    return tuple(found)


def _dish(view: PlanView, dish: str) -> str:
    known = view.catalog.dishes.get(dish)
    return known.name if known else dish


def _opening(view: PlanView, service: str) -> int:
    """Doors of a service, minutes after midnight of the planned day."""
    return next((one.doors for one in view.plan.demands if one.service == service), 0)


def dish_name(view: PlanView, service: str, dish: str) -> str:
    """A dish with its service; a day is named only where it is another than the planned one."""
    known_service = view.catalog.services.get(service)
    text = _dish(view, dish)
    if known_service is None:
        return text
    if known_service.date == view.plan.date:
        return f"{text} ({known_service.name})"
    return f"{text} ({known_service.name}, {short_date(known_service.date)})"
