"""Weights, pieces and temperatures as people read them."""

import pytest

from web.presenters.preferences import Preferences
from web.presenters.quantities import is_weighed, mass, measured, number, pieces, temperature

METRIC = Preferences()
US = Preferences(units="us")


@pytest.mark.parametrize(
    ("grams", "text"),
    [
        (0, "0 g"),
        (0.01, "under 0.1 g"),
        (4.52, "4.5 g"),
        (9.96, "10 g"),
        (850, "850 g"),
        (999.4, "999 g"),
        (999.6, "1 kg"),
        (1200, "1.2 kg"),
        (1250, "1.25 kg"),
        (9996, "10 kg"),
        (12_540, "12.5 kg"),
        (99_960, "100 kg"),
        (120_400, "120 kg"),
    ],
)
def test_metric_weights_change_unit_and_precision_without_a_jump(grams: float, text: str) -> None:
    assert mass(grams, METRIC) == text


@pytest.mark.parametrize(
    ("grams", "text"),
    [
        (0, "0 oz"),
        (1, "under 0.1 oz"),
        (28.349523125, "1 oz"),
        (100, "3.5 oz"),
        (200, "7 oz"),
        (453.0, "1 lb"),
        (453.59237, "1 lb"),
        (1190.68, "2 lb 10 oz"),
        (453.59237 * 3 - 1, "3 lb"),
        (453.59237 * 60, "60 lb"),
    ],
)
def test_us_weights_go_from_ounces_to_pounds(grams: float, text: str) -> None:
    """Ounces and pounds in grams: NIST Handbook 44, Appendix C (1 lb = 453.592 37 g)."""
    assert mass(grams, US) == text


def test_pieces_are_whole_and_say_so_where_they_were_rounded() -> None:
    assert pieces(24, "each") == "24 each"
    assert pieces(59.99, "portion") == "60 portion"
    assert pieces(8.3, "each") == "about 8 each"
    assert pieces(0.2, "head") == "less than 1 head"


def test_what_is_weighed_follows_the_reader_and_what_is_counted_does_not() -> None:
    assert measured(2400, "g", 2400, METRIC) == "2.4 kg"
    assert measured(2400, "g", 2400, US) == "5 lb 5 oz"
    assert measured(2.5, "l", 2575, METRIC) == "2.5 l"
    assert measured(24, "each", 2900, US) == "24 each"
    assert is_weighed("lb")
    assert not is_weighed("l")
    assert not is_weighed("bunch")


def test_temperatures_name_both_scales_the_readers_first() -> None:
    assert temperature(74, METRIC) == "74 °C (165 °F)"
    assert temperature(5, US) == "41 °F (5 °C)"
    assert temperature(-18, METRIC) == "-18 °C (0 °F)"


def test_numbers_keep_zeros_that_matter() -> None:
    assert number(10, 0) == "10"
    assert number(1.50, 2) == "1.5"
    assert number(100.0, 1) == "100"
