"""Batches summed up by whatever they have in common: cook, station, operation, dish."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, fields

from planner.floor.lines import BatchLine
from planner.floor.progress import Stage
from planner.labor.shares import shared_out

Names = Callable[[BatchLine], Sequence[tuple[str, float]]]
"""What a batch is summed up under, each with its weight: one name, or its dishes with grams."""


@dataclass(frozen=True, slots=True)
class Amounts:
    """Whole numbers of one batch or of many.

    ``planned``, ``leads`` and ``planned_timed`` are minutes of the plan: of all batches, of what
    lies before them, and of the batches that were timed. The others are seconds as ticked: ``took``
    of those that were timed, ``worked`` with the planned minutes of what was not timed,
    ``changeover`` and ``waiting`` between batches where that is known.
    """

    planned: int = 0
    leads: int = 0
    planned_timed: int = 0
    took: int = 0
    worked: int = 0
    changeover: int = 0
    waiting: int = 0


_FIELDS = tuple(field.name for field in fields(Amounts))


@dataclass(frozen=True, slots=True)
class LaborSum:
    """All batches of one name; one that has several names counts under each, with its share."""

    name: str
    batches: int
    done: int
    late: int
    amounts: Amounts

    @property
    def over(self) -> int:
        """Seconds more than planned, of what was timed."""
        return self.amounts.took - self.amounts.planned_timed * 60


def amounts_of(line: BatchLine) -> Amounts:
    """What one batch adds to a sum."""
    return Amounts(
        planned=line.planned,
        leads=line.lead,
        planned_timed=0 if line.took is None else line.planned,
        took=line.took or 0,
        worked=line.worked,
        changeover=line.changeover or 0,
        waiting=line.waiting or 0,
    )


def labor_sums(lines: Iterable[BatchLine], names: Names) -> tuple[LaborSum, ...]:
    """Sum up by name, most planned minutes first.

    A batch of several names is shared out by their weights, in whole minutes and seconds, so that
    the sums of all names add up to the sum of all batches.
    """
    groups: dict[str, list[tuple[BatchLine, Amounts]]] = defaultdict(list)
    for line in lines:
        for name, amounts in _shares(line, names(line)):
            groups[name].append((line, amounts))
    sums = [
        LaborSum(
            name=name,
            batches=len(group),
            done=sum(line.stage is Stage.DONE for line, _ in group),
            late=sum(line.late > 0 for line, _ in group),
            amounts=_added(amounts for _, amounts in group),
        )
        for name, group in groups.items()
    ]
    return tuple(sorted(sums, key=lambda one: (-one.amounts.planned, one.name)))


def whole_sum(lines: Iterable[BatchLine]) -> LaborSum:
    """All batches together; its name is empty."""
    found = labor_sums(lines, lambda _: (("", 1.0),))
    return found[0] if found else LaborSum("", 0, 0, 0, Amounts())


def _shares(line: BatchLine, named: Sequence[tuple[str, float]]) -> Iterable[tuple[str, Amounts]]:
    whole = amounts_of(line)
    if len(named) == 1:
        return ((named[0][0], whole),)
    weights = [weight for _, weight in named]
    parts = [shared_out(getattr(whole, name), weights) for name in _FIELDS]
    return (
        (name, Amounts(*amounts))
        for (name, _), amounts in zip(named, zip(*parts, strict=True), strict=True)
    )


def _added(amounts: Iterable[Amounts]) -> Amounts:
    rows = [[getattr(one, name) for name in _FIELDS] for one in amounts]
    return Amounts(*(sum(column) for column in zip(*rows, strict=True)))
