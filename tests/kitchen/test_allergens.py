"""Allergens travel through everything that holds them."""

from typing import Any

from planner.kitchen.allergens import allergens_of, eu_fourteen, us_nine
from planner.kitchen.document import Kitchen
from tests.kitchens.tiny import tiny_kitchen


def of(document: dict[str, Any]) -> dict[str, frozenset[str]]:
    return allergens_of(Kitchen.model_validate(document))


def test_a_kitchen_without_allergens_says_so_for_every_item() -> None:
    found = of(tiny_kitchen())
    assert {"onion", "diced_onion", "stock", "onion_soup"} <= set(found)
    assert set().union(*found.values()) == set()


def test_an_allergen_reaches_every_component_and_dish_above_it() -> None:
    document = tiny_kitchen()
    document["ingredients"][0]["allergens"] = ["celery"]
    found = of(document)
    holders = {item for item, allergens in found.items() if allergens == {"celery"}}
    assert holders == {"onion", "diced_onion", "stock", "onion_soup", "chicken_plate"}


def test_a_by_product_that_may_stand_in_counts_though_nothing_else_holds_it() -> None:
    document = tiny_kitchen()
    document["ingredients"][1]["allergens"] = ["mustard"]  # onion ends, only in may_use
    found = of(document)
    assert found["stock"] == found["onion_soup"] == {"mustard"}
    assert found["diced_onion"] == frozenset()


def test_allergens_of_several_inputs_join() -> None:
    document = tiny_kitchen()
    document["ingredients"][3]["allergens"] = ["fish", "sulphites"]
    document["ingredients"][4]["allergens"] = ["milk"]
    assert of(document)["onion_soup"] == {"fish", "sulphites", "milk"}


def test_a_dish_with_the_id_of_a_food_carries_what_either_holds() -> None:
    document = tiny_kitchen()
    document["ingredients"][0]["allergens"] = ["celery"]
    document["ingredients"][2]["allergens"] = ["soybeans"]
    document["dishes"][1]["id"] = "stock"
    document["services"][0]["mix"][1]["dish"] = "stock"
    assert of(document)["stock"] == {"celery", "soybeans"}


def test_components_that_hold_each_other_do_not_hang() -> None:
    document = tiny_kitchen()
    document["ingredients"][4]["allergens"] = ["milk"]
    document["components"][0]["inputs"] = [{"item": "stock"}]
    assert of(document)["diced_onion"] == {"milk"}


def test_wheat_is_declared_under_both_laws_each_in_its_own_words() -> None:
    assert us_nine({"wheat"}) == {"wheat"}
    assert eu_fourteen({"wheat"}) == {"cereals containing gluten"}
