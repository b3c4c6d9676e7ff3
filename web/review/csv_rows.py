"""A day's batches as rows of a CSV file, for a spreadsheet: plain numbers, times as HH:MM."""

from planner.clock import clock
from planner.floor.review import BatchReview, batch_reviews
from planner.floor.state import Floor
from planner.sheet.types import KitchenSheet
from web.presenters.csv_text import csv_text, plain_text

HEADS = (
    "date",
    "release",
    "cook",
    "batch",
    "operation",
    "food",
    "part",
    "station",
    "dishes",
    "planned_start",
    "planned_minutes",
    "set_up_minutes",
    "changeover_minutes",
    "hand_wash_minutes",
    "clean_minutes",
    "begun",
    "done",
    "took_minutes",
    "over_minutes",
    "late_minutes",
    "stands",
    "problems",
)


def review_csv(sheet: KitchenSheet, floor: Floor, release: int) -> str:
    """Every batch of a day, planned and as it went."""
    date = sheet.date.isoformat()
    return csv_text(HEADS, ((date, release, *_row(one)) for one in batch_reviews(sheet, floor)))


def _row(review: BatchReview) -> tuple[object, ...]:
    batch = review.batch
    return (
        plain_text(batch.cook_name),
        batch.number,
        plain_text(batch.operation_name),
        plain_text(batch.food_name),
        batch.part,
        plain_text(batch.station),
        plain_text("; ".join(batch.dishes)),
        clock(batch.start),
        review.planned,
        batch.set_up,
        batch.changeover,
        batch.hand_wash,
        batch.clean,
        _moment(review.begun),
        _moment(review.done),
        _number(review.took),
        _number(review.over),
        _number(review.late),
        review.stage.value,
        plain_text("; ".join(review.problems)),
    )


def _moment(minutes: float | None) -> str:
    return "" if minutes is None else clock(int(minutes))


def _number(minutes: float | None) -> str:
    return "" if minutes is None else f"{minutes:.1f}"
