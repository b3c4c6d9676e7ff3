"""Cost of food: from packs, through yields, to components and dishes.

Trim that is of use carries no cost of its own: it stays with the food it was cut from, as long as
nobody sells it. A recipe's cost is that of its inputs over its measured output.

Source: BCcampus, *Basic Kitchen and Food Service Management*, chapters on standard portion costs
and yield testing (CC BY 4.0): EP cost = AP cost / yield; portion cost = cost of what is in it.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component, Dish, Ingredient
from planner.kitchen.route import first_cooked, food_yield
from planner.quantities.compute import kitchenry
from planner.quantities.draws import input_grams
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.order import consumers_first

_AS_EXPECTED = 0.5


@dataclass(frozen=True, slots=True)
class CostLine:
    """One thing that goes into another: grams of it, and money."""

    item: str
    name: str
    grams: float
    cost: float


@dataclass(frozen=True, slots=True)
class FoodCost:
    """Cost of one gram of a food, and of what it is made of.

    Attributes
    ----------
    per_gram
        Money a gram, finished.
    bought
        Money a gram of its ingredient as purchased, where it is made of one alone; else None.
    yield_fraction
        Grams finished / grams of that ingredient as purchased; None as ``bought``.
    lines
        What goes into one gram.
    """

    item: str
    name: str
    per_gram: float
    bought: float | None
    yield_fraction: float | None
    lines: tuple[CostLine, ...] = ()

    @property
    def cost_factor(self) -> float | None:
        """Times that a gram finished costs a gram as purchased; None for what costs nothing."""
        if not self.bought:
            return None
        return self.per_gram / self.bought


def costing(kitchen: Kitchen, date: dt.date) -> Kitchenry:
    """Look-ups for costs: own yields as expected, however cautiously food is pulled.

    What a cautious pull leaves over is food still, and no dish's cost.
    """
    rules = kitchen.rules.model_copy(update={"pull_level": _AS_EXPECTED})
    return kitchenry(kitchen.model_copy(update={"rules": rules}), date)


def food_costs(kit: Kitchenry) -> Mapping[str, FoodCost]:
    """Cost of every ingredient and component of a kitchen, by id."""
    found = {one.id: _ingredient(kit, one) for one in kit.catalog.kitchen.ingredients}
    for name in reversed(consumers_first(kit.catalog)):
        found[name] = _component(kit, kit.catalog.components[name], found)
    return found


def _ingredient(kit: Kitchenry, one: Ingredient) -> FoodCost:
    if one.by_product:
        return FoodCost(one.id, one.name, 0.0, 0.0, 1.0)
    per_gram = one.purchase.cost / kit.converter.piece_grams(one.id, one.purchase.unit)
    return FoodCost(one.id, one.name, per_gram, per_gram, 1.0)


def _component(kit: Kitchenry, component: Component, known: Mapping[str, FoodCost]) -> FoodCost:
    grams = input_grams(kit, component, 1.0)
    lines = tuple(
        CostLine(taken.item, known[taken.item].name, each, each * known[taken.item].per_gram)
        for taken, each in zip(component.inputs, grams, strict=True)
    )
    below = known[component.inputs[0].item]
    alone = component.makes is None and below.yield_fraction is not None
    return FoodCost(
        item=component.id,
        name=component.name,
        per_gram=sum(line.cost for line in lines),
        bought=below.bought if alone else None,
        yield_fraction=below.yield_fraction / grams[0]
        if alone and below.yield_fraction is not None
        else None,
        lines=lines,
    )


def plate_lines(kit: Kitchenry, dish: Dish, costs: Mapping[str, FoodCost]) -> tuple[CostLine, ...]:
    """Food of one portion of a dish, in the order of the file."""
    found = []
    for portion in dish.components:
        grams = kit.converter.grams(portion.item, portion.amount)
        cost = costs[portion.item]
        found.append(CostLine(portion.item, cost.name, grams, grams * cost.per_gram))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Waste:
    """What is thrown away of one ingredient.

    Attributes
    ----------
    grams
        Cut off and of no use; what evaporates or stays in the bowl is not thrown away.
    cost
        The same at the price as purchased.
    kept
        Grams cut off that are of use elsewhere.
    """

    ingredient: str
    name: str
    grams: float
    cost: float
    kept: float


def waste_of(
    kit: Kitchenry, made: Mapping[str, float], costs: Mapping[str, FoodCost]
) -> tuple[Waste, ...]:
    """Waste of making so many grams of each component; dearest first.

    Losses up to the first heat are trim; of recipes, only their inputs' own. Trim of food that was
    trimmed before is at the price as purchased too, so that waste and use add up to what was paid.

    Parameters
    ----------
    made
        Finished grams by component, those that go into others among them.
    """
    grams: dict[str, float] = {}
    kept: dict[str, float] = {}
    for name, finished in made.items():
        component = kit.catalog.components[name]
        if component.makes is not None:
            continue
        ingredient = _ingredient_of(kit, component)
        if ingredient is None:
            continue
        flow = kit.flows.of(component)
        for index in range(first_cooked(kit.catalog, component)):
            lost = max(0.0, flow[index].grams_in - flow[index].grams_out) * finished
            entry = food_yield(kit.catalog, component, index)
            of_use = sum(trim.in_use for trim in entry.trim) if entry is not None else 0.0
            grams[ingredient] = grams.get(ingredient, 0.0) + lost * (1 - of_use)
            kept[ingredient] = kept.get(ingredient, 0.0) + lost * of_use
    found = [
        Waste(name, costs[name].name, each, each * costs[name].per_gram, kept[name])
        for name, each in grams.items()
        if each + kept[name] > 1e-9
    ]
    return tuple(sorted(found, key=lambda one: (-one.cost, one.ingredient)))


def _ingredient_of(kit: Kitchenry, component: Component) -> str | None:
    """What a chain of components begins with; None where a recipe is in between."""
    here = component
    while True:
        if here.makes is not None:
            return None
        item = here.inputs[0].item
        if item in kit.catalog.ingredients:
            return item
        here = kit.catalog.components[item]
