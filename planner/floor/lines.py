"""Each batch of a day as a line that is small enough to keep for weeks: planned, and as it went.

Planned minutes are whole; what was ticked is in whole seconds.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from planner.floor.progress import Stage
from planner.floor.review import BatchReview, away_in, batch_reviews
from planner.floor.state import Floor
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import CookSheet, KitchenSheet

_TOO_QUICK = 0.1
"""Of its planned minutes: what took less was ticked afterwards, not timed. Starting guess."""


@dataclass(frozen=True, slots=True)
class BatchLine:
    """One batch of a day.

    Attributes
    ----------
    dishes
        (dish, grams) that it is for; an empty name is the kitchen's own stock.
    start, due
        Minutes after midnight of the planned day.
    planned, lead
        Minutes of hands-on work; of set-up, changeover, hand-washing and cleaning before it.
    grams
        Grams that go in.
    took
        Seconds from begin to end, less a planned break within; None: not timed.
    changeover, waiting
        Seconds between the cook's batch before and this one; None: not known.
    late
        Whole minutes after it had to be ready.
    """

    cook: str
    cook_name: str
    number: int
    operation: str
    food: str
    part: str
    station: str
    dishes: tuple[tuple[str, float], ...]
    start: int
    due: int | None
    planned: int
    lead: int
    grams: float
    stage: Stage
    took: int | None
    changeover: int | None
    waiting: int | None
    late: int
    problems: tuple[str, ...]

    @property
    def assumed(self) -> bool:
        """Whether it was worked on and not timed, so that its planned minutes have to do."""
        return self.took is None and self.stage is not Stage.TO_DO

    @property
    def worked(self) -> int:
        """Seconds of work: as ticked; as planned, where it was worked on and not timed."""
        if self.took is not None:
            return self.took
        return self.planned * 60 if self.assumed else 0

    @property
    def lead_worked(self) -> int:
        """Seconds of changing over before it; as planned, where it was worked on and not known."""
        if self.changeover is not None:
            return self.changeover
        return 0 if self.stage is Stage.TO_DO else self.lead * 60


def batch_lines(sheet: KitchenSheet, floor: Floor) -> tuple[BatchLine, ...]:
    """Every batch of the sheet, by cook and in the order of the sheet."""
    reviews = batch_reviews(sheet, floor)
    by_cook: dict[str, list[BatchReview]] = defaultdict(list)
    for review in reviews:
        by_cook[review.batch.cook].append(review)
    gaps: dict[int, tuple[float, float]] = {}
    for cook in sheet.cooks:
        gaps |= _gaps(cook, by_cook[cook.cook])
    return tuple(_line(review, gaps.get(review.batch.number)) for review in reviews)


def _gaps(cook: CookSheet, reviews: Iterable[BatchReview]) -> dict[int, tuple[float, float]]:
    """Minutes of (changing over, waiting) before each batch that was begun after another's end.

    Ticks tell the two apart only with the plan's help: what lies before the batch was planned to be
    set about is waiting, though not where so much would be left that changing over had less than
    its planned minutes; all other time between is changing over.
    """
    worked = sorted(
        (one for one in reviews if one.begun is not None),
        key=lambda one: (one.begun, one.done or 0),
    )
    found: dict[int, tuple[float, float]] = {}
    free: float | None = None
    for one in worked:
        if one.begun is None or one.done is None or not is_timed(one):
            # Nobody knows when it was worked on, so neither what lay before nor what after it.
            free = None
            continue
        if free is not None:
            gap = max(0.0, one.begun - free - away_in(cook, free, one.begun))
            early = max(0.0, min(gap, one.batch.start - free))
            changeover = max(gap - early, min(gap, float(one.lead)))
            found[one.batch.number] = changeover, gap - changeover
        free = one.done if free is None else max(free, one.done)
    return found


def is_timed(review: BatchReview) -> bool:
    """Whether its ticks tell what it took: not those that were made afterwards, at once."""
    return review.took is not None and review.took >= _TOO_QUICK * review.planned


def _line(review: BatchReview, gap: tuple[float, float] | None) -> BatchLine:
    batch = review.batch
    return BatchLine(
        cook=batch.cook,
        cook_name=batch.cook_name,
        number=batch.number,
        operation=batch.operation_name,
        food=batch.food_name,
        part=batch.part,
        station=batch.station,
        dishes=_dishes(batch),
        start=batch.start,
        due=batch.due,
        planned=review.planned,
        lead=review.lead,
        grams=batch.grams_in,
        stage=review.stage,
        took=round(review.took * 60) if review.took is not None and is_timed(review) else None,
        changeover=None if gap is None else round(gap[0] * 60),
        waiting=None if gap is None else round(gap[1] * 60),
        late=0 if review.late is None else int(review.late),
        problems=review.problems,
    )


def _dishes(batch: SheetBatch) -> tuple[tuple[str, float], ...]:
    """Grams by dish, its services together; equal ones on a sheet that does not say."""
    grams: dict[str, float] = defaultdict(float)
    for share in batch.dish_shares:
        grams[share.dish] += share.grams
    if not grams:
        for shown in batch.dishes or ("",):
            grams[shown.rpartition(" (")[0] or shown] += 1.0
    return tuple(grams.items())
