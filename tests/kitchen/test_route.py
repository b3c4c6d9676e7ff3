"""What a step works on, and the yield that follows from it."""

from typing import Any

from planner.kitchen.base import Fraction
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.kitchen.route import (
    first_cooked,
    food_yield,
    measured_foods,
    stated_fraction,
    worked_foods,
)
from tests.kitchens.tiny import tiny, tiny_kitchen


def with_fine_onion(**fields: Any) -> Catalog:
    """Return the tiny kitchen with a component cut from diced onion."""
    file = tiny_kitchen()
    file["components"].append(
        {
            "id": "fine_onion",
            "name": "Fine onion",
            "inputs": [{"item": "diced_onion"}],
            "route": [{"operation": "dice", "cut": "brunoise"}],
            "shelf_life_days": 1,
            **fields,
        }
    )
    return Catalog(Kitchen.model_validate(file))


def test_a_chain_is_worked_on_under_every_id_down_to_what_is_bought() -> None:
    catalog = with_fine_onion()
    fine = catalog.components["fine_onion"]
    assert worked_foods(catalog, fine) == ("fine_onion", "diced_onion", "onion")
    assert measured_foods(catalog, fine) == ("diced_onion", "onion", "fine_onion")


def test_a_recipe_is_only_itself() -> None:
    catalog = Catalog(tiny())
    assert worked_foods(catalog, catalog.components["stock"]) == ("stock",)
    assert measured_foods(catalog, catalog.components["stock"]) == ("stock",)


def test_a_loop_of_components_ends() -> None:
    file = tiny_kitchen()
    file["components"][0]["inputs"] = [{"item": "diced_onion"}]
    catalog = Catalog(Kitchen.model_validate(file))
    assert worked_foods(catalog, catalog.components["diced_onion"]) == ("diced_onion",)


def test_the_steps_own_yield_comes_before_the_operations() -> None:
    measured = {"fraction": 0.8, "source": "our test"}
    catalog = with_fine_onion(route=[{"operation": "dice", "fraction": measured}])
    fine = catalog.components["fine_onion"]
    assert stated_fraction(catalog, fine, 0) == Fraction(fraction=0.8, source="our test")


def test_the_operations_yield_is_found_down_the_chain() -> None:
    catalog = with_fine_onion()
    found = stated_fraction(catalog, catalog.components["fine_onion"], 0)
    assert found is not None
    assert found.fraction == 0.96


def test_the_most_particular_yield_holds() -> None:
    file = tiny_kitchen()
    file["operations"][1]["yields"].append({"food": "diced_onion", "fraction": 0.7})
    catalog = Catalog(Kitchen.model_validate(file))
    entry = food_yield(catalog, catalog.components["diced_onion"], 1)
    assert entry is not None
    assert (entry.food, entry.fraction) == ("diced_onion", 0.7)


def test_without_any_entry_no_yield_is_stated() -> None:
    catalog = with_fine_onion(route=[{"operation": "simmer"}])
    fine = catalog.components["fine_onion"]
    assert food_yield(catalog, fine, 0) is None
    assert stated_fraction(catalog, fine, 0) is None


def test_food_weighs_as_served_from_the_first_step_with_heat_on() -> None:
    catalog = Catalog(tiny())
    onion = catalog.components["diced_onion"]
    assert first_cooked(catalog, onion) == len(onion.route)
    hot = with_fine_onion(route=[{"operation": "dice"}, {"operation": "simmer"}])
    assert first_cooked(hot, hot.components["fine_onion"]) == 1
