"""A range of days as files for a spreadsheet: plain numbers, times as HH:MM, English heads."""

from collections.abc import Iterable, Sequence

from planner.clock import clock
from planner.floor.days import DayLabor
from planner.floor.lines import BatchLine
from planner.floor.sums import LaborSum, merged
from planner.labor.variance import Variance
from web.presenters.csv_text import csv_text, plain_text

BATCHES = (
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
    "lead_minutes",
    "grams_in",
    "took_minutes",
    "worked_minutes",
    "changeover_minutes",
    "waiting_minutes",
    "late_minutes",
    "stands",
    "problems",
)
SUMS = (
    "by",
    "name",
    "batches",
    "done",
    "late",
    "planned_minutes",
    "lead_minutes",
    "timed_planned_minutes",
    "timed_took_minutes",
    "worked_minutes",
    "changeover_minutes",
    "waiting_minutes",
    "covers",
    "planned_minutes_per_cover",
    "worked_minutes_per_cover",
    "paid_minutes",
)
VARIANCE = (
    "date",
    "unit",
    "planned",
    "volume",
    "mix",
    "rate",
    "changeover",
    "wage",
    "worked",
    "dish_by_dish_minutes",
)


def batches_csv(days: Sequence[DayLabor]) -> str:
    """Every batch of the range in a row."""
    return csv_text(BATCHES, (_batch(day, line) for day in days for line in day.lines))


def sums_csv(days: Sequence[DayLabor]) -> str:
    """The sums of the page: by day, operation, station, cook and dish."""
    sums = merged([day.sums for day in days])
    covers = sum(day.covers for day in days)
    by_day = (
        _sum(
            "day",
            day.date.isoformat(),
            day.sums.whole,
            day.covers,
            str(sum(cook.minutes for cook in day.paid)),
        )
        for day in days
    )
    by_name = (
        _sum(by, one.name, one, covers, "")
        for by, found in (
            ("operation", sums.operations),
            ("station", sums.stations),
            ("cook", sums.cooks),
            ("dish", sums.dishes),
        )
        for one in found
    )
    return csv_text(SUMS, (*by_day, *by_name))


def variance_csv(days: Sequence[DayLabor]) -> str:
    """Why each day took other minutes, and other wages, than planned: two rows a day."""
    return csv_text(VARIANCE, (row for day in days for row in _why(day)))


def _batch(day: DayLabor, line: BatchLine) -> tuple[object, ...]:
    return (
        day.date.isoformat(),
        day.release,
        plain_text(line.cook_name),
        line.number,
        plain_text(line.operation),
        plain_text(line.food),
        line.part,
        plain_text(line.station),
        plain_text("; ".join(name for name, _ in line.dishes if name)),
        clock(line.start),
        line.planned,
        line.lead,
        f"{line.grams:.0f}",
        _minutes(line.took),
        _minutes(line.worked),
        _minutes(line.changeover),
        _minutes(line.waiting),
        line.late,
        line.stage.value,
        plain_text("; ".join(line.problems)),
    )


def _sum(by: str, name: str, one: LaborSum, covers: int, paid: str) -> tuple[object, ...]:
    found = one.amounts
    return (
        by,
        plain_text(name),
        one.batches,
        one.done,
        one.late,
        found.planned,
        found.leads,
        found.planned_timed,
        _minutes(found.took),
        _minutes(found.worked),
        _minutes(found.changeover),
        _minutes(found.waiting),
        covers,
        f"{found.planned / covers:.3f}" if covers else "",
        f"{found.worked / 60 / covers:.3f}" if covers else "",
        paid,
    )


def _why(day: DayLabor) -> Iterable[tuple[object, ...]]:
    apart = "" if day.dish_by_dish is None else day.dish_by_dish
    yield (day.date.isoformat(), "seconds", *_terms(day.split, 1), apart)
    yield (day.date.isoformat(), day.currency, *_terms(day.money, 100), apart)


def _terms(split: Variance, size: int) -> tuple[object, ...]:
    values = (
        split.plan,
        split.volume,
        split.mix,
        split.rate,
        split.changeover,
        split.wage,
        split.actual,
    )
    return values if size == 1 else tuple(f"{value / size:.2f}" for value in values)


def _minutes(seconds: int | None) -> str:
    return "" if seconds is None else f"{seconds / 60:.2f}"
