"""All that a kitchen file says of money, for one week: dishes, waste, and where to look first."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from planner.kitchen.document import Kitchen
from planner.money.food import FoodCost, Waste, costing, food_costs, waste_of
from planner.money.standard import DishCost, dish_costs, grams_made
from planner.money.worth import (
    MinuteWorth,
    YieldPoint,
    minute_worths,
    portions_of_week,
    yield_points,
)


@dataclass(frozen=True, slots=True)
class KitchenCosts:
    """Costs by the kitchen file, and the week from ``week`` by its expected portions.

    ``portions`` are those of the week by dish; without services in it, waste and worth are empty.
    """

    kitchen: str
    currency: str
    week: dt.date
    foods: Mapping[str, FoodCost]
    dishes: tuple[DishCost, ...]
    portions: Mapping[str, float]
    waste: tuple[Waste, ...]
    points: tuple[YieldPoint, ...]
    minutes: tuple[MinuteWorth, ...]

    @property
    def food_of_week(self) -> float:
        """Money for the food of the week's expected portions."""
        return sum(self.portions.get(one.dish, 0.0) * one.food for one in self.dishes)

    @property
    def hands_of_week(self) -> float:
        """Money for the hands-on minutes of the week's expected portions."""
        return sum(self.portions.get(one.dish, 0.0) * one.hands.cost for one in self.dishes)


def kitchen_costs(kitchen: Kitchen, day: dt.date) -> KitchenCosts:
    """Costs of a kitchen; the week is that of ``day``, from its Monday."""
    monday = day - dt.timedelta(day.weekday())
    # Costs do not depend on the day.
    kit = costing(kitchen, kitchen.as_of)
    foods = food_costs(kit)
    portions = portions_of_week(kit, monday)
    made = grams_made(kit, portions)
    components = {item: grams for item, grams in made.items() if item in kit.catalog.components}
    return KitchenCosts(
        kitchen=kitchen.name,
        currency=kitchen.currency,
        week=monday,
        foods=foods,
        dishes=dish_costs(kit, foods),
        portions=portions,
        waste=waste_of(kit, components, foods),
        points=yield_points(kit, portions, foods),
        minutes=minute_worths(kit, portions),
    )
