"""What the kitchen file alone says of a dish: food, hands-on minutes, and their cost.

Hands at book pace and the mean wage of those who have the skill, without set-ups and changeovers:
these depend on the day's batches and are in the plan's own labor cost.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from planner.kitchen.foods import Component, Dish
from planner.kitchen.work import Operation
from planner.money.food import CostLine, FoodCost, plate_lines
from planner.money.labor import Hands
from planner.quantities.draws import input_grams
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.order import consumers_first


@dataclass(frozen=True, slots=True)
class DishCost:
    """One portion of a dish: food line by line, and hands."""

    dish: str
    name: str
    lines: tuple[CostLine, ...]
    hands: Hands

    @property
    def food(self) -> float:
        """Money for what is on the plate."""
        return sum(line.cost for line in self.lines)

    @property
    def total(self) -> float:
        """Food and hands."""
        return self.food + self.hands.cost


def dish_costs(kit: Kitchenry, costs: Mapping[str, FoodCost]) -> tuple[DishCost, ...]:
    """Plate costs of all dishes, in the order of the file."""
    hands = component_hands(kit)
    return tuple(_dish(kit, dish, costs, hands) for dish in kit.catalog.kitchen.dishes)


def component_hands(kit: Kitchenry) -> Mapping[str, Hands]:
    """Hands-on minutes, and their cost, of one gram of each component, its inputs' among them."""
    found: dict[str, Hands] = {}
    for name in reversed(consumers_first(kit.catalog)):
        component = kit.catalog.components[name]
        own = own_hands(kit, component)
        for taken, grams in zip(component.inputs, input_grams(kit, component, 1.0), strict=True):
            if taken.item in found:
                own += found[taken.item].part(grams)
        found[name] = own
    return found


def own_hands(kit: Kitchenry, component: Component) -> Hands:
    """Hands-on minutes of a component's own route for one gram finished; nothing per lot."""
    total = Hands()
    for index, through in enumerate(kit.flows.of(component)):
        effort = kit.efforts.of(component, index)
        minutes = effort.minutes_per_gram * through.grams_in
        total += Hands(minutes, minutes / 60 * usual_wage(kit, effort.operation))
    return total


def usual_wage(kit: Kitchenry, operation: Operation) -> float:
    """Mean wage of the cooks who have the operation's skill, per hour; trainees left out."""
    able = [
        cook.wage_per_hour
        for cook in kit.catalog.kitchen.cooks
        if cook.learns_from is None and any(skill.skill == operation.skill for skill in cook.skills)
    ]
    return sum(able) / len(able) if able else 0.0


def grams_made(kit: Kitchenry, portions: Mapping[str, float]) -> Mapping[str, float]:
    """Grams of every component and ingredient that so many portions of each dish take."""
    found: defaultdict[str, float] = defaultdict(float)
    for dish, count in portions.items():
        for portion in kit.catalog.dishes[dish].components:
            found[portion.item] += count * kit.converter.grams(portion.item, portion.amount)
    for name in consumers_first(kit.catalog):
        component = kit.catalog.components[name]
        if found[name] <= 0:
            continue
        for taken, grams in zip(
            component.inputs, input_grams(kit, component, found[name]), strict=True
        ):
            found[taken.item] += grams
    return {item: grams for item, grams in found.items() if grams > 0}


def _dish(
    kit: Kitchenry, dish: Dish, costs: Mapping[str, FoodCost], hands: Mapping[str, Hands]
) -> DishCost:
    lines = plate_lines(kit, dish, costs)
    total = Hands()
    for line in lines:
        if line.item in hands:
            total += hands[line.item].part(line.grams)
    return DishCost(dish.id, dish.name, lines, total)
