"""Amounts to grams: by mass, by density, by piece, by pack, by the kitchen's own units."""

from typing import Any

import pytest

from planner.kitchen.base import Amount
from planner.kitchen.conversion import ConversionError, Converter
from planner.kitchen.document import Kitchen
from tests.kitchens.tiny import tiny, tiny_kitchen


def grams(item: str, text: str, kitchen: dict[str, Any] | None = None) -> float:
    made = tiny() if kitchen is None else Kitchen.model_validate(kitchen)
    return Converter(made).grams(item, Amount.parse(text))


def changed(item: str, **fields: object) -> dict[str, Any]:
    file = tiny_kitchen()
    for food in (*file["ingredients"], *file["components"]):
        if food["id"] == item:
            food.update(fields)
    return file


def test_mass_needs_nothing_else() -> None:
    assert grams("bones", "2.5 kg") == pytest.approx(2500)
    assert grams("bones", "1 lb") == pytest.approx(453.59237)


def test_volume_goes_by_the_foods_own_density() -> None:
    oil = changed("water", density={"g_per_ml": 0.92})
    assert grams("water", "2 l", oil) == pytest.approx(1840)


def test_pieces_go_by_the_foods_own_weight() -> None:
    assert grams("onion", "3 each") == pytest.approx(480)
    assert grams("roast_thigh", "2 each") == pytest.approx(270)


def test_packs_hold_mass_volume_or_pieces() -> None:
    assert grams("onion", "2 bag") == pytest.approx(20_000)
    assert grams("thigh", "1 case") == pytest.approx(60 * 180)
    assert grams("water", "3 tap") == pytest.approx(3000)


def test_kitchen_units_go_by_what_they_equal() -> None:
    assert grams("stock", "2 ladle") == pytest.approx(240)


def test_a_foods_own_piece_comes_before_the_kitchens_unit_of_that_name() -> None:
    file = changed("onion", weights=[{"unit": "ladle", "weight": "70 g"}])
    assert grams("onion", "1 ladle", file) == pytest.approx(70)


def test_piece_grams_takes_pieces_and_packs_but_no_measures() -> None:
    converter = Converter(tiny())
    assert converter.piece_grams("thigh", "each") == pytest.approx(180)
    assert converter.piece_grams("thigh", "case") == pytest.approx(10_800)
    with pytest.raises(ConversionError, match="weight of one 'ladle'"):
        converter.piece_grams("stock", "ladle")


@pytest.mark.parametrize(
    ("item", "text", "names"),
    [
        ("bones", "1 l", ["Chicken bones", "'l'", "density.g_per_ml of 'bones'"]),
        ("bones", "2 ladle", ["Chicken bones", "density.g_per_ml of 'bones'"]),
        ("bones", "2 each", ["Chicken bones", "'each'", "weights of 'bones'"]),
        ("diced_onion", "1 tub", ["Diced onion", "'tub'", "weights of 'diced_onion'"]),
    ],
)
def test_what_is_missing_is_asked_for_never_guessed(item: str, text: str, names: list[str]) -> None:
    with pytest.raises(ConversionError) as raised:
        grams(item, text)
    assert raised.value.item == item
    for name in names:
        assert name in str(raised.value)


def test_a_pack_that_holds_itself_is_refused() -> None:
    file = changed("bones", purchase={"unit": "box", "holds": "2 box"})
    with pytest.raises(ConversionError, match="said to hold '2 box'"):
        grams("bones", "1 box", file)


def test_the_weight_of_a_piece_must_be_a_mass() -> None:
    file = changed("onion", weights=[{"unit": "each", "weight": "160 ml"}])
    with pytest.raises(ConversionError, match="give it as a mass"):
        grams("onion", "1 each", file)


def test_a_kitchen_unit_must_equal_a_unit_of_the_closed_list() -> None:
    file = tiny_kitchen()
    file["units"] = [{"name": "pail", "equals": "3 ladle"}]
    with pytest.raises(ConversionError, match="'pail' is given in 'ladle'"):
        grams("stock", "1 pail", file)
