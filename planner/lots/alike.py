"""Which lot of one division of a day's food stands for which of another."""

from collections import defaultdict
from collections.abc import Iterable

from planner.lots.types import Lot, LotTask

_Key = tuple[str, int, str, str | None]


def alike(old: Iterable[Lot], new: Iterable[Lot]) -> dict[int, Lot]:
    """Old lots by the index of the new one that does the same work on the same component.

    Of several they are paired in the order they are due.
    """
    waiting: dict[_Key, list[Lot]] = defaultdict(list)
    for lot in _by_due(old):
        waiting[_key(lot)].append(lot)
    found: dict[int, Lot] = {}
    for lot in _by_due(new):
        pairs = waiting[_key(lot)]
        if pairs:
            found[lot.index] = pairs.pop(0)
    return found


def tasks_alike(lot: Lot, other: Lot) -> list[tuple[int, int]]:
    """Tasks of the same part of two lots, in order, as pairs of indexes into their problems."""
    pairs = zip(_parts(lot), _parts(other), strict=False)
    return [(one.task, two.task) for one, two in pairs if one.part is two.part]


def _by_due(lots: Iterable[Lot]) -> list[Lot]:
    return sorted(lots, key=lambda one: (one.due, one.index))


def _key(lot: Lot) -> _Key:
    return lot.component, lot.step, lot.operation, lot.cut


def _parts(lot: Lot) -> list[LotTask]:
    return sorted(lot.tasks, key=lambda one: (one.part, one.task))
