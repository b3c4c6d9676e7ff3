"""Costs in words: dearest first, in the reader's units, with what the week holds."""

import csv
import io
from dataclasses import replace

import pytest

from planner.money.report import KitchenCosts, kitchen_costs
from tests.kitchens.bench import DATE
from tests.money.test_costs import kitchen
from web.money.csv_rows import HEADS, WHOLE, costs_csv
from web.money.view import costs_view, money
from web.presenters.preferences import Preferences


@pytest.fixture(scope="module")
def costs() -> KitchenCosts:
    return kitchen_costs(kitchen(), DATE)


def test_dishes_come_dearest_first_with_their_portions(costs: KitchenCosts) -> None:
    view = costs_view(costs, Preferences())
    assert [(one.name, one.food, one.portions) for one in view.dishes] == [
        ("Bowl", "0.42", "20"),
        ("Side", "0.14", "10"),
    ]
    assert [line.mass for line in view.dishes[0].lines] == ["300 g"]


def test_the_week_is_summed_up_and_ranked(costs: KitchenCosts) -> None:
    view = costs_view(costs, Preferences())
    assert dict(view.facts)["Food of the week"] == money(20 * 0.3 / 0.72 + 10 * 0.1 / 0.72)
    waste, points, minutes = view.tables
    assert waste.rows[0][0] == "Onion"
    assert [row[1] for row in points.rows] == ["Dice", "Peel"]
    assert "10 per kg" in {row[2] for row in minutes.rows}


def test_a_week_without_services_says_so() -> None:
    view = costs_view(kitchen_costs(kitchen(), DATE.replace(month=1)), Preferences())
    assert view.facts[0][1] == "no services"
    assert view.tables == ()
    assert all(one.portions == "" for one in view.dishes)


def test_masses_are_in_the_reader_s_units(costs: KitchenCosts) -> None:
    view = costs_view(costs, Preferences(units="us"))
    assert "oz" in view.dishes[0].lines[0].mass


def test_the_file_has_every_food_and_no_formula(costs: KitchenCosts) -> None:
    bad = replace(costs.dishes[0], name="=HYPERLINK()")
    rows = list(csv.DictReader(io.StringIO(costs_csv(replace(costs, dishes=(bad,))))))
    assert set(rows[0]) == {*HEADS, "currency"}
    assert rows[-1]["line"] == WHOLE
    assert rows[-1]["dish"] == "'=HYPERLINK()"
    food = sum(float(row["food_cost"]) for row in rows[:-1])
    assert food == pytest.approx(float(rows[-1]["food_cost"]), abs=1e-3)
