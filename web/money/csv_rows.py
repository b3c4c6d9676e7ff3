"""Plate costs as rows of a CSV file: a row for each food of each dish, then the dish itself."""

from collections.abc import Iterator

from planner.money.report import KitchenCosts
from planner.money.standard import DishCost
from web.presenters.csv_text import csv_text, plain_text

HEADS = ("dish", "line", "grams", "food_cost", "hands_minutes", "hands_cost", "total_cost")
WHOLE = "all of it"


def costs_csv(costs: KitchenCosts) -> str:
    """Costs of one portion of every dish, unrounded to the tenth of a cent."""
    rows = ((*row, costs.currency) for dish in costs.dishes for row in _rows(dish))
    return csv_text((*HEADS, "currency"), rows)


def _rows(dish: DishCost) -> Iterator[tuple[str, ...]]:
    name = plain_text(dish.name)
    for line in dish.lines:
        yield name, plain_text(line.name), f"{line.grams:.1f}", f"{line.cost:.4f}", "", "", ""
    yield (
        name,
        WHOLE,
        f"{sum(line.grams for line in dish.lines):.1f}",
        f"{dish.food:.4f}",
        f"{dish.hands.minutes:.2f}",
        f"{dish.hands.cost:.4f}",
        f"{dish.total:.4f}",
    )
