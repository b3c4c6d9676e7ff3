"""Masses, pieces and temperatures for people."""

import math

from planner.units import Dimension, standard_unit
from planner.wording import pulled_text
from web.language import _, ngettext
from web.presenters.preferences import Preferences
from web.presenters.units import unit_words

_NEAR_WHOLE = 0.02
"""Pieces within this of a whole number are that number; the rest is rounding of weights."""


def mass(grams: float, preferences: Preferences) -> str:
    """A weight as it is read off a kitchen scale: ``850 g``, ``1.2 kg``; US: ``2 lb 10 oz``."""
    return _pounds(grams) if preferences.units == "us" else _metric(grams)


def pulled_mass(grams: float, preferences: Preferences) -> str:
    """A weight to take off a shelf, rounded up as everywhere it is told: ``4.95 kg``."""
    if preferences.units != "us":
        return pulled_text(grams)
    ounce = _size("oz")
    half = ounce / 2
    return _pounds(
        grams if grams < 4 * ounce else _up(grams, half if grams < 16 * ounce else ounce)
    )


def number(value: float, decimals: int) -> str:
    """``value`` with at most so many decimals and no trailing zeros: ``1.20`` is ``1.2``."""
    # Adding zero turns a rounded -0.0 into 0.
    text = f"{round(value, decimals) + 0.0:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def pieces(count: float, piece: str) -> str:
    """Whole pieces: ``24 each``; what is not whole is rounded and says so: ``about 8 each``."""
    nearest = round(count)
    if abs(count - nearest) <= _NEAR_WHOLE:
        return _pieces(nearest, piece)
    if nearest:
        return _("about %(pieces)s", pieces=_pieces(nearest, piece))
    return _("less than %(pieces)s", pieces=_pieces(1, piece))


def _pieces(count: int, piece: str) -> str:
    """Whoever has no word for a piece writes ``each``; any other word is the kitchen's own."""
    if piece == "each":
        return ngettext("%(n)s each", "%(n)s each", count)
    return f"{count} {piece}"


def measured(units: float, unit: str, grams: float, preferences: Preferences) -> str:
    """What to take in the unit it is taken in: ``24 each``, ``6 l``, or by weight ``1.2 kg``.

    A weight is rounded up: who pulls less is short at the end.
    """
    known = standard_unit(unit)
    if known is not None and known.dimension is Dimension.MASS:
        return pulled_mass(grams, preferences)
    if known is not None:
        return f"{number(units, 2)} {unit_words(unit)}"
    return pieces(units, unit)


def is_weighed(unit: str) -> bool:
    """Whether ``unit`` is a mass, so that a weight beside it would say the same twice."""
    known = standard_unit(unit)
    return known is not None and known.dimension is Dimension.MASS


def portions(expected: float) -> str:
    """Expected portions, which need not be whole: ``41.6``."""
    return number(expected, 1)


def temperature(celsius: float, preferences: Preferences) -> str:
    """A temperature in both scales, the reader's own first: ``74 °C (165 °F)``."""
    metric = f"{number(celsius, 0)} °C"
    us = f"{number(celsius * 9 / 5 + 32, 0)} °F"
    return f"{us} ({metric})" if preferences.units == "us" else f"{metric} ({us})"


def _metric(grams: float) -> str:
    if 0 < grams < 9.95:
        return f"{number(grams, 1)} g" if grams >= 0.05 else _("under %(weight)s", weight="0.1 g")
    if grams < 999.5:
        return f"{number(grams, 0)} g"
    kilos = grams / 1000
    decimals = 2 if kilos < 9.995 else 1 if kilos < 99.95 else 0
    return f"{number(kilos, decimals)} kg"


def _pounds(grams: float) -> str:
    ounce, pound = _size("oz"), _size("lb")
    ounces = grams / ounce
    if ounces < 3.95:
        return (
            f"{number(ounces, 1)} oz"
            if ounces >= 0.05 or grams == 0
            else _("under %(weight)s", weight="0.1 oz")
        )
    halves = round(ounces * 2) / 2
    if halves < pound / ounce:
        return f"{number(halves, 1)} oz"
    if grams >= 50 * pound:
        return f"{number(grams / pound, 1)} lb"
    pounds, rest = divmod(round(ounces), round(pound / ounce))
    return f"{pounds} lb {rest} oz" if rest else f"{pounds} lb"


def _up(grams: float, step: float) -> float:
    return math.ceil(grams / step - 1e-6) * step


def _size(name: str) -> float:
    unit = standard_unit(name)
    if unit is None:  # pragma: no cover - the closed list has it
        raise LookupError(f"the closed list of units has no {name}")
    return unit.size
