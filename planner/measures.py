"""Three weights of one food that must never be mixed up, each its own type, in grams.

As purchased (AP) is what comes off the shelf; the edible portion (EP) is trimmed and raw; as served
is what the recipe leaves after heat and mixing.
"""

from dataclasses import dataclass
from typing import Self


@dataclass(frozen=True, slots=True, order=True)
class _Mass:
    grams: float

    def __post_init__(self) -> None:
        if not self.grams >= 0:
            raise ValueError(f"a weight is zero or more grams, not {self.grams}")

    def __add__(self, other: Self) -> Self:
        if type(other) is not type(self):
            raise TypeError(f"{type(self).__name__} and {type(other).__name__} do not add up")
        return type(self)(self.grams + other.grams)

    def less(self, other: Self) -> Self:
        """What is left after ``other`` is taken away, never below zero."""
        if type(other) is not type(self):
            raise TypeError(f"{type(other).__name__} cannot be taken from {type(self).__name__}")
        return type(self)(max(0.0, self.grams - other.grams))

    def times(self, factor: float) -> Self:
        """The same kind of weight, ``factor`` times as much."""
        return type(self)(self.grams * factor)


class AsPurchased(_Mass):
    """Grams as purchased (AP)."""


class EdiblePortion(_Mass):
    """Grams of edible portion (EP): trimmed, raw."""


class AsServed(_Mass):
    """Grams as served: finished, after cooking and mixing."""


def gross(edible: EdiblePortion, fraction: float) -> AsPurchased:
    """AP grams to pull for ``edible`` at a yield ``fraction`` (mass out / mass in): AP = EP / Y."""
    return AsPurchased(edible.grams / _checked(fraction))


def raw(served: AsServed, fraction: float) -> EdiblePortion:
    """EP grams that give ``served`` at a cook yield ``fraction`` (served / raw): served / Y."""
    return EdiblePortion(served.grams / _checked(fraction))


def net(purchased: AsPurchased, fraction: float) -> EdiblePortion:
    """EP grams that ``purchased`` gives at a yield ``fraction``: EP = AP x Y."""
    return EdiblePortion(purchased.grams * _checked(fraction))


def yield_percent(purchased: AsPurchased, edible: EdiblePortion) -> float:
    """Yield percent = EP / AP x 100."""
    if purchased.grams == 0:
        raise ValueError("a yield needs an AP weight above zero")
    return edible.grams / purchased.grams * 100


def edible_cost(purchase_cost: float, fraction: float) -> float:
    """Cost of a usable unit, in the money of ``purchase_cost`` per AP unit: cost / yield."""
    return purchase_cost / _checked(fraction)


def cost_factor(fraction: float) -> float:
    """What an AP price is multiplied by to get the price of a usable unit: 1 / yield."""
    return 1.0 / _checked(fraction)


def _checked(fraction: float) -> float:
    if not 0 < fraction <= 10:
        raise ValueError(f"a yield fraction lies above 0 and up to 10, not {fraction}")
    return fraction
