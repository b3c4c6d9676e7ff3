"""Cost of hands: minutes of a plan at the wages of those who work them, down to the dish.

Hands-on minutes with the set-up, changeover and cleaning before them. A batch's minutes are shared
among its lots as planned, a lot's among what it is for. Waiting, breaks and the line are no food's.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from planner.lots.types import Lot
from planner.plan import Plan

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
class LaborCosts:
    """A plan's hands by component and by dish: each adds up to ``total``.

    ``by_dish`` is by (service, dish), with (``OWN``, ``OWN``) for what no guest ordered.
    """

    total: Hands
    by_component: Mapping[str, Hands]
    by_dish: Mapping[tuple[str, str], Hands]


def labor_costs(plan: Plan) -> LaborCosts:
    """Share a plan's hands out: a lot's by the grams that it gives to each component, and by the
    portions' grams among the dishes that want it.
    """
    problem = plan.workload.problem
    by_component: defaultdict[str, Hands] = defaultdict(Hands)
    by_dish: defaultdict[tuple[str, str], Hands] = defaultdict(Hands)
    total = Hands()
    wants = _wants(plan)
    for item in plan.solution.timetable.assignments:
        task = problem.tasks[item.task]
        minutes = task.minutes[item.worker] + item.lead.total
        wage = problem.workers[item.worker].wage_per_hour
        hands = Hands(minutes, minutes / 60 * wage)
        total += hands
        lot = plan.workload.lots[task.lot]
        for component, share in _components(lot):
            by_component[component] += hands.part(share)
            for dish, of_dish in _dishes(lot, wants.get(component, {})):
                by_dish[dish] += hands.part(share * of_dish)
    return LaborCosts(total, dict(by_component), dict(by_dish))


def _components(lot: Lot) -> tuple[tuple[str, float], ...]:
    grams = sum(share.grams for share in lot.shares)
    if grams <= 0:
        return ((lot.component, 1.0),)
    return tuple((share.component, share.grams / grams) for share in lot.shares)


def _dishes(
    lot: Lot, wanted: Mapping[tuple[str, str], float]
) -> tuple[tuple[tuple[str, str], float], ...]:
    """Shares of a lot's dishes, by grams of the component that they want; by portions else."""
    dishes = {(service, dish): float(portions) for service, dish, portions in lot.dishes}
    known = {key: wanted[key] for key in dishes if wanted.get(key, 0.0) > 0}
    weights = known or dishes
    total = sum(weights.values())
    if total <= 0:
        return (((OWN, OWN), 1.0),)
    return tuple((key, weight / total) for key, weight in weights.items())


def _wants(plan: Plan) -> Mapping[str, Mapping[tuple[str, str], float]]:
    """Grams of each component by the dish and service that want it, through others or by itself."""
    found: defaultdict[str, defaultdict[tuple[str, str], float]] = defaultdict(
        lambda: defaultdict(float)
    )
    for need in plan.quantities.needs:
        for making in need.makings:
            shares = making.want.shares
            whole = sum(share.grams for share in shares)
            for share in shares:
                part = share.grams / whole if whole > 0 else 1 / len(shares)
                found[need.component][share.service, share.dish] += making.grams * part
    return found
