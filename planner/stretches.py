"""Free time among stretches that are taken, and places for breaks in it. All in minutes."""

from collections.abc import Iterable, Sequence
from itertools import permutations

Stretch = tuple[int, int]
"""Half open: [start, end)."""


def next_free(taken: Iterable[Stretch], at: int, minutes: int) -> int:
    """Earliest start from ``at`` on with so many minutes clear of all that is taken."""
    for begin, end in sorted(taken):
        if at < end and begin < at + minutes:
            at = end
    return at


def last_free(taken: Iterable[Stretch], at: int, minutes: int) -> int:
    """Latest start up to ``at`` with so many minutes clear of all that is taken."""
    for begin, end in sorted(taken, reverse=True):
        if at < end and begin < at + minutes:
            at = begin - minutes
    return at


def first_places(
    windows: Sequence[tuple[int, int, int]], taken: Sequence[Stretch]
) -> tuple[Stretch, ...] | None:
    """Where stretches can be, each as early as may be; None where they do not all find room.

    ``windows`` are (minutes, earliest start, latest start). One that cannot move is where it is,
    whatever else is there; every other is clear of what is ``taken`` and of one another.
    """
    fixed = {
        index: (earliest, earliest + minutes)
        for index, (minutes, earliest, latest) in enumerate(windows)
        if earliest == latest
    }
    movable = [index for index in range(len(windows)) if index not in fixed]
    for order in permutations(sorted(movable, key=lambda index: windows[index][2])):
        found = dict(fixed)
        for index in order:
            minutes, earliest, latest = windows[index]
            start = next_free([*taken, *found.values()], earliest, minutes)
            if start > latest:
                break
            found[index] = start, start + minutes
        else:
            return tuple(found[index] for index in range(len(windows)))
    return None
