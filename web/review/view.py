"""A day's review in words and numbers, as tables that a page and a file of commas both show."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from planner.floor.progress import Stage
from planner.floor.review import BatchReview, CookDay, Sum, batch_reviews, cook_days, sums_by
from planner.floor.state import Floor
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import KitchenSheet
from web.presenters.clock import clock
from web.presenters.counting import counted
from web.presenters.preferences import Preferences
from web.presenters.typography import MINUS

NONE = "not ticked"
_STAGES = {Stage.TO_DO: "not begun", Stage.UNDER_WAY: "under way", Stage.DONE: "done"}


@dataclass(frozen=True, slots=True)
class Table:
    """A table: its name in addresses, its caption, heads, and rows of cells.

    The first cell heads its row; columns in ``numbers`` are numbers.
    """

    id: str
    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: frozenset[int]
    note: str = ""


@dataclass(frozen=True, slots=True)
class ReviewView:
    """The whole page: what stands first, and its tables."""

    facts: tuple[tuple[str, str], ...]
    problems: tuple[str, ...]
    tables: tuple[Table, ...]


def review_view(sheet: KitchenSheet, floor: Floor, preferences: Preferences) -> ReviewView:
    """What a day took so far against its plan."""
    reviews = batch_reviews(sheet, floor)
    return ReviewView(
        facts=_facts(sheet, reviews),
        problems=tuple(
            f"{_what(review.batch)}, {review.batch.cook_name}: {problem}"
            for review in reviews
            for problem in review.problems
        ),
        tables=tuple(_tables(sheet, reviews, preferences)),
    )


def _facts(sheet: KitchenSheet, reviews: Sequence[BatchReview]) -> tuple[tuple[str, str], ...]:
    done = sum(review.stage is Stage.DONE for review in reviews)
    timed = [review for review in reviews if review.took is not None]
    planned = sum(review.planned for review in timed)
    took = sum(review.took or 0.0 for review in timed)
    covers = sum(service.covers for service in sheet.services)
    found = [
        ("Done", f"{done} of {counted(len(reviews), 'batch', 'batches')}"),
        ("Timed", counted(len(timed), "batch", "batches")),
    ]
    if timed:
        found.append(("Planned for those", f"{planned} min"))
        found.append(("They took", f"{took:.0f} min ({_signed(took - planned)})"))
    late = sum(1 for review in reviews if review.late is not None and review.late >= 1)
    found.append(("Ready late", counted(late, "batch", "batches")))
    if covers:
        found.append(("Planned per cover", f"{sheet.labor_minutes / covers:.1f} min"))
    return tuple(found)


def _tables(
    sheet: KitchenSheet, reviews: Sequence[BatchReview], preferences: Preferences
) -> list[Table]:
    left = [review for review in reviews if review.stage is not Stage.DONE]
    tables = [
        _cooks(cook_days(sheet, reviews), preferences),
        _sums("operations", "By operation", reviews, lambda batch: (batch.operation_name,)),
        _sums("stations", "By station", reviews, lambda batch: (batch.station,)),
        _sums("cooks", "By cook", reviews, lambda batch: (batch.cook_name,)),
        _sums(
            "dishes",
            "By dish",
            reviews,
            lambda batch: batch.dishes or ("No dish of these days",),
            "A batch for several dishes counts for each with an equal share of its minutes.",
        ),
    ]
    if left:
        tables.append(_left(left, preferences))
    tables.append(_batches(reviews, preferences))
    return tables


def _sums(
    name: str,
    caption: str,
    reviews: Sequence[BatchReview],
    names: Callable[[SheetBatch], tuple[str, ...]],
    note: str = "",
) -> Table:
    return Table(
        id=name,
        caption=caption,
        heads=(
            caption.removeprefix("By ").capitalize(),
            "Batches",
            "Done",
            "Planned, min",
            "Leads, min",
            "Timed: planned",
            "Timed: took",
            "Over",
        ),
        rows=tuple(_sum(one) for one in sums_by(reviews, names)),
        numbers=frozenset(range(1, 8)),
        note=note,
    )


def _sum(one: Sum) -> tuple[str, ...]:
    timed = one.took > 0
    return (
        one.name,
        str(one.batches),
        str(one.done),
        f"{one.planned:.0f}",
        f"{one.lead:.0f}",
        f"{one.planned_timed:.0f}" if timed else "",
        f"{one.took:.0f}" if timed else "",
        _signed(one.over) if timed else "",
    )


def _cooks(days: Sequence[CookDay], preferences: Preferences) -> Table:
    return Table(
        id="mornings",
        caption="Each cook's morning, as ticked",
        heads=("Cook", "First begun", "Last done", "At work, min", "Between, min", "Away, min"),
        rows=tuple(
            (
                day.name,
                _moment(day.first, preferences),
                _moment(day.last, preferences),
                f"{day.at_work:.0f}",
                f"{day.between:.0f}",
                f"{day.away:.0f}",
            )
            for day in days
        ),
        numbers=frozenset(range(1, 6)),
        note="Between batches: changing over and waiting, which ticks cannot tell apart.",
    )


def _left(left: Sequence[BatchReview], preferences: Preferences) -> Table:
    return Table(
        id="left",
        caption="Not done",
        heads=("Batch", "Cook", "Planned", "Stands", "What was said"),
        rows=tuple(
            (
                _what(review.batch),
                review.batch.cook_name,
                str(clock(review.batch.start, preferences)),
                _STAGES[review.stage],
                "; ".join(review.problems) or "nothing",
            )
            for review in left
        ),
        numbers=frozenset({2}),
    )


def _batches(reviews: Sequence[BatchReview], preferences: Preferences) -> Table:
    return Table(
        id="batches",
        caption="Every batch",
        heads=(
            "Batch",
            "Cook",
            "Station",
            "Planned start",
            "Planned, min",
            "Leads, min",
            "Begun",
            "Done",
            "Took, min",
            "Over, min",
            "Late, min",
        ),
        rows=tuple(_batch(review, preferences) for review in reviews),
        numbers=frozenset(range(3, 11)),
    )


def _batch(review: BatchReview, preferences: Preferences) -> tuple[str, ...]:
    batch = review.batch
    return (
        _what(batch),
        batch.cook_name,
        batch.station,
        str(clock(batch.start, preferences)),
        str(review.planned),
        str(review.lead),
        _moment(review.begun, preferences),
        _moment(review.done, preferences),
        "" if review.took is None else f"{review.took:.1f}",
        "" if review.over is None else _signed(review.over, 1),
        "" if not review.late else f"{review.late:.0f}",
    )


def _what(batch: SheetBatch) -> str:
    part = "" if batch.part == "work" else f" ({batch.part})"
    return f"{batch.operation_name} {batch.food_name}{part}"


def _moment(minutes: float | None, preferences: Preferences) -> str:
    return NONE if minutes is None else str(clock(int(minutes), preferences))


def _signed(minutes: float, digits: int = 0) -> str:
    rounded = round(minutes, digits)
    sign = "+" if rounded > 0 else MINUS if rounded < 0 else ""
    return f"{sign}{abs(rounded):.{digits}f}"
