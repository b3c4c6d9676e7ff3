"""Repeated tests of one food and operation side by side: ratio of sums, and how they scatter.

A large load says more than a small one, so the mean is the sum of what came out over the sum of
what went in, not the mean of the percentages. The scatter follows: the variance of one load's yield
is ``noise`` / its grams, and ``noise`` is estimated by weighted least squares with the loads as
weights.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Load:
    """Grams that went in and grams that came out of one test."""

    grams_in: float
    grams_out: float

    @property
    def fraction(self) -> float:
        """The yield of this load."""
        return self.grams_out / self.grams_in


@dataclass(frozen=True, slots=True)
class Repeated:
    """Several loads together.

    Attributes
    ----------
    mean
        Ratio of sums.
    low, high
        The least and the greatest yield of a load.
    noise
        Grams; its square root over a load's grams is the spread of that load's yield. None: one
        load tells nothing of it.
    """

    tests: int
    grams_in: float
    mean: float
    low: float
    high: float
    noise: float | None

    @property
    def spread(self) -> float | None:
        """Standard deviation of the yield of a load of ordinary size (the mean one)."""
        if self.noise is None:
            return None
        return math.sqrt(self.noise * self.tests / self.grams_in)

    @property
    def standard_error(self) -> float | None:
        """Standard deviation of ``mean``."""
        return None if self.noise is None else math.sqrt(self.noise / self.grams_in)


def repeated(loads: Sequence[Load]) -> Repeated:
    """Sum loads up; raise ValueError where there is none."""
    if not loads:
        raise ValueError("there is no test to sum up")
    into = sum(load.grams_in for load in loads)
    mean = sum(load.grams_out for load in loads) / into
    squares = sum(load.grams_in * (load.fraction - mean) ** 2 for load in loads)
    fractions = [load.fraction for load in loads]
    return Repeated(
        tests=len(loads),
        grams_in=into,
        mean=mean,
        low=min(fractions),
        high=max(fractions),
        noise=squares / (len(loads) - 1) if len(loads) > 1 else None,
    )
