"""Money adds up: food to the plate, waste to what was paid, minutes to the plan's own."""

import json

import pytest

from planner.kitchen.document import Kitchen
from planner.money.food import food_costs, waste_of
from planner.money.labor import labor_costs
from planner.money.report import kitchen_costs
from planner.money.standard import component_hands, dish_costs, grams_made
from planner.money.worth import minute_worths, portions_of_week, yield_points
from planner.morning import PlanOptions, plan_morning
from planner.quantities.compute import kitchenry
from planner.quantities.kitchenry import Kitchenry
from tests.kitchens.bench import (
    DATE,
    bench,
    cook,
    cut_from,
    dish,
    food,
    read,
    recipe,
    service,
    work,
)


def kitchen() -> Kitchen:
    """Onions at 2.00 a kilo, peeled at 90 % (a third of the loss kept), diced at 80 %; a soup."""
    return read(
        bench(
            ingredients=[
                food("onion"),
                food("water", purchase=pack(0)),
                food("skins", by_product=True),
            ],
            operations=[
                work(
                    "peel",
                    minutes_per=6,
                    set_up_minutes=2,
                    yields=[
                        {
                            "food": "onion",
                            "fraction": 0.9,
                            "trim": [{"item": "skins", "share": 0.25}],
                        }
                    ],
                ),
                work("dice", minutes_per=10, yields=[{"food": "onion", "fraction": 0.8}]),
                work("simmer", minutes_per=3, skill="stove"),
            ],
            components=[
                cut_from("onion", "dice", "peel", "dice"),
                recipe("soup", "2 kg", {"dice": "1 kg", "water": "3 kg"}, "simmer"),
            ],
            dishes=[dish("bowl", {"soup": "300 g"}), dish("side", {"dice": "50 g"})],
            services=[service("dinner", {"bowl": 1.0, "side": 0.5}, covers=20)],
            cooks=[
                cook("ana", wage_per_hour=18, skills=[{"skill": "hands"}]),
                cook("ben", wage_per_hour=24, skills=[{"skill": "hands"}, {"skill": "stove"}]),
            ],
        )
    )


def pack(cost: float) -> dict[str, object]:
    return {"unit": "bag", "holds": "1 kg", "cost": cost}


@pytest.fixture(scope="module")
def kit() -> Kitchenry:
    return kitchenry(kitchen(), DATE)


def test_yields_multiply_and_a_recipe_shares_its_cost_over_what_it_makes(kit: Kitchenry) -> None:
    costs = food_costs(kit)
    assert costs["dice"].per_gram * 1000 == pytest.approx(2.00 / 0.72)
    assert costs["dice"].yield_fraction == pytest.approx(0.72)
    assert costs["dice"].cost_factor == pytest.approx(1 / 0.72)
    assert costs["soup"].per_gram * 1000 == pytest.approx(2.00 / 0.72 / 2)
    assert costs["soup"].cost_factor is None
    assert costs["skins"].per_gram == 0.0


def test_a_cautious_pull_makes_no_plate_dearer() -> None:
    """What is pulled for a poor load and left over by a usual one is food still."""
    file = json.loads(kitchen().model_dump_json())
    own = {"fraction": 0.88, "spread": 0.03, "tests": 9, "decided": "2026-03-01"}
    file["operations"][0]["yields"][0]["own"] = own
    costs = []
    for level in (0.5, 0.95):
        file["rules"]["pull_level"] = level
        costs.append(kitchen_costs(Kitchen.model_validate_json(json.dumps(file)), DATE))
    expected, cautious = costs
    assert cautious == expected
    assert cautious.foods["dice"].yield_fraction == pytest.approx(0.88 * 0.8)


