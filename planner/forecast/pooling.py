"""One buffer for a component that several dishes take.

Each dish's own buffer covers its own unlucky day, and these do not fall on one day: what the dishes
take together spreads less than the sum of their spreads, as far as they do not rise and fall
together. How far they do is read from the history.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from planner.forecast.newsvendor import SUREST, Costs, Demand, portions_to_make

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Taker:
    """A dish that takes ``grams`` of the component a portion."""

    dish: str
    grams: float
    demand: Demand
    costs: Costs


@dataclass(frozen=True, slots=True)
class Pooled:
    """Grams of a component to be ready with.

    ``expected`` on average; ``apart`` if every dish had a buffer of its own, ``together`` with one
    for all. ``sd`` is of the dishes together.
    """

    expected: float
    apart: float
    together: float
    sd: float

    @property
    def saved(self) -> float:
        """Grams of buffer that pooling saves."""
        return self.apart - self.together


def pooled(takers: Sequence[Taker], together: Sequence[Sequence[float]]) -> Pooled:
    """Grams of one component for all its takers.

    The sum of grams is taken to be normal: mean sum(g m), variance the sum over pairs of
    g_i g_j s_i s_j r_ij. The chance worth being ready for is the takers' own, each by its share of
    the grams; of what keeps it is the higher one that its days make worth it. Never more than
    apart, and never less than expected where that is what a dish has.

    Parameters
    ----------
    takers
        Dishes that take the component.
    together
        Correlation of what they sell, takers x takers.

    Raises
    ------
    ValueError
        There is none, or the correlations are no such table.
    """
    table = _correlations(len(takers), together)
    grams = np.array([one.grams for one in takers])
    means = np.array([one.demand.mean for one in takers])
    sds = np.array([one.demand.sd for one in takers])
    expected = float(grams @ means)
    spread = grams * sds
    sd = math.sqrt(max(0.0, float(spread @ table @ spread)))
    apart = sum(one.grams * portions_to_make(one.demand, one.costs) for one in takers)
    if len(takers) == 1 or expected == 0:
        return Pooled(expected, apart, apart, sd)
    level = sum(one.grams * one.demand.mean * _level(one) for one in takers) / expected
    wanted = expected + NormalDist().inv_cdf(min(max(level, 1e-6), 1 - 1e-6)) * sd
    return Pooled(expected, apart, max(0.0, min(apart, wanted)), sd)


def _level(one: Taker) -> float:
    """Chance that a taker alone is worth being ready for on its first day."""
    if one.costs.keeps == 1:
        return one.costs.ratio
    ready = one.demand.at_most(portions_to_make(one.demand, one.costs))
    return max(one.costs.ratio, min(ready, SUREST))


def correlations(counts: Sequence[Sequence[float]]) -> tuple[tuple[float, ...], ...]:
    """How series rise and fall together, drawn to half of all together where there are few days.

    Parameters
    ----------
    counts
        What each dish sold beyond its forecast, dish by dish, on the same days.
    """
    table = np.array(counts, dtype=np.float64)
    days = table.shape[1] if table.ndim == 2 else 0
    count = len(counts)
    # A dish that never varies rises and falls with nobody.
    usable = days >= 3 and bool((table.std(axis=1) > 0).all())
    seen = np.corrcoef(table) if usable and count > 1 else np.eye(count)
    weight = days / (days + 10) if usable else 0.0
    guess = np.full((count, count), 0.5)
    np.fill_diagonal(guess, 1.0)
    mixed = weight * np.atleast_2d(seen) + (1 - weight) * guess
    return tuple(tuple(float(value) for value in row) for row in mixed)


def _correlations(count: int, together: Sequence[Sequence[float]]) -> Floats:
    table = np.array(together, dtype=np.float64)
    if count == 0:
        raise ValueError("a component that nothing takes needs no buffer")
    if table.shape != (count, count) or not np.allclose(table, table.T):
        raise ValueError(f"correlations of {count} dishes are a table of {count} by {count}")
    if (np.abs(table) > 1 + 1e-9).any() or not np.allclose(np.diag(table), 1.0):
        raise ValueError("correlations lie from -1 to 1, and are 1 of a dish with itself")
    return table
