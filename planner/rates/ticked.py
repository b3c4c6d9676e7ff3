"""From a released sheet and what was ticked of it to batches that rates can be learned from.

*Start* is ticked when a cook turns to a batch, so its set-up lies between the two ticks, and the
changeover before it does not. A kitchen that ticks when the food is first touched says so
(``set_up_ticked``); its set-ups then stay as the file has them.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from planner.floor.review import BatchReview
from planner.kitchen.work import Per
from planner.quantities.kitchenry import Kitchenry
from planner.rates.figures import set_up_figure, slowness_figure, step_figures
from planner.rates.types import Book, Key, LeftOut, Observation
from planner.sheet.batch_types import SheetBatch
from planner.wording import sentence

_TOGETHER = 0.5
"""Minutes: batches that one cook ends within so long of each other were ticked together."""


@dataclass(frozen=True, slots=True)
class LotWork:
    """One lot of a plan: step ``step`` of the route of ``component`` on ``grams_in``."""

    component: str
    step: int
    grams_in: float


@dataclass(frozen=True, slots=True)
class Ticked:
    """What can be learned from, by skill; the figures it speaks of; and what cannot, with why."""

    by_skill: Mapping[str, tuple[Observation, ...]]
    books: Mapping[Key, Book]
    left_out: tuple[LeftOut, ...]


@dataclass
class Gathering:
    """Batches of one day or many, as they are gathered.

    ``per`` are the units that rates are wanted in, by operation, where the files of the days may
    count by others.
    """

    per: Mapping[str, Per] = field(default_factory=dict)
    observations: dict[str, list[Observation]] = field(default_factory=lambda: defaultdict(list))
    books: dict[Key, Book] = field(default_factory=dict)
    left_out: list[LeftOut] = field(default_factory=list)

    def add(
        self,
        kit: Kitchenry,
        lots: Mapping[str, LotWork],
        reviews: Iterable[BatchReview],
        *,
        set_up_ticked: bool = True,
    ) -> None:
        """Add one day's batches, the oldest day first.

        ``lots`` are by id; what cannot be learned from says why.
        """
        timed = [one for one in reviews if one.batch.part == "work"]
        together = _ticked_together(timed)
        for review in timed:
            source = f"{kit.date} {review.batch.cook} {review.batch.number}"
            why = _unusable(review, together)
            found = None if why else self._observation(kit, lots, review, source, set_up_ticked)
            if isinstance(found, Observation):
                self.observations[found.skill].append(found)
            else:
                self.left_out.append(LeftOut(source, why or found or ""))

    def join(self, later: "Gathering") -> None:
        """Add what was gathered of a later day."""
        for skill, found in later.observations.items():
            self.observations[skill].extend(found)
        for key, book in later.books.items():
            self.books.setdefault(key, book)
        self.left_out.extend(later.left_out)

    def ticked(self) -> Ticked:
        """All that was added; of a figure that changed in the meantime, what it was first.

        Ticks count from the figure that was guessed before them: were it the one that was learned
        from them, they would count twice.
        """
        by_skill = {skill: tuple(found) for skill, found in sorted(self.observations.items())}
        return Ticked(by_skill, dict(self.books), tuple(self.left_out))

    def _observation(
        self,
        kit: Kitchenry,
        lots: Mapping[str, LotWork],
        review: BatchReview,
        source: str,
        set_up_ticked: bool,
    ) -> Observation | str:
        """The batch as the learning sees it, or why it is none."""
        batch = review.batch
        operation = kit.catalog.operations.get(batch.operation)
        if operation is None:
            return sentence("the kitchen file has no such operation any more")
        if self.per.get(operation.id, operation.per) is not operation.per:
            return sentence("the kitchen file counts this work by another unit by now")
        slowness = slowness_figure(kit.catalog, batch.cook, operation.skill)
        if slowness is None:
            return sentence("the kitchen file does not say that this cook has the skill")
        done = _work_in(kit, lots, batch)
        if isinstance(done, str):
            return done
        set_up = set_up_figure(operation) if set_up_ticked and batch.set_up > 0 else None
        if done.rate is None and set_up is None and done.fixed <= 0:
            return sentence("the kitchen file says that it takes no time")
        for book in (slowness, set_up, done.rate):
            if book is not None:
                self.books.setdefault(book.key, book)
        return Observation(
            skill=operation.skill,
            cook=slowness.key,
            rate=None if done.rate is None else done.rate.key,
            set_up=None if set_up is None else set_up.key,
            units=done.units,
            minutes=review.took or 0.0,
            fixed=done.fixed,
            source=source,
        )


@dataclass(frozen=True, slots=True)
class _Work:
    """What a batch's minutes follow from: units of one rate, and fixed minutes."""

    rate: Book | None
    units: float
    fixed: float


def _work_in(kit: Kitchenry, lots: Mapping[str, LotWork], batch: SheetBatch) -> _Work | str:
    """All lots of a batch together, or why they cannot be told."""
    rates: dict[Key, Book] = {}
    units = fixed = 0.0
    for lot in dict.fromkeys(task.lot for task in batch.tasks):
        work = lots.get(lot)
        component = None if work is None else kit.catalog.components.get(work.component)
        if work is None or component is None or work.step >= len(component.route):
            return sentence("the kitchen file has no such food or step any more")
        step = step_figures(kit, component, work.step)
        if step.operation.id != batch.operation:
            return sentence("the kitchen file has another operation at this step by now")
        units += work.grams_in * step.units_per_gram + step.units_per_lot
        fixed += step.fixed_per_lot
        if step.rate is not None:
            rates[step.rate.key] = step.rate
    if len(rates) > 1:
        return sentence("its lots have rates of their own, and were timed as one")
    return _Work(next(iter(rates.values()), None), units, fixed)


def _unusable(review: BatchReview, together: frozenset[tuple[str, int]]) -> str:
    """Why ticks of a batch tell no minutes, or nothing."""
    if review.took is None:
        return sentence("its begin or its end was not ticked")
    if (review.batch.cook, review.batch.number) in together:
        return sentence("it was ticked together with other batches of this cook")
    # What went wrong and took long is the more to be planned for; what was quick is no good news.
    if review.problems and review.took < review.planned + review.batch.set_up:
        return sentence("something was wrong with it, and it was quick: perhaps less was made")
    return ""


def _ticked_together(reviews: list[BatchReview]) -> frozenset[tuple[str, int]]:
    """Batches of one cook that ended all but at once: what each took cannot be told apart."""
    by_cook: dict[str, list[tuple[float, int]]] = defaultdict(list)
    for one in reviews:
        if one.done is not None and one.took is not None:
            by_cook[one.batch.cook].append((one.done, one.batch.number))
    found: set[tuple[str, int]] = set()
    for cook, ends in by_cook.items():
        for (done, number), (later, other) in pairwise(sorted(ends)):
            if later - done <= _TOGETHER:
                found |= {(cook, number), (cook, other)}
    return frozenset(found)