def test_a_plate_costs_its_food_and_its_hands(kit: Kitchenry) -> None:
    bowl, side = dish_costs(kit, food_costs(kit))
    assert bowl.food == pytest.approx(0.3 * 2.00 / 0.72 / 2)
    # Side: 50 g diced from 62.5 g peeled from 69.4 g; hands of 18 and 24 an hour cost 21.
    minutes = 0.0625 * 10 + 0.0625 / 0.9 * 6
    assert side.hands.minutes == pytest.approx(minutes)
    assert side.hands.cost == pytest.approx(minutes / 60 * 21)
    # Bowl: 150 g diced, and 600 g in the pot, by who alone may do it.
    stove = 0.6 * 3
    assert bowl.hands.cost == pytest.approx(3 * minutes / 60 * 21 + stove / 60 * 24)
    assert bowl.total == pytest.approx(bowl.food + bowl.hands.cost)


def test_hands_of_a_component_hold_those_of_what_goes_into_it(kit: Kitchenry) -> None:
    hands = component_hands(kit)
    assert hands["soup"].minutes * 2 == pytest.approx(hands["dice"].minutes + 4 * 0.003)


def test_use_and_waste_add_up_to_what_was_paid(kit: Kitchenry) -> None:
    costs, made = food_costs(kit), {"dice": 720.0}
    (onion,) = waste_of(kit, made, costs)
    assert onion.ingredient == "onion"
    # Of a kilo 100 g are peeled off, a quarter of it kept; 180 g lost in dicing.
    assert onion.grams == pytest.approx(75 + 180)
    assert onion.kept == pytest.approx(25)
    used = 720 + onion.kept
    assert used * 0.002 + onion.cost == pytest.approx(2.00)


def test_a_week_s_portions_become_grams_at_every_depth(kit: Kitchenry) -> None:
    portions = portions_of_week(kit, DATE)
    assert portions == {"bowl": 20, "side": 10}
    grams = grams_made(kit, portions)
    assert grams["soup"] == pytest.approx(6000)
    assert grams["dice"] == pytest.approx(3000 + 500)
    assert grams["onion"] == pytest.approx(3500 / 0.72)
    assert portions_of_week(kit, DATE.replace(day=20)) == {}


def test_a_yield_point_is_worth_what_the_week_then_costs_less(kit: Kitchenry) -> None:
    portions, costs = portions_of_week(kit, DATE), food_costs(kit)
    points = {one.step: one for one in yield_points(kit, portions, costs)}
    paid = 3500 / 0.72 * 0.002
    for step, fraction in ((0, 0.9), (1, 0.8)):
        better = 3500 / (0.72 * (fraction + 0.01) / fraction) * 0.002
        assert points[step].saved == pytest.approx(paid - better)
    assert points[1].saved > points[0].saved


def test_a_minute_a_kilo_is_worth_its_kilos_at_their_wage(kit: Kitchenry) -> None:
    portions = portions_of_week(kit, DATE)
    worths = {one.operation: one for one in minute_worths(kit, portions)}
    assert worths["Dice"].units == pytest.approx(3.5 / 0.8)
    assert worths["Dice"].saved == pytest.approx(3.5 / 0.8 / 60 * 21)
    assert worths["Simmer"].saved == pytest.approx(12 / 60 * 24)


def test_a_plan_s_minutes_are_all_some_component_s_and_some_dish_s() -> None:
    plan = plan_morning(
        kitchen(), DATE, PlanOptions(deterministic_limit=0.2, workers=1, remedies=False)
    )
    costs = labor_costs(plan)
    assert costs.total.minutes == plan.labor.total
    for shares in (costs.by_component, costs.by_dish):
        assert sum(one.minutes for one in shares.values()) == plan.labor.total
        assert sum(one.cents for one in shares.values()) == costs.total.cents
    bowl, side = (costs.by_dish["dinner", name] for name in ("bowl", "side"))
    assert bowl.minutes > 5 * side.minutes
    wages = {"ana": 18 / 60, "ben": 24 / 60}
    by_cook = {one.cook: one.hands_on + one.set_up + one.changeover for one in plan.labor.cooks}
    assert costs.total.cents == round(100 * sum(wages[cook] * m for cook, m in by_cook.items()))
