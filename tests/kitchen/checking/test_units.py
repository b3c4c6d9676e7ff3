"""Definitions of units, pieces and packs."""

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


@pytest.mark.parametrize("name", ["l", "cup", "fl oz"])
def test_a_unit_of_measure_cannot_be_renamed(name: str) -> None:
    file = tiny_kitchen()
    file["units"].append({"name": name, "equals": "100 ml"})
    file["ingredients"][0]["weights"].append({"unit": name, "weight": "100 g"})
    assert [error.path for error in reported(file)] == [
        "units[1].name",
        "ingredients[0].weights[1].unit",
    ]


@pytest.mark.parametrize("name", ["1/6 pan", "6 pan", " pan", "pan ", "big  pan", "pan (deep)"])
def test_a_unit_must_fit_into_an_amount(name: str) -> None:
    file = tiny_kitchen()
    file["units"].append({"name": name, "equals": "1.6 l"})
    error = only(file)
    assert error.path == "units[1].name"
    assert "begin with a letter" in error.remedy


@pytest.mark.parametrize("name", ["sixth pan", "two-inch hotel pan", "Kelle", "louche à sauce"])
def test_units_of_several_words_and_languages_are_welcome(name: str) -> None:
    file = tiny_kitchen()
    file["units"].append({"name": name, "equals": "1.6 l"})
    file["dishes"][0]["components"][0]["amount"] = f"0.2 {name}"
    assert reported(file) == ()


def test_a_kitchen_unit_equals_a_unit_of_measure_not_another_of_its_own() -> None:
    file = tiny_kitchen()
    file["units"].append({"name": "pail", "equals": "40 ladle"})
    file["dishes"][0]["components"][0]["amount"] = "0.1 pail"
    error = only(file)
    assert error.path == "units[1].equals"
    assert "ml" in error.remedy


def test_a_piece_weighs_a_mass_above_nothing() -> None:
    file = tiny_kitchen()
    file["ingredients"][0]["weights"][0]["weight"] = "160 ml"
    file["ingredients"][2]["weights"][0]["weight"] = "0 g"
    assert [error.path for error in reported(file)] == [
        "ingredients[0].weights[0].weight",
        "ingredients[2].weights[0].weight",
    ]


def test_a_pack_of_pieces_needs_the_weight_of_a_piece() -> None:
    """It is asked for once, where the pack is entered, not at every amount in packs."""
    file = tiny_kitchen()
    file["ingredients"][2].update(weights=[], pull_unit="case")
    file["operations"][3]["per"] = "kg"
    error = only(file)
    assert error.path == "ingredients[2].purchase.holds"
    assert "what one 'each' weighs" in error.message


def test_a_pack_does_not_hold_itself() -> None:
    file = tiny_kitchen()
    file["ingredients"][3]["purchase"]["holds"] = "2 box"
    assert only(file).path == "ingredients[3].purchase.holds"


@pytest.mark.parametrize(
    ("unit", "holds"), [("each", "160 g"), ("each", "1 each"), ("kg", "1 kg"), ("lb", "453.6 g")]
)
def test_food_may_be_bought_by_the_piece_or_by_weight(unit: str, holds: str) -> None:
    file = tiny_kitchen()
    file["ingredients"][0]["purchase"] = {"unit": unit, "holds": holds}
    file["deliveries"] = []
    assert reported(file) == ()


@pytest.mark.parametrize(("unit", "holds"), [("each", "200 g"), ("kg", "10 kg")])
def test_two_weights_for_one_unit_are_refused(unit: str, holds: str) -> None:
    file = tiny_kitchen()
    file["ingredients"][0]["purchase"] = {"unit": unit, "holds": holds}
    file["deliveries"] = []
    error = only(file)
    assert error.path == "ingredients[0].purchase.holds"
    assert "elsewhere" in error.message


def test_what_is_taken_from_the_shelf_has_a_weight() -> None:
    file = tiny_kitchen()
    file["ingredients"][3]["pull_unit"] = "each"
    error = only(file)
    assert error.path == "ingredients[3].pull_unit"
    assert "weights of 'bones'" in error.remedy
