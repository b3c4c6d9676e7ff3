"""A weighted mixture of normal distributions: its mean, spread and quantiles."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

_SQRT2 = math.sqrt(2.0)
_HALVINGS = 60


@dataclass(frozen=True, slots=True)
class Normal:
    """One part of a mixture."""

    weight: float
    mean: float
    sd: float


@dataclass(frozen=True, slots=True)
class Mixture:
    """Normals whose weights sum to 1."""

    parts: tuple[Normal, ...]

    @classmethod
    def of(cls, parts: Sequence[Normal]) -> "Mixture":
        """The mixture of these parts, their weights made to sum to 1."""
        total = math.fsum(part.weight for part in parts)
        return cls(tuple(Normal(part.weight / total, part.mean, part.sd) for part in parts))

    @property
    def mean(self) -> float:
        """The expected value."""
        return math.fsum(part.weight * part.mean for part in self.parts)

    @property
    def sd(self) -> float:
        """The standard deviation."""
        mean = self.mean
        return math.sqrt(
            math.fsum(part.weight * (part.sd**2 + (part.mean - mean) ** 2) for part in self.parts)
        )

    def below(self, value: float) -> float:
        """The chance of ``value`` or less."""
        return math.fsum(
            part.weight * 0.5 * math.erfc((part.mean - value) / (part.sd * _SQRT2))
            for part in self.parts
        )

    def quantile(self, chance: float) -> float:
        """The value that is undercut with ``chance`` (above 0, below 1)."""
        low = min(part.mean - 12 * part.sd for part in self.parts)
        high = max(part.mean + 12 * part.sd for part in self.parts)
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            if self.below(middle) < chance:
                low = middle
            else:
                high = middle
            if high - low < _PRECISE:
                break
        return (low + high) / 2


_PRECISE = 1e-7
