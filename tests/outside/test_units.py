"""Our units against NIST Handbook 44, Appendix C.

Figures marked 'from memory' were not seen in the handbook; the others were.
"""

import math

import pint
import pytest

from planner import units
from planner.kitchen.base import Amount
from planner.units import UNIT_NAMES, Dimension, standard_unit

CUBIC_INCH_ML = 2.54**3
"""The inch is 2.54 cm exactly; so is this."""


def size(name: str) -> float:
    unit = standard_unit(name)
    assert unit is not None
    return unit.size


@pytest.mark.parametrize(
    ("name", "cubic_inches"),
    [
        ("gal", 231.0),
        ("bushel", 2150.42),
        ("peck", 537.605),  # from memory; it is also a quarter of the bushel
    ],
)
def test_volumes_defined_in_cubic_inches(name: str, cubic_inches: float) -> None:
    assert size(name) == pytest.approx(cubic_inches * CUBIC_INCH_ML, rel=1e-6)


@pytest.mark.parametrize(
    ("name", "parts", "of"),
    [
        ("cup", 8, "fl oz"),
        ("pt", 2, "cup"),
        ("qt", 2, "pt"),
        ("gal", 4, "qt"),
        ("gal", 128, "fl oz"),
        ("tbsp", 3, "tsp"),
        ("fl oz", 2, "tbsp"),
        ("bushel", 4, "peck"),
        ("lb", 16, "oz"),
        ("kg", 1000, "g"),
        ("g", 1000, "mg"),
        ("l", 10, "dl"),
        ("dl", 10, "cl"),
        ("cl", 10, "ml"),
    ],
)
def test_how_many_make_one(name: str, parts: int, of: str) -> None:
    """The divisions of the handbook's tables of liquid, dry and avoirdupois measure."""
    assert size(name) == pytest.approx(parts * size(of), rel=1e-9)


@pytest.mark.parametrize(
    ("name", "metric", "digits"),
    [
        ("lb", 453.59237, 5),
        ("oz", 28.349523125, 9),  # 453.59237 / 16
        ("fl oz", 29.574, 3),  # from memory
        ("tbsp", 14.787, 3),  # from memory
        ("tsp", 4.929, 3),  # from memory
        ("cup", 236.588, 3),  # from memory
        ("g", 1.0, 12),
        ("ml", 1.0, 12),
    ],
)
def test_metric_equivalents_to_the_digits_printed(name: str, metric: float, digits: int) -> None:
    assert size(name) == pytest.approx(metric, abs=0.5 * 10**-digits)


def test_every_unit_of_the_closed_list_has_a_size_and_a_dimension() -> None:
    for name in UNIT_NAMES:
        unit = standard_unit(name)
        assert unit is not None
        assert math.isfinite(unit.size)
        assert unit.size > 0
        assert unit.dimension in (Dimension.MASS, Dimension.VOLUME)


FREE_TEXT = ["pinch", "dash", "Tbsp", "TBSP", "fl_oz", "ounce", "handful", "each", "pin", " g", ""]


@pytest.mark.parametrize("text", FREE_TEXT)
def test_free_text_never_reaches_pint(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """None comes back, and the registry is not even asked: it would take pinch for pico-inch."""

    def asked() -> pint.UnitRegistry[float]:
        raise AssertionError(f"pint was asked about {text!r}")

    monkeypatch.setattr(units, "_registry", asked)
    assert standard_unit(text) is None


def test_the_trap_is_real() -> None:
    """Were it passed through, 'pinch' would be a length of some 25 femtometres."""
    inch = pint.UnitRegistry().Quantity(1, "pinch").to("meter").magnitude
    assert inch == pytest.approx(0.0254e-12)


@pytest.mark.parametrize("text", ["1 pinch", "2 Tbsp"])
def test_an_amount_in_free_text_is_kept_as_written_and_not_understood(text: str) -> None:
    assert standard_unit(Amount.parse(text).unit) is None
