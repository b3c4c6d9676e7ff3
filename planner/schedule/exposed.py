"""Minutes out of temperature control, added up over all the work on a food, in a timetable."""

from collections.abc import Collection, Iterable, Sequence

from planner.schedule.problem import Exposure
from planner.schedule.state import State

Span = tuple[int, int]


def minutes_out(exposures: Sequence[Exposure], spans: dict[int, Span]) -> dict[int, int]:
    """Per exposure whose tasks are done: its sum; ``spans`` are (start, end) by task."""
    found: dict[int, int] = {}
    for index, exposure in enumerate(exposures):
        first, last = spans.get(exposure.first), spans.get(exposure.last)
        if first is not None and last is not None:
            begin = first[0] if exposure.since is None else exposure.since
            before = [found[other] for other in exposure.after if other in found]
            found[index] = last[1] - begin + max([exposure.spent, *before])
    return found


NOWHERE = (-1, 0)
"""Food is out too long, and nothing that can still be moved would change that."""


def too_long_out(state: State, task: int, placed: Collection[int]) -> tuple[int, int] | None:
    """The task that must move, and to when, so that what ``task`` ends is not out too long.

    Of those ``placed`` just now: the beginning of the last stretch on the way that could be
    shorter. ``NOWHERE`` if there is none.
    """
    tables = state.tables
    for index in tables.exposed_by[task]:
        over = _sum(state, index) - tables.problem.exposures[index].limit
        at: int | None = index if over > 0 else None
        while at is not None:
            exposure = tables.problem.exposures[at]
            first = exposure.first
            if first in placed and first != exposure.last and exposure.since is None:
                return first, state.entries[first].start + over
            at = max(exposure.after, key=lambda other: _sum(state, other), default=None)
        if over > 0:
            return NOWHERE
    return None


def keeps_others(state: State, tasks: Iterable[int]) -> bool:
    """Whether what was placed later in the food's way is still not out too long."""
    tables = state.tables
    ahead = [index for task in tasks for index in tables.exposed_by[task]]
    seen: set[int] = set()
    while ahead:
        index = ahead.pop()
        if index not in seen:
            seen.add(index)
            exposure = tables.problem.exposures[index]
            there = exposure.first in state.entries and exposure.last in state.entries
            if there and _sum(state, index) > exposure.limit:
                return False
            ahead += tables.exposed_next[index]
    return True


def _sum(state: State, index: int) -> int:
    exposure, entries = state.tables.problem.exposures[index], state.entries
    if exposure.first not in entries or exposure.last not in entries:
        return 0
    begin = entries[exposure.first].start if exposure.since is None else exposure.since
    before = [_sum(state, other) for other in exposure.after]
    return entries[exposure.last].end - begin + max([exposure.spent, *before])
