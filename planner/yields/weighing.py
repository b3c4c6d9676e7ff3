"""Loads on a scale: what it showed, less the empty container, in the unit it was read in."""

from dataclasses import dataclass, replace

from planner.units import standard_unit

SCALE_UNITS = ("g", "kg", "oz", "lb")
"""Units a kitchen scale shows. Sizes: NIST Handbook 44, Appendix C, through ``planner.units``."""


def unit_grams(unit: str) -> float:
    """Grams of one ``unit``; raise ValueError, naming those there are, for another."""
    known = standard_unit(unit) if unit in SCALE_UNITS else None
    if known is None:
        raise ValueError(f"{unit}: a scale shows one of {', '.join(SCALE_UNITS)}")
    return known.size


@dataclass(frozen=True, slots=True)
class Reading:
    """One load: what the scale ``shown`` and the empty container's ``tare``, both in ``unit``.

    ``division`` is the smallest step the scale shows, in the same unit. A ``tare`` of 0: the scale
    was set to zero with the container on it.
    """

    shown: float
    unit: str
    tare: float = 0.0
    division: float = 0.0

    @property
    def grams(self) -> float:
        """Grams of food."""
        return (self.shown - self.tare) * unit_grams(self.unit)

    @property
    def unsure(self) -> float:
        """Grams the net weight may be off by: half a division for each time the scale was read."""
        reads = 2 if self.tare else 1
        return reads * self.division / 2 * unit_grams(self.unit)

    def as_in(self, unit: str) -> "Reading":
        """The same figures, had they been read in another unit."""
        return replace(self, unit=unit)
