"""Amounts that cannot become grams."""

from typing import Any

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


def test_an_unknown_unit_is_refused_with_those_known() -> None:
    file = tiny_kitchen()
    file["dishes"][0]["components"][0]["amount"] = "2 ladel"
    error = only(file)
    assert (error.path, error.value) == ("dishes[0].components[0].amount", "2 ladel")
    assert "unknown unit 'ladel'" in error.message
    assert "did you mean 'ladle'?" in error.remedy
    assert "tbsp" in error.remedy


def test_a_volume_without_density_is_refused_with_what_to_enter() -> None:
    file = tiny_kitchen()
    file["dishes"][0]["components"][1]["amount"] = "1 cup"
    error = only(file)
    assert error.path == "dishes[0].components[1].amount"
    assert "no density" in error.message
    assert "density.g_per_ml of 'diced_onion'" in error.remedy


def test_a_piece_without_weight_is_refused_with_what_to_enter() -> None:
    file = tiny_kitchen()
    file["raw_stock"][2]["amount"] = "3 case"
    error = only(file)
    assert error.path == "raw_stock[2].amount"
    assert "what one 'case' weighs" in error.message
    assert "weights of 'bones'" in error.remedy


def test_every_amount_of_the_file_is_looked_at() -> None:
    file = tiny_kitchen()
    file["components"][1].update(makes="8 x", par="1 x", batch_minimum="1 x", batch_multiple="1 x")
    file["components"][1]["inputs"][0]["amount"] = "4 x"
    file["dishes"][0]["components"][0]["amount"] = "4 x"
    for list_name in ("prepared", "raw_stock", "deliveries"):
        file[list_name][0]["amount"] = "4 x"
    file["equipment"][0]["holds"] = "4 x"
    file["operations"][0]["lot_limit"] = "4 x"
    file["operations"][2]["equipment"][0]["holds"] = "4 x"
    errors = reported(file)
    assert all("unknown unit 'x'" in error.message for error in errors)
    assert {error.path for error in errors} == {
        "components[1].makes",
        "components[1].par",
        "components[1].batch_minimum",
        "components[1].batch_multiple",
        "components[1].inputs[0].amount",
        "dishes[0].components[0].amount",
        "prepared[0].amount",
        "raw_stock[0].amount",
        "deliveries[0].amount",
        "equipment[0].holds",
        "operations[0].lot_limit",
        "operations[2].equipment[0].holds",
    }


def test_nothing_is_no_amount_of_a_recipe_dish_or_vessel() -> None:
    file = tiny_kitchen()
    file["components"][1]["inputs"][0]["amount"] = "0 kg"
    file["dishes"][0]["components"][0]["amount"] = "0 l"
    file["equipment"][0]["holds"] = "0 l"
    assert [error.path for error in reported(file)] == [
        "components[1].inputs[0].amount",
        "dishes[0].components[0].amount",
        "equipment[0].holds",
    ]


def test_an_empty_shelf_is_an_amount() -> None:
    file = tiny_kitchen()
    file["raw_stock"][0]["amount"] = "0 each"
    file["prepared"][0]["amount"] = "0 l"
    file["components"][1]["par"] = "0 l"
    assert reported(file) == ()


def without_stock_density(file: dict[str, Any]) -> dict[str, Any]:
    """Return ``file`` with a stock weighed everywhere but in the pot."""
    del file["components"][1]["density"]
    file["components"][1]["makes"] = "8 kg"
    file["dishes"][0]["components"][0]["amount"] = "240 g"
    file["prepared"][0]["amount"] = "2 kg"
    return file


def test_a_lot_must_be_measurable_in_its_vessel() -> None:
    file = without_stock_density(tiny_kitchen())
    error = only(file)
    assert error.path == "components[1].route[0].operation"
    assert "Stock pot holds 12 l" in error.message
    assert "density.g_per_ml of 'stock'" in error.remedy
    file["equipment"][0]["holds"] = "12 kg"
    assert reported(file) == ()


def test_what_an_operation_says_a_vessel_holds_comes_first() -> None:
    file = without_stock_density(tiny_kitchen())
    file["operations"][2]["equipment"][0]["holds"] = "10 kg"
    assert reported(file) == ()


def test_a_vessel_without_measure_bounds_nothing() -> None:
    file = without_stock_density(tiny_kitchen())
    del file["equipment"][0]["holds"]
    assert reported(file) == ()


def test_a_chain_is_measured_by_the_weights_of_what_goes_in() -> None:
    """Thighs are roasted per piece; the raw thigh's weight is enough."""
    file = tiny_kitchen()
    file["components"][2]["weights"] = []
    file["dishes"][1]["components"][0]["amount"] = "135 g"
    assert reported(file) == ()


@pytest.mark.parametrize(
    ("per", "needs"), [("l", "density.g_per_ml of 'onion'"), ("each", "weights of 'onion'")]
)
def test_a_rate_per_litre_or_piece_needs_what_it_counts(per: str, needs: str) -> None:
    file = tiny_kitchen()
    file["operations"][1]["per"] = per
    file["ingredients"][0].update(weights=[], pull_unit=None)
    file["raw_stock"][0]["amount"] = "3 kg"
    error = only(file)
    assert error.path == "components[0].route[1].operation"
    assert f"Dice is timed per '{per}'" in error.message
    assert needs in error.remedy
