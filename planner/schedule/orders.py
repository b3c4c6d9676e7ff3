"""Arcs of an order around work that stays where it is.

Frozen nodes are numbered 1 to ``count`` in their order, free ones from ``count + 1`` on; 0 is where
the line begins and ends. Gap g lies between frozen node g and the next. A free node may go into the
gaps it fits; where a gap is closed to all of them the frozen nodes around it follow each other for
certain, and those that touch no open gap are left out.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise


def order_arcs(
    count: int, fits: Sequence[frozenset[int]], follows: Callable[[int, int], bool]
) -> Iterator[tuple[int, int, bool]]:
    """Yield (tail, head, certain).

    ``fits[f]`` are the gaps of free node f (from 0), ``follows(f, h)`` whether free node h may come
    right after f.
    """
    gaps = frozenset().union(*fits)
    ends = {g: g + 1 if g < count else 0 for g in gaps}
    kept = sorted({*ends, *(node for node in ends.values() if node)} - {0})
    for tail, head in pairwise([0, *kept, 0]):
        if tail in gaps and ends[tail] == head:
            yield tail, head, False
        elif (tail, head) != (0, 0):
            yield tail, head, True
    for f, own in enumerate(fits):
        for g in sorted(own):
            yield g, count + 1 + f, False
            yield count + 1 + f, ends[g], False
    for f, own in enumerate(fits):
        for h, others in enumerate(fits):
            if f != h and own & others and follows(f, h):
                yield count + 1 + f, count + 1 + h, False


def followers(order: Sequence[int]) -> frozenset[tuple[int, int]]:
    """Arcs of a circuit through nodes in this order, from 0 and back."""
    return frozenset(pairwise([0, *order, 0])) if order else frozenset({(0, 0)})
