"""Units of measure: a closed list of names, mapped onto pint.

Free text never reaches pint's parser: it would read ``pinch`` as pico-inch. A kitchen adds its own
names (sixth pan, case) in its file; names of pieces (each, bunch) belong to the food.

Source: definitions in pint, checked in ``tests/outside`` against NIST Handbook 44, Appendix C.
"""

from dataclasses import dataclass
from enum import StrEnum
from functools import cache

import pint


class Dimension(StrEnum):
    """What an amount measures."""

    MASS = "mass"
    VOLUME = "volume"


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of the closed list, with its size in grams or millilitres."""

    name: str
    dimension: Dimension
    size: float


_PINT_NAMES: dict[str, tuple[Dimension, str]] = {
    "mg": (Dimension.MASS, "milligram"),
    "g": (Dimension.MASS, "gram"),
    "kg": (Dimension.MASS, "kilogram"),
    "oz": (Dimension.MASS, "ounce"),
    "lb": (Dimension.MASS, "pound"),
    "ml": (Dimension.VOLUME, "milliliter"),
    "cl": (Dimension.VOLUME, "centiliter"),
    "dl": (Dimension.VOLUME, "deciliter"),
    "l": (Dimension.VOLUME, "liter"),
    "tsp": (Dimension.VOLUME, "teaspoon"),
    "tbsp": (Dimension.VOLUME, "tablespoon"),
    "fl oz": (Dimension.VOLUME, "fluid_ounce"),
    "cup": (Dimension.VOLUME, "cup"),
    "pt": (Dimension.VOLUME, "pint"),
    "qt": (Dimension.VOLUME, "quart"),
    "gal": (Dimension.VOLUME, "gallon"),
    "peck": (Dimension.VOLUME, "peck"),
    "bushel": (Dimension.VOLUME, "bushel"),
}

UNIT_NAMES: tuple[str, ...] = tuple(_PINT_NAMES)


@cache
def _registry() -> pint.UnitRegistry[float]:
    # Made on first use: building a registry costs a tenth of a second at import.
    return pint.UnitRegistry()


@cache
def standard_unit(name: str) -> Unit | None:
    """Return the unit called ``name``, or None where the closed list has no such name."""
    known = _PINT_NAMES.get(name)
    if known is None:
        return None
    dimension, pint_name = known
    base = "gram" if dimension is Dimension.MASS else "milliliter"
    size = float(_registry().Quantity(1.0, pint_name).to(base).magnitude)
    return Unit(name, dimension, size)
