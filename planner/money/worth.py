"""What a point of yield, or a minute, is worth in a week: where to look first.

A yield point: were a step's yield one hundredth higher, so much less would be bought for the same
plates. A minute: were a step's rate one minute a kilo (or a litre, a piece) quicker, so much less
would be worked. Both for the week's expected portions, nothing on hand.
"""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from planner.kitchen.foods import Component
from planner.money.food import FoodCost
from planner.money.standard import grams_made, usual_wage
from planner.quantities.draws import input_grams
from planner.quantities.kitchenry import Kitchenry
from planner.rates.figures import step_figures

WEEK = 7
_POINT = 0.01


@dataclass(frozen=True, slots=True)
class YieldPoint:
    """A step's yield and what one point more of it saves in a week.

    ``grams`` go into the step in the week, of food that costs ``cost``.
    """

    component: str
    step: int
    name: str
    operation: str
    fraction: float
    grams: float
    cost: float
    saved: float


@dataclass(frozen=True, slots=True)
class MinuteWorth:
    """An operation on a food, its minutes in the week, and what one minute a unit less saves.

    ``units`` are the operation's own: kilos, litres, pieces.
    """

    operation: str
    food: str
    per: str
    rate: float
    units: float
    minutes: float
    saved: float


def portions_of_week(kit: Kitchenry, monday: dt.date) -> Mapping[str, float]:
    """Expected portions by dish over the seven days from ``monday``, guaranteed ones among them."""
    found: defaultdict[str, float] = defaultdict(float)
    for service in kit.catalog.kitchen.services:
        if 0 <= (service.date - monday).days < WEEK:
            for line in service.mix:
                found[line.dish] += service.covers * line.per_cover
    return dict(found)


def yield_points(
    kit: Kitchenry, portions: Mapping[str, float], costs: Mapping[str, FoodCost]
) -> tuple[YieldPoint, ...]:
    """Every step of the week that loses food, what saves most first; recipes' own are left out."""
    made = grams_made(kit, portions)
    found = []
    for name, grams in made.items():
        component = kit.catalog.components.get(name)
        if component is None or component.makes is not None:
            continue
        paid = _paid(kit, component, grams, costs)
        for index, through in enumerate(kit.flows.of(component)):
            fraction = through.fraction
            if fraction >= 1:
                continue
            # What is bought goes by 1 / yield: so much of it falls away with a point more.
            saved = paid * (1 - fraction / (fraction + _POINT))
            found.append(
                YieldPoint(
                    component=name,
                    step=index,
                    name=component.name,
                    operation=kit.catalog.operations[component.route[index].operation].name,
                    fraction=fraction,
                    grams=grams * through.grams_in,
                    cost=paid,
                    saved=saved,
                )
            )
    return tuple(sorted(found, key=lambda one: (-one.saved, one.component, one.step)))


def minute_worths(kit: Kitchenry, portions: Mapping[str, float]) -> tuple[MinuteWorth, ...]:
    """Every operation on every food of the week, what a minute a unit less saves most first."""
    units: defaultdict[tuple[str, str], float] = defaultdict(float)
    rates: dict[tuple[str, str], float] = {}
    for name, grams in grams_made(kit, portions).items():
        component = kit.catalog.components.get(name)
        if component is None:
            continue
        for index, through in enumerate(kit.flows.of(component)):
            figures = step_figures(kit, component, index)
            if figures.rate is None or figures.units_per_gram == 0:
                continue
            key = (figures.operation.id, figures.rate.key.food)
            units[key] += grams * through.grams_in * figures.units_per_gram
            rates[key] = figures.rate.value
    found = []
    for (operation, food), count in units.items():
        of_it = kit.catalog.operations[operation]
        found.append(
            MinuteWorth(
                operation=of_it.name,
                food=kit.catalog.name(food),
                per=of_it.per.value,
                rate=rates[operation, food],
                units=count,
                minutes=count * rates[operation, food],
                # Nobody gets quicker than no time at all.
                saved=count * min(1.0, rates[operation, food]) / 60 * usual_wage(kit, of_it),
            )
        )
    return tuple(sorted(found, key=lambda one: (-one.saved, one.operation, one.food)))


def _paid(
    kit: Kitchenry, component: Component, grams: float, costs: Mapping[str, FoodCost]
) -> float:
    """Money for the food that goes into ``grams`` of a component."""
    return sum(
        each * costs[taken.item].per_gram
        for taken, each in zip(component.inputs, input_grams(kit, component, grams), strict=True)
    )
