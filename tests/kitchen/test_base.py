"""Amounts as people and programs write them."""

import pytest

from planner.kitchen.base import Amount


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("60 g", 60, "g"),
        ("1.5l", 1.5, "l"),
        ("2 each", 2, "each"),
        ("1e3 g", 1000, "g"),
        ("2.5E-1 kg", 0.25, "kg"),
        ("1e+06 g", 1_000_000, "g"),
        ("3 sixth pan", 3, "sixth pan"),
    ],
)
def test_an_amount_is_a_number_and_a_unit(text: str, number: float, unit: str) -> None:
    assert Amount.parse(text) == Amount(number, unit)


@pytest.mark.parametrize("number", [1e7, 1_234_567.0, 0.1, 123.456, 1e-7, 1 / 3])
def test_an_amount_is_read_again_as_it_was_written(number: float) -> None:
    again = Amount.parse(str(Amount(number, "g")))
    assert again.number == pytest.approx(number, rel=1e-14)
