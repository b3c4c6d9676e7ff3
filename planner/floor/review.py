"""What a morning took against what was planned, batch by batch, and how each cook's went.

Minutes. A batch was *timed* if its begin and its end were both ticked.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from planner.floor.progress import BatchProgress, Stage, progress_of
from planner.floor.state import Floor
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import CookSheet, KitchenSheet


@dataclass(frozen=True, slots=True)
class BatchReview:
    """One batch, planned and as it went.

    Attributes
    ----------
    planned
        Hands-on minutes, leads apart.
    lead
        Planned minutes of set-up, changeover, hand-washing and cleaning before it.
    took
        Minutes from begin to end, less the break that was planned within; None: not timed.
    late
        Minutes after it had to be ready that it was ticked done; None: nothing is due, or not done.
    """

    batch: SheetBatch
    stage: Stage
    planned: int
    lead: int
    begun: float | None
    done: float | None
    took: float | None
    late: float | None
    problems: tuple[str, ...]

    @property
    def over(self) -> float | None:
        """Minutes more than planned."""
        return None if self.took is None else self.took - self.planned


@dataclass(frozen=True, slots=True)
class CookDay:
    """One cook's morning: at it, between batches, away. Of what was ticked; minutes.

    ``between`` is the time from the first begin to the last end that is neither work nor a planned
    break: changing over and waiting, which ticks cannot tell apart.
    """

    cook: str
    name: str
    first: float | None
    last: float | None
    at_work: float
    between: float
    away: float


def batch_reviews(sheet: KitchenSheet, floor: Floor) -> tuple[BatchReview, ...]:
    """Every batch of the sheet, by cook and in the order of the sheet."""
    return tuple(
        _review(cook, progress) for cook in sheet.cooks for progress in progress_of(cook, floor)
    )


def _review(cook: CookSheet, progress: BatchProgress) -> BatchReview:
    batch = progress.batch
    begun = None if progress.begun is None else progress.begun.at
    done = None if progress.done is None else progress.done.at
    timed = begun is not None and done is not None and progress.begun != progress.done
    took = None
    if timed and begun is not None and done is not None:
        took = max(0.0, done - begun - away_in(cook, begun, done))
    late = None if done is None or batch.due is None else max(0.0, done - batch.due)
    return BatchReview(
        batch=batch,
        stage=progress.stage,
        planned=batch.hands_on,
        lead=batch.set_up + batch.changeover + batch.hand_wash + batch.clean,
        begun=begun,
        done=done,
        took=took,
        late=late,
        problems=progress.problems,
    )


def away_in(cook: CookSheet, start: float, end: float) -> float:
    """Minutes of [start, end) that the cook was planned to be away."""
    return sum(max(0.0, min(end, one.end) - max(start, one.start)) for one in cook.away)


def cook_days(sheet: KitchenSheet, reviews: Iterable[BatchReview]) -> tuple[CookDay, ...]:
    """Each cook's morning as it was ticked, in the order of the sheet."""
    by_cook: dict[str, list[BatchReview]] = defaultdict(list)
    for review in reviews:
        by_cook[review.batch.cook].append(review)
    return tuple(_day(cook, by_cook[cook.cook]) for cook in sheet.cooks)


def _day(cook: CookSheet, reviews: list[BatchReview]) -> CookDay:
    timed = [one for one in reviews if one.took is not None]
    first = min((one.begun for one in timed if one.begun is not None), default=None)
    last = max((one.done for one in timed if one.done is not None), default=None)
    at_work = sum(one.took or 0.0 for one in timed)
    away = 0.0 if first is None or last is None else away_in(cook, first, last)
    whole = 0.0 if first is None or last is None else last - first
    # Batches that overlap, since one was begun before the other was done, are counted twice.
    return CookDay(
        cook.cook, cook.name, first, last, at_work, max(0.0, whole - at_work - away), away
    )
