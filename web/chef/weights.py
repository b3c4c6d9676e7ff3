"""Weights of the count in the reader's units, and back: what nobody changed stays as it was kept.

A kitchen that counts in kilograms may have a sous chef who reads pounds. The field then shows
pounds, rounded; sent back as it was shown, it stands for the amount that is kept, not for the
rounded one.
"""

from collections.abc import Sequence

from planner.kitchen.base import Amount
from planner.units import Dimension, standard_unit
from web.chef.fields import plain
from web.presenters.preferences import Preferences

_SMALL_LARGE = {"metric": ("g", "kg"), "us": ("oz", "lb")}
"""The units that weights are read in; the large one first where there is as much as one of it."""
_FINE = 0.1
"""Below it two decimals would say too little: two digits that count are shown."""


def in_readers_units(amount: Amount, preferences: Preferences) -> Amount:
    """``amount`` as the reader reads it: a weight in the reader's units, anything else as it is.

    The number is not rounded.
    """
    size = _grams(amount.unit)
    small, large = _SMALL_LARGE[preferences.units]
    if size is None or amount.unit in (small, large):
        return amount
    grams = amount.number * size
    unit = large if grams >= (_grams(large) or 1) else small
    return Amount(grams / (_grams(unit) or 1), unit)


def shown_number(amount: Amount, unit: str) -> str:
    """The number that a field shows of ``amount`` in ``unit``: rounded where it is converted."""
    size, other = _grams(amount.unit), _grams(unit)
    if unit == amount.unit or size is None or other is None:
        return plain(amount.number)
    number = amount.number * size / other
    if number and number < _FINE:
        return plain(float(f"{number:.2g}"))
    # Four digits at most: that is what a field of the count has room for.
    return plain(round(number, 2 if number < 10 else 1 if number < 100 else 0))


def is_as_shown(amount: Amount, number: float, unit: str) -> bool:
    """Whether a number in ``unit`` is what a field showed of ``amount``, to whichever reader."""
    comparable = unit == amount.unit or None not in (_grams(unit), _grams(amount.unit))
    return comparable and number == float(shown_number(amount, unit))


def readers_units_first(units: Sequence[str], preferences: Preferences) -> tuple[str, ...]:
    """The same units; the reader's weights take the places of the other weights before them."""
    small, large = _SMALL_LARGE[preferences.units]
    weights = [unit for unit in units if _grams(unit) is not None]
    ordered = iter(sorted(weights, key=lambda unit: unit not in (small, large)))
    return tuple(unit if _grams(unit) is None else next(ordered) for unit in units)


def _grams(unit: str) -> float | None:
    """Grams in a unit of weight; None for any other unit."""
    known = standard_unit(unit)
    return known.size if known is not None and known.dimension is Dimension.MASS else None
