"""Cost of hands: minutes of a plan at the wages of those who work them, down to the dish.

Hands-on minutes with the set-up, changeover and cleaning before them. A batch's minutes are shared
among its lots as planned, a lot's among what it is for. Waiting, breaks and the line are no food's.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from planner.labor.shares import shared_out
from planner.lots.types import Lot
from planner.plan import Plan

_Name = TypeVar("_Name")
_CRUMB = 0.01
"""Grams: less than that is rounding."""
OWN = ""
"""In place of a dish: what the kitchen makes for itself, pars and rounded-up batches."""


@dataclass(frozen=True, slots=True)
class Hands:
    """Minutes and what they cost."""

    minutes: float = 0.0
    cost: float = 0.0

    def __add__(self, other: "Hands") -> "Hands":
        return Hands(self.minutes + other.minutes, self.cost + other.cost)

    def part(self, share: float) -> "Hands":
        """A share of both."""
        return Hands(self.minutes * share, self.cost * share)


@dataclass(frozen=True, slots=True)
class HandsPaid:
    """Whole minutes, and hundredths of the currency: what is shown, so that it adds up."""

    minutes: int
    cents: int


@dataclass(frozen=True, slots=True)
class LaborCosts:
    """A plan's hands by component and by dish: each adds up to ``total``, to the minute and cent.

    ``by_dish`` is by (service, dish), with (``OWN``, ``OWN``) for what no guest ordered.
    """

    total: HandsPaid
    by_component: Mapping[str, HandsPaid]
    by_dish: Mapping[tuple[str, str], HandsPaid]


def labor_costs(plan: Plan) -> LaborCosts:
    """Share a plan's hands out: a lot's by the grams that it gives to each component, and by the
    grams that come out of it for each dish.

    Nothing is rounded before all is added up; the whole minutes and cents are shared out last.
    """
    problem = plan.workload.problem
    by_component: defaultdict[str, Hands] = defaultdict(Hands)
    by_dish: defaultdict[tuple[str, str], Hands] = defaultdict(Hands)
    total = Hands()
    for item in plan.solution.timetable.assignments:
        task = problem.tasks[item.task]
        minutes = task.minutes[item.worker] + item.lead.total
        wage = problem.workers[item.worker].wage_per_hour
        hands = Hands(minutes, minutes / 60 * wage)
        total += hands
        lot = plan.workload.lots[task.lot]
        for component, share in _components(lot):
            by_component[component] += hands.part(share)
        for dish, share in _dishes(lot):
            by_dish[dish] += hands.part(share)
    paid = HandsPaid(round(total.minutes), round(total.cost * 100))
    return LaborCosts(paid, _whole(by_component, paid), _whole(by_dish, paid))


def _whole(parts: Mapping[_Name, Hands], total: HandsPaid) -> Mapping[_Name, HandsPaid]:
    if not parts:
        return {}
    minutes = shared_out(total.minutes, [one.minutes for one in parts.values()])
    cents = shared_out(total.cents, [one.cost for one in parts.values()])
    return {
        name: HandsPaid(*both)
        for name, both in zip(parts, zip(minutes, cents, strict=True), strict=True)
    }


def _components(lot: Lot) -> tuple[tuple[str, float], ...]:
    grams = sum(share.grams for share in lot.shares)
    if grams <= 0:
        return ((lot.component, 1.0),)
    return tuple((share.component, share.grams / grams) for share in lot.shares)


def _dishes(lot: Lot) -> tuple[tuple[tuple[str, str], float], ...]:
    """Shares of a lot's dishes, by the grams that come out for them; what is left is the kitchen's
    own. By portions where no grams come out.
    """
    grams = {(service, dish): part for service, dish, part in lot.dish_grams if part > 0}
    own = lot.grams_out - sum(grams.values())
    weights = grams or {(s, d): float(portions) for s, d, portions in lot.dishes if portions > 0}
    if not weights:
        return (((OWN, OWN), 1.0),)
    if grams and own > _CRUMB:
        weights = {**grams, (OWN, OWN): own}
    total = sum(weights.values())
    return tuple((key, weight / total) for key, weight in weights.items())
