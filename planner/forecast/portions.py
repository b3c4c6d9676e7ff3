"""Portions of a day's dishes and grams of what they share, from a forecast and their costs."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from planner.forecast.history import History
from planner.forecast.models import WEEK
from planner.forecast.newsvendor import Costs, Demand, portions_to_make
from planner.forecast.pooling import Pooled, Taker, correlations, pooled
from planner.forecast.service import ServiceForecast
from planner.kitchen.foods import Dish
from planner.quantities.kitchenry import Kitchenry

_WEEKS = 8
"""Weeks whose misses tell how dishes rise and fall together."""


@dataclass(frozen=True, slots=True)
class DishPortions:
    """Portions to be ready for: by costs where the dish has them, else at the level of the service.

    ``keeps`` are the days that the shortest-lived of what is on it keeps.
    """

    dish: str
    name: str
    expected: float
    sd: float
    portions: int
    ratio: float
    by_costs: bool
    keeps: int


@dataclass(frozen=True, slots=True)
class SharedComponent:
    """A component that several dishes of the service take, with one buffer for all."""

    component: str
    name: str
    dishes: tuple[str, ...]
    grams: Pooled


def dish_portions(
    kit: Kitchenry, forecast: ServiceForecast, level: float
) -> tuple[DishPortions, ...]:
    """Every forecast dish that is on the kitchen's menu; ``level`` is for those without costs."""
    found = []
    for one in forecast.dishes:
        dish = kit.catalog.dishes.get(one.dish)
        if dish is None:
            continue
        demand, costs = Demand(one.portions.mean, one.portions.sd), _costs(kit, dish, level)
        found.append(
            DishPortions(
                dish=one.dish,
                name=dish.name,
                expected=demand.mean,
                sd=demand.sd,
                portions=portions_to_make(demand, costs),
                ratio=costs.ratio,
                by_costs=_has_costs(dish),
                keeps=costs.keeps,
            )
        )
    return tuple(found)


def shared_components(
    kit: Kitchenry, history: History, forecast: ServiceForecast, level: float
) -> tuple[SharedComponent, ...]:
    """Components that two dishes or more of the service take, what pooling saves most first."""
    forecasts = {one.dish: one for one in forecast.dishes if one.dish in kit.catalog.dishes}
    takers: defaultdict[str, dict[str, float]] = defaultdict(lambda: defaultdict(float))
    for name in forecasts:
        for portion in kit.catalog.dishes[name].components:
            if portion.item in kit.catalog.components:
                takers[portion.item][name] += kit.converter.grams(portion.item, portion.amount)
    misses = _misses(history, forecast, tuple(forecasts))
    found = []
    for component, grams_of in takers.items():
        dishes = tuple(grams_of)
        if len(dishes) < 2:
            continue
        together = correlations([misses[dish] for dish in dishes])
        grams = pooled(
            [
                Taker(
                    dish,
                    grams_of[dish],
                    Demand(forecasts[dish].portions.mean, forecasts[dish].portions.sd),
                    _costs(kit, kit.catalog.dishes[dish], level),
                )
                for dish in dishes
            ],
            together,
        )
        found.append(SharedComponent(component, kit.catalog.name(component), dishes, grams))
    return tuple(sorted(found, key=lambda one: (-one.grams.saved, one.component)))


def _has_costs(dish: Dish) -> bool:
    return (
        dish.shortage_cost is not None
        and dish.leftover_cost is not None
        and dish.shortage_cost + dish.leftover_cost > 0
    )


def _costs(kit: Kitchenry, dish: Dish, level: float) -> Costs:
    lives = [
        kit.catalog.components[portion.item].shelf_life_days
        for portion in dish.components
        if portion.item in kit.catalog.components
    ]
    if dish.shortage_cost is not None and dish.leftover_cost is not None and _has_costs(dish):
        return Costs(dish.shortage_cost, dish.leftover_cost, min(lives, default=1))
    return Costs(level, 1 - level)


def _misses(
    history: History, forecast: ServiceForecast, dishes: tuple[str, ...]
) -> Mapping[str, list[float]]:
    """What each dish sold beyond the same day a week before, on the same days for all."""
    of_days = {
        date: counts
        for date, counts in history.sold[forecast.service].items()
        if 0 < (forecast.date - date).days <= (_WEEKS + 1) * WEEK
    }
    found: dict[str, list[float]] = {dish: [] for dish in dishes}
    for date, counts in of_days.items():
        before = next((c for d, c in of_days.items() if (date - d).days == WEEK), None)
        if before is not None:
            for dish in dishes:
                found[dish].append(float(counts.get(dish, 0) - before.get(dish, 0)))
    return found
