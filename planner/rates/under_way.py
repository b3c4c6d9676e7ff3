"""A day under way, as its chances are counted: what is done, what runs, and since when.

What runs has a remaining time: minutes that it may take, given that it has not ended yet. So a
batch that is over its time is no surer to end soon than its kind is.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
_LOWEST = -37.0
"""Standard deviations: below it a double has no number for the chance."""
_STEPS = 8000


@dataclass(frozen=True, slots=True)
class UnderWay:
    """How far a day has come at ``now`` (minutes after midnight).

    Attributes
    ----------
    begun
        Tasks of the day's problem that have begun, by index; those whose end is not after ``now``
        are done.
    ready
        By task that takes something out: when it may, as far as is known.
    free
        By worker: no earlier than this, where that is after ``now``.
    """

    now: int
    begun: frozenset[int]
    ready: Mapping[int, int] = field(default_factory=dict)
    free: Mapping[int, int] = field(default_factory=dict)


def _log_chance(z: float) -> float:
    return math.log(0.5 * math.erfc(-z / math.sqrt(2)))


@cache
def _tails() -> tuple[Floats, Floats]:
    """Values, and the logarithms of the chances to lie below them; made when first asked for."""
    grid = np.linspace(_LOWEST, 9.0, _STEPS)
    return grid, np.array([_log_chance(float(z)) for z in grid])


def above(least: Floats, uniform: Floats) -> Floats:
    """Standard normal values above ``least``: one for each, by its ``uniform`` (0 to 1) chance.

    The tail's own distribution function inverted: of values above a, the chance to lie above z is
    the tail of z over the tail of a. Tails are read from a table of their logarithms, so that far
    ones keep their digits.
    """
    grid, logs = _tails()
    tail = np.interp(-least, grid, logs) + np.log(np.maximum(uniform, np.finfo(float).tiny))
    found: Floats = -np.interp(tail, logs, grid)
    return found
