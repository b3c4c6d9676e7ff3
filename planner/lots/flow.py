"""Which lot takes how much from which: first out, first in, in the order things are due."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass


@dataclass(slots=True)
class Source:
    """Grams that can be taken: from a lot, or from stock (``lot`` is None)."""

    lot: int | None
    left: float


def take(sources: Sequence[Source], grams: float) -> list[tuple[int | None, float]]:
    """Take ``grams`` from the front of ``sources``; returns (lot or None, grams) taken."""
    taken: list[tuple[int | None, float]] = []
    for source in sources:
        if grams <= 1e-6:
            break
        if source.left <= 1e-6:
            continue
        part = min(grams, source.left)
        source.left -= part
        grams -= part
        taken.append((source.lot, part))
    return taken


def merged(parts: Iterable[tuple[int | None, float]]) -> dict[int | None, float]:
    """Sum grams by source."""
    total: dict[int | None, float] = {}
    for lot, grams in parts:
        total[lot] = total.get(lot, 0.0) + grams
    return total


def apportion(total: int, weights: Sequence[float]) -> list[int]:
    """Whole parts of ``total``, as near to ``weights`` as running totals allow, each at least 1.

    The parts add up to ``total`` unless there are more parts than units, when each gets 1: so that
    splitting a quantity into lots costs nothing by itself.
    """
    count = len(weights)
    if count == 0:
        return []
    if total <= count:
        return [1] * count
    whole = sum(weights)
    if whole <= 0:
        return apportion(total, [1.0] * count)
    parts: list[int] = []
    running = 0.0
    given = 0
    for index, weight in enumerate(weights):
        running += weight
        upto = round(total * running / whole)
        part = max(1, min(upto - given, total - given - (count - index - 1)))
        parts.append(part)
        given += part
    return parts
