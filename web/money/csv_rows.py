"""Plate costs as rows of a CSV file: a row for each food of each dish, then the dish itself."""

import csv
import io

from planner.money.report import KitchenCosts
from web.review.csv_rows import plain_text

HEADS = ("dish", "line", "grams", "food_cost", "hands_minutes", "hands_cost", "total_cost")
WHOLE = "all of it"


def costs_csv(costs: KitchenCosts) -> str:
    """Costs of one portion of every dish, unrounded to the tenth of a cent. RFC 4180."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow((*HEADS, "currency"))
    for dish in costs.dishes:
        name = plain_text(dish.name)
        for line in dish.lines:
            row = (name, plain_text(line.name), f"{line.grams:.1f}", f"{line.cost:.4f}", "", "", "")
            writer.writerow((*row, costs.currency))
        writer.writerow(
            (
                name,
                WHOLE,
                f"{sum(line.grams for line in dish.lines):.1f}",
                f"{dish.food:.4f}",
                f"{dish.hands.minutes:.2f}",
                f"{dish.hands.cost:.4f}",
                f"{dish.total:.4f}",
                costs.currency,
            )
        )
    return out.getvalue()
