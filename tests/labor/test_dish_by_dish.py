"""What batching saves is measured against the same food made dish by dish."""

from dataclasses import replace
from typing import Any

import pytest

from planner.labor.dish_by_dish import DishByDish, dish_by_dish
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.quantities.compute import quantities_of
from tests.kitchens.bench import (
    DATE,
    File,
    bench,
    cook,
    cut_from,
    dish,
    food,
    kit_of,
    raw,
    read,
    service,
    work,
)

QUICK = PlanOptions(deterministic_limit=0.1, workers=1, remedies=False)


def kitchen(dishes: int, *, set_up: int = 6, **parts: Any) -> File:
    """Onions peeled, then cut in a way of each dish's own: 100 g a portion, ten portions."""
    peel = work("peel", set_up_minutes=set_up)
    cuts = [work(f"cut{n}") for n in range(dishes)]
    return bench(
        ingredients=[food("onion")],
        operations=[peel, *cuts],
        components=[cut_from("onion", f"onion{n}", "peel", f"cut{n}") for n in range(dishes)],
        dishes=[dish(f"dish{n}", {f"onion{n}": "100 g"}) for n in range(dishes)],
        **parts,
    )


def separate(file: File) -> DishByDish:
    kit = kit_of(file)
    demands, quantities = quantities_of(kit)
    return dish_by_dish(kit, demands, quantities)


def planned(file: File) -> Plan:
    return plan_morning(read(file), DATE, QUICK)


def test_each_dish_sets_up_for_itself() -> None:
    """Three kilos take 30 min to peel and 30 to cut; dish by dish the peeler is set up thrice."""
    assert separate(kitchen(3)).labor == 60 + 3 * 6
    assert planned(kitchen(3)).labor.total == 60 + 6


def test_what_batching_saves_is_the_set_up_of_all_but_one() -> None:
    labor = planned(kitchen(3)).labor
    assert (labor.saved, labor.comparable) == (12, True)


def test_one_dish_saves_nothing() -> None:
    assert planned(kitchen(1)).labor.saved == 0


def test_batching_that_costs_more_is_shown_as_a_loss() -> None:
    labor = replace(planned(kitchen(1)).labor, dish_by_dish=20)
    assert labor.saved == 20 - labor.total < 0


def test_cooks_work_on_as_long_as_it_takes_so_that_the_food_is_the_same() -> None:
    """120 minutes of work in a shift of 90: late, but nothing is left out."""
    dinner = service("dinner", {f"dish{n}": 1.0 for n in range(6)}, opens="10:00", closes="12:00")
    found = separate(kitchen(6, services=[dinner], cooks=[cook("ana", "08:00", "09:30")]))
    assert found.labor == 120 + 6 * 6
    assert found.short == 0
    assert found.late > 0


def test_food_nobody_has_is_short_dish_by_dish_too() -> None:
    found = separate(kitchen(2, raw_stock=[raw("onion", "1 kg")]))
    assert found.short == 10


def test_a_plan_that_leaves_food_short_is_not_comparable() -> None:
    plan = planned(kitchen(2, raw_stock=[raw("onion", "1 kg")]))
    assert plan.solution.score.short == 10
    assert not plan.labor.comparable


@pytest.mark.parametrize("dishes", [2, 4])
def test_without_set_up_and_changeovers_there_is_nothing_to_save(dishes: int) -> None:
    assert planned(kitchen(dishes, set_up=0)).labor.saved == 0
