"""From a stage's needs to lots: no larger than the vessel, nor than half an hour of hands."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from planner.lots.stages import StageNeed

WAVE_MINUTES = 90
"""Needs due within so long of each other belong to one wave and are split evenly."""


@dataclass(frozen=True, slots=True)
class Slice:
    """A part of a stage need that goes into one lot."""

    need: StageNeed
    grams_in: float
    grams_out: float


class Sliced:
    """What is made of slices, and how much they weigh."""

    __slots__ = ()
    slices: tuple[Slice, ...]

    @property
    def grams_in(self) -> float:
        """Grams going in."""
        return sum(part.grams_in for part in self.slices)

    @property
    def grams_out(self) -> float:
        """Grams coming out."""
        return sum(part.grams_out for part in self.slices)


@dataclass(frozen=True, slots=True)
class Division(Sliced):
    """One lot to be: its slices, first due first."""

    slices: tuple[Slice, ...]


def divide(
    needs: Sequence[StageNeed],
    largest: float,
    *,
    apart: bool = False,
    together: bool = False,
    pieces: int = 1,
) -> list[Division]:
    """Split a stage's needs, in their order, into lots of at most ``largest`` grams going in.

    Needs of one wave share lots; a later wave joins an earlier one only where both fit one lot (and
    not ``apart``), or all of them (``together``), and where the food is still fresh enough for the
    later one. Food that waits for a delivery, or that nobody has, never shares a lot with food that
    is there. Each wave makes ``pieces`` times as many lots as it must.
    """
    fits = math.inf if together else 0.0 if apart else largest
    waves: list[list[StageNeed]] = []
    for need in needs:
        if waves and _joins(waves[-1], need, fits):
            waves[-1].append(need)
        else:
            waves.append([need])
    return [lot for wave in waves for lot in _split(wave, largest, pieces)]


def _joins(wave: list[StageNeed], need: StageNeed, fits: float) -> bool:
    first, last = wave[0], need.portion
    if (first.portion.release, first.portion.missing) != (last.release, last.missing):
        return False
    # What should have begun yesterday may never be ready: it holds up nothing that can be.
    if first.portion.missed != last.missed:
        return False
    if first.portion.making.last_step != last.making.last_step:
        return False
    together = (*wave, need)
    fresh_from = max((n.fresh_from for n in together if n.fresh_from is not None), default=None)
    if fresh_from is not None and fresh_from > min(n.due for n in together):
        return False
    if need.due - first.due <= WAVE_MINUTES:
        return True
    return sum(n.grams_in for n in wave) + need.grams_in <= fits


def _split(wave: list[StageNeed], largest: float, pieces: int) -> list[Division]:
    """Even lots, filled in the order of the needs."""
    total = sum(need.grams_in for need in wave)
    count = 1 if math.isinf(largest) else max(1, math.ceil(total / largest - 1e-9))
    count *= pieces
    size = total / count
    lots: list[Division] = []
    slices: list[Slice] = []
    room = size
    for need in wave:
        left = need.grams_in
        ratio = need.grams_out / need.grams_in if need.grams_in else 0.0
        while left > 1e-9:
            taken = left if left <= room + 1e-6 or len(lots) == count - 1 else room
            slices.append(Slice(need, taken, taken * ratio))
            left -= taken
            room -= taken
            if room <= 1e-6 and len(lots) < count - 1:
                lots.append(Division(tuple(slices)))
                slices, room = [], size
    if slices:
        lots.append(Division(tuple(slices)))
    return lots
