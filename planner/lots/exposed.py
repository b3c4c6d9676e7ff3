"""Minutes out of temperature control as exposures: from lot to lot, over the whole of a route.

A stretch begins where food is taken out of the cold and ends where it is put back, or into heat. It
goes on over lots between which the food stands at room temperature. What was out before counts on,
until a kill step.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf

from planner.kitchen.catalog import Catalog
from planner.kitchen.exposure import Care, care_of
from planner.kitchen.foods import Component, Holding
from planner.kitchen.route import held_after
from planner.lots.types import Lot, Part
from planner.schedule.problem import Exposure, Problem


@dataclass(frozen=True, slots=True)
class _Run:
    """A stretch under way: where it began, what came before, the most minutes it can have."""

    first: int
    after: tuple[int, ...]
    most: float


@dataclass(frozen=True, slots=True)
class _Left:
    """How a lot leaves its food: exposures so far, and the stretches that are still under way."""

    ended: tuple[int, ...] = ()
    runs: tuple[_Run, ...] = ()


def exposures_of(catalog: Catalog, lots: Sequence[Lot], problem: Problem) -> tuple[Exposure, ...]:
    """Exposures that could pass the kitchen's limit, and those that they come after."""
    return _Exposures(catalog, lots, problem).that_could_bind()


def every_exposure(catalog: Catalog, lots: Sequence[Lot], problem: Problem) -> tuple[Exposure, ...]:
    """All exposures, whether or not they could pass the limit."""
    return tuple(_Exposures(catalog, lots, problem).found)


class _Exposures:
    def __init__(self, catalog: Catalog, lots: Sequence[Lot], problem: Problem) -> None:
        self.catalog, self.lots, self.problem = catalog, lots, problem
        self.limit = catalog.kitchen.rules.out_of_control_minutes
        self.longest = {(w.before, w.after): w.maximum for w in problem.waits}
        self.found: dict[Exposure, int] = {}
        self.worst: list[float] = []
        self.left: dict[int, _Left] = {}
        for lot in lots:
            self._of(lot)

    def that_could_bind(self) -> tuple[Exposure, ...]:
        """Those whose worst case is beyond the limit, and all they come after, renumbered."""
        every = list(self.found)
        kept = {index for index, most in enumerate(self.worst) if most > self.limit}
        for index in reversed(range(len(every))):
            if index in kept:
                kept.update(every[index].after)
        number = {index: at for at, index in enumerate(sorted(kept))}
        return tuple(
            replace(every[index], after=tuple(number[other] for other in every[index].after))
            for index in sorted(kept)
        )

    def _of(self, lot: Lot) -> _Left:
        if lot.index not in self.left:
            self.left[lot.index] = self._left(lot)
        return self.left[lot.index]

    def _left(self, lot: Lot) -> _Left:
        components = self._controlled(lot)
        if not components:
            return _Left()
        work, finish = _work(lot), _finish(lot)
        runs: list[_Run] = []
        before: dict[int, None] = {}
        for index, _ in lot.upstream:
            taken = self.lots[index]
            source, last = self._of(taken), _finish(taken)
            runs += [
                self._on(run, _work(taken) if last is None else last, work) for run in source.runs
            ]
            before |= dict.fromkeys(() if source.runs else source.ended)
        care = care_of(self.catalog, components[0], lot.step)
        if care in (Care.HEAT, Care.COOLING):
            ended = [self._add(run, work) for run in runs]
            kills = self.catalog.operations[lot.operation].cooks_through
            return _Left(() if kills else (*before, *ended))
        if before or not runs:
            runs.append(_Run(work, tuple(before), self._minutes(work)))
        if finish is not None and care is Care.COLD:
            first = tuple(self._add(run, work) for run in runs)
            runs = [_Run(finish, first, self._minutes(finish))]
        elif finish is not None:
            runs = [self._on(run, work, finish) for run in runs]
        ended = [self._add(run, work if finish is None else finish) for run in runs]
        warm = any(held_after(one, lot.step) is Holding.AMBIENT for one in components)
        return _Left(tuple(ended), tuple(runs) if warm else ())

    def _controlled(self, lot: Lot) -> list[Component]:
        made = [self.catalog.components[share.component] for share in lot.shares]
        return [component for component in made if component.tcs]

    def _minutes(self, task: int) -> float:
        return max(self.problem.tasks[task].minutes.values(), default=0)

    def _on(self, run: _Run, before: int, after: int) -> _Run:
        """A stretch that goes on to the end of the next task."""
        wait = self.longest.get((before, after))
        most = run.most + (inf if wait is None else wait) + self._minutes(after)
        return replace(run, most=most)

    def _add(self, run: _Run, last: int) -> int:
        """Index of an exposure, new or known."""
        exposure = Exposure(run.first, last, self.limit, run.after)
        if exposure not in self.found:
            self.found[exposure] = len(self.worst)
            self.worst.append(0.0)
        index = self.found[exposure]
        most = run.most + max((self.worst[other] for other in run.after), default=0.0)
        self.worst[index] = max(self.worst[index], most)
        return index


def _work(lot: Lot) -> int:
    return next(item.task for item in lot.tasks if item.part is Part.WORK)


def _finish(lot: Lot) -> int | None:
    return next((item.task for item in lot.tasks if item.part is Part.FINISH), None)
