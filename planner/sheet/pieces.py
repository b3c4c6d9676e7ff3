"""Whole pieces of a food, where the kitchen has said what one weighs."""

import math

from planner.kitchen.conversion import ConversionError
from planner.kitchen.foods import Ingredient
from planner.sheet.view import PlanView

_EACH = "each"
_TOLERANCE = 1e-6
"""Grams come from products of fractions: 40.0000001 portions are 40."""


def whole(number: float) -> int:
    """Round up to whole things, forgiving the last digits of a float."""
    return math.ceil(number - _TOLERANCE * max(1.0, abs(number)))


def pieces(view: PlanView, item: str, grams: float) -> tuple[float | None, str | None]:
    """Whole pieces that ``grams`` of an ingredient (AP) or component (finished) need.

    The piece is what is pulled from the shelf, else ``each``, else the first piece weighed; without
    one there is no answer, and both values are None.
    """
    unit = _piece_unit(view, item)
    if unit is None:
        return None, None
    try:
        one = view.converter.piece_grams(item, unit)
    except ConversionError:
        return None, None
    return float(whole(grams / one)), unit


def _piece_unit(view: PlanView, item: str) -> str | None:
    food = view.catalog.food(item)
    named = [entry.unit for entry in food.weights]
    if isinstance(food, Ingredient) and food.pull_unit in named:
        return food.pull_unit
    if _EACH in named:
        return _EACH
    return named[0] if named else None
