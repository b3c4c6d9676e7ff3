"""What is believed of a yield before anything is weighed, and how tests scatter.

All figures are starting guesses, of the size that published refuse percentages differ from what
kitchens find. They are integrated over, not fixed, so that the tests decide among them.
"""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Belief:
    """Spreads, as fractions (0.04 is four points of yield), of a yield below 1.

    Attributes
    ----------
    kitchen
        How far a kitchen's own yield lies from the usual figure: equally likely sizes of it.
    supplier
        How far a supplier's lies from the kitchen's.
    load
        How far the yield of one load of a kilogram lies from the yield, with weights; that of a
        larger load lies nearer, as one over the root of its weight.
    """

    kitchen: tuple[float, ...] = (0.02, 0.05, 0.1)
    supplier: tuple[float, ...] = (0.005, 0.02)
    load: tuple[tuple[float, float], ...] = ()

    def at(self, usual: float) -> "Belief":
        """The same for a food of this usual yield: what swells scatters in proportion."""
        if usual <= 1:
            return self
        return Belief(
            tuple(sd * usual for sd in self.kitchen),
            tuple(sd * usual for sd in self.supplier),
            tuple((sd * usual, weight) for sd, weight in self.load),
        )


def _loads(least: float, usual: float, most: float) -> tuple[tuple[float, float], ...]:
    """Log-normal about ``usual``, on a grid from ``least`` to ``most``."""
    steps = 12
    low, high = math.log(least), math.log(most)
    centre, width = math.log(usual), 0.8
    grid = [low + (high - low) * step / (steps - 1) for step in range(steps)]
    return tuple((math.exp(x), math.exp(-(((x - centre) / width) ** 2) / 2)) for x in grid)


BELIEF = Belief(load=_loads(0.005, 0.03, 0.2))
"""What the program begins with: loads scatter by three points about a yield."""
TRIM_BELIEF = Belief(
    kitchen=(0.03, 0.08, 0.16), supplier=(0.01, 0.03), load=_loads(0.005, 0.03, 0.1)
)
"""The same of a share of what is taken off, for loads of a kilogram taken off: what one kitchen
keeps another throws away, so shares lie further apart than yields."""
