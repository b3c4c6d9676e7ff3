"""What changes for each cook from one sheet of a day to another."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import KitchenSheet

NOTICED = 5
"""Minutes from which on another start is told; less is lost in the work. Starting guess."""
_SAME = 0.01
"""Quantities that differ by less, as a fraction, are weighed out as the same. Starting guess."""


@dataclass(frozen=True, slots=True)
class BatchChange:
    """A batch as it was and as it is: of a cook it is new to or gone from, one is None.

    Where the other cook has it instead, ``before`` and ``after`` are both there and their cooks
    differ; it is then told to both.
    """

    before: SheetBatch | None
    after: SheetBatch | None

    @property
    def moved(self) -> bool:
        """Whether another cook has it now."""
        return bool(self.before and self.after and self.before.cook != self.after.cook)

    @property
    def retimed(self) -> bool:
        """Whether it starts at a time that is noticed to be another."""
        if self.before is None or self.after is None:
            return False
        return abs(self.before.start - self.after.start) > NOTICED

    @property
    def resized(self) -> bool:
        """Whether another quantity comes out of it."""
        if self.before is None or self.after is None:
            return False
        return not _same(self.before.grams_out, self.after.grams_out)

    @property
    def told(self) -> bool:
        """Whether there is anything to tell."""
        gone_or_new = self.before is None or self.after is None
        return gone_or_new or self.moved or self.retimed or self.resized


@dataclass(frozen=True, slots=True)
class CookChanges:
    """What changes for one cook, in the order of the day; ``kept`` batches are as they were."""

    cook: str
    name: str
    changes: tuple[BatchChange, ...]
    kept: int


def sheet_changes(before: KitchenSheet, after: KitchenSheet) -> tuple[CookChanges, ...]:
    """What changes for whom, every cook of either sheet once.

    Batches are matched by movement, food, what they are for and cut; of several, the same cook's
    first and then the closest in time.
    """
    names = {cook.cook: cook.name for sheet in (before, after) for cook in sheet.cooks}
    mine: dict[str, list[BatchChange]] = {cook: [] for cook in names}
    for change in _matched(before, after):
        for cook in dict.fromkeys(one.cook for one in (change.before, change.after) if one):
            mine[cook].append(change)
    return tuple(
        CookChanges(
            cook,
            name,
            tuple(sorted((one for one in mine[cook] if one.told), key=_order)),
            sum(not one.told for one in mine[cook]),
        )
        for cook, name in names.items()
    )


_Key = tuple[object, ...]


def _matched(before: KitchenSheet, after: KitchenSheet) -> Iterable[BatchChange]:
    old, new = _by_work(before), _by_work(after)
    for key in dict.fromkeys([*old, *new]):
        gone, come = list(old[key]), list(new[key])
        ranked = sorted(
            ((one, other) for one in gone for other in come),
            key=lambda pair: (
                pair[0].cook != pair[1].cook,
                abs(pair[0].start - pair[1].start),
                pair[0].number,
                pair[1].number,
            ),
        )
        for one, other in ranked:
            if one in gone and other in come:
                gone.remove(one)
                come.remove(other)
                yield BatchChange(one, other)
        yield from (BatchChange(one, None) for one in gone)
        yield from (BatchChange(None, other) for other in come)


def _by_work(sheet: KitchenSheet) -> dict[_Key, list[SheetBatch]]:
    found: dict[_Key, list[SheetBatch]] = defaultdict(list)
    for cook in sheet.cooks:
        for batch in cook.batches:
            cut = batch.cut.name if batch.cut else ""
            key = (batch.operation, batch.part, batch.food_name, batch.components, cut)
            found[key].append(batch)
    return found


def _same(one: float, other: float) -> bool:
    return abs(one - other) <= _SAME * max(one, other)


def _order(change: BatchChange) -> tuple[int, str]:
    """By when it is now, or was; then by what it is, for those of one minute."""
    batch = change.after or change.before
    assert batch is not None  # noqa: S101 - a change has one of the two
    return batch.start, batch.operation
