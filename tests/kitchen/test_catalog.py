"""Lookups by id."""

import pytest

from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from tests.kitchens.tiny import tiny, tiny_kitchen


def test_every_list_is_found_by_id() -> None:
    catalog = Catalog(tiny())
    assert catalog.ingredients["onion"].name == "Onions"
    assert catalog.operations["peel"].name == "Peel"
    assert catalog.components["stock"].name == "Chicken stock"
    assert catalog.dishes["onion_soup"].name == "Onion soup"
    assert catalog.services["dinner"].covers == 40
    assert catalog.stations["stove"].places == 1
    assert catalog.equipment["pot"].count == 1
    assert catalog.cooks["ben"].initials == "BE"


def test_a_food_is_an_ingredient_or_a_component() -> None:
    catalog = Catalog(tiny())
    assert catalog.food("bones") is catalog.ingredients["bones"]
    assert catalog.food("stock") is catalog.components["stock"]
    assert catalog.name("diced_onion") == "Diced onion"
    with pytest.raises(KeyError, match="cheese"):
        catalog.food("cheese")


def test_kitchen_cuts_add_to_and_replace_the_starters() -> None:
    file = tiny_kitchen()
    file["cuts"] = [
        {"id": "medium_dice", "name": "Our dice", "inches": [0.4, 0.4, 0.4]},
        {"id": "wedge", "name": "Wedge"},
    ]
    cuts = Catalog(Kitchen.model_validate(file)).cuts
    assert cuts["medium_dice"].inches == (0.4, 0.4, 0.4)
    assert cuts["wedge"].name == "Wedge"
    assert cuts["brunoise"].inches == (0.125, 0.125, 0.125)
