"""``costs``: what a kitchen file's dishes cost, and where a better figure pays."""

import datetime as dt
from pathlib import Path

from rich.table import Table

from planner.money.report import KitchenCosts, kitchen_costs
from service.commands.exits import Exit
from service.commands.inputs import day_of, usable_kitchen
from service.commands.output import results, say
from web.money.csv_rows import costs_csv
from web.money.view import costs_view
from web.presenters.preferences import Preferences


def costs(path: Path, date: dt.datetime | None, csv_out: Path | None) -> Exit:
    """Print what dishes cost and what the week wastes; or write the dishes as CSV."""
    _, kitchen = usable_kitchen(path)
    found = kitchen_costs(kitchen, day_of(kitchen, date))
    if csv_out is not None:
        if str(csv_out) == "-":
            say(costs_csv(found).rstrip())
        else:
            csv_out.write_text(costs_csv(found), encoding="utf-8", newline="")
        return Exit.ON_TIME
    _print(found)
    return Exit.ON_TIME


def _print(found: KitchenCosts) -> None:
    view = costs_view(found, Preferences())
    say(f"{found.kitchen}: one portion, in {found.currency}")
    table = Table("Dish", box=None, pad_edge=False)
    for head in ("Food", "Minutes", "Hands", "Together"):
        table.add_column(head, justify="right")
    for dish in view.dishes:
        table.add_row(dish.name, dish.food, dish.minutes, dish.hands, dish.total)
    results().print(table)
    for of_week in view.tables:
        say("")
        say(f"{of_week.caption}, week from {found.week}")
        rows = Table(box=None, pad_edge=False)
        for index, head in enumerate(of_week.heads):
            rows.add_column(head, justify="right" if index in of_week.numbers else "left")
        for row in of_week.rows:
            rows.add_row(*row)
        results().print(rows)
