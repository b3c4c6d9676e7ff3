"""A day's money: parts add up to hands and wages, food is the plate's, own stock stands apart."""

from dataclasses import replace

import pytest

from planner.kitchen.document import Kitchen
from planner.money.of_day import day_costs
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from tests.kitchens.bench import DATE
from tests.money.test_costs import kitchen


@pytest.fixture(scope="module")
def priced() -> Kitchen:
    found = kitchen()
    bowl, side = found.dishes
    return found.model_copy(update={"dishes": (bowl.model_copy(update={"price": 4.0}), side)})


@pytest.fixture(scope="module")
def plan(priced: Kitchen) -> Plan:
    return plan_morning(priced, DATE, PlanOptions(seconds=0, workers=1, remedies=False))


def test_dishes_and_components_each_add_up_to_the_plan_s_hands(priced: Kitchen, plan: Plan) -> None:
    costs = day_costs(priced, plan)
    assert costs.minutes == plan.labor.total
    for parts in (costs.dishes, costs.components):
        assert sum(one.minutes for one in parts) == costs.minutes
        assert sum(one.labor for one in parts) == costs.labor
    assert costs.wages == round(sum(one.wages for one in plan.labor.cooks) * 100)
    assert costs.paid == sum(one.paid for one in plan.labor.cooks)


def test_food_is_the_plate_s_and_its_share_is_of_the_price(priced: Kitchen, plan: Plan) -> None:
    bowl, side = day_costs(priced, plan).dishes[:2]
    # Half a gram of dice a gram of soup: 300 g of it hold 150 g of dice at 2.00 / 0.72 a kilo.
    plate = 0.15 * 2.00 / 0.72
    assert bowl.food == round(plate * bowl.portions * 100)
    assert bowl.food_share == pytest.approx(plate / 4.0, rel=0.01)
    assert side.food_share is None


def test_what_no_dish_wants_stands_with_the_kitchen_s_own(priced: Kitchen, plan: Plan) -> None:
    lots = plan.workload.lots
    half = tuple(
        replace(lot, dish_grams=tuple((s, d, g / 2) for s, d, g in lot.dish_grams)) for lot in lots
    )
    other = replace(plan, workload=replace(plan.workload, lots=half))
    costs = day_costs(priced, other)
    own = costs.dishes[-1]
    assert (own.dish, own.date, own.food) == ("", None, 0)
    assert own.minutes == pytest.approx(costs.minutes / 2, abs=1)
    assert sum(one.labor for one in costs.dishes) == costs.labor
