"""What is kept of a day for the manager: its batches, what was paid, why the minutes differ."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.floor.lines import BatchLine, batch_lines
from planner.floor.progress import Stage
from planner.floor.state import Floor
from planner.labor.variance import Variance, Work, in_money, variance
from planner.sheet.types import KitchenSheet

_Kind = tuple[str, str, str]
"""Operation, food, part: batches of one kind have one rate."""


@dataclass(frozen=True, slots=True)
class CookPaid:
    """Minutes a cook is paid for by the plan, and wages for them."""

    name: str
    minutes: int
    wages: float


@dataclass(frozen=True, slots=True)
class DayLabor:
    """One day, planned and as it went.

    Attributes
    ----------
    release
        Number of the release whose ticks these are.
    covers
        Guests of the services of the day itself.
    lines
        Its batches, by cook.
    paid
        By cook, as planned: no clock is punched here.
    split, money
        From the day's first plan that was worked from to what happened: seconds; hundredths of
        ``currency``.
    planned
        Minutes of all work by that plan, changing over included.
    dish_by_dish
        Minutes of the same food made dish by dish; None: not known, or not of the same food.
    """

    date: dt.date
    release: int
    covers: int
    currency: str
    lines: tuple[BatchLine, ...]
    paid: tuple[CookPaid, ...]
    split: Variance
    money: Variance
    planned: int
    dish_by_dish: int | None


def day_labor(planned: KitchenSheet, worked: KitchenSheet, floor: Floor, release: int) -> DayLabor:
    """Sum a day up.

    Parameters
    ----------
    planned
        The plan that the day began with.
    worked
        The day's newest plan, which goes on with its work; often the same.
    floor
        What was ticked of both.
    release
        Number of the newest plan's release.
    """
    before = batch_lines(planned, Floor())
    lines = batch_lines(worked, floor)
    split = variance(
        _works(before, lines),
        planned_leads=sum(line.lead for line in before) * 60,
        leads=sum(line.lead_worked for line in lines),
    )
    wages = _wages(planned) | _wages(worked)
    return DayLabor(
        date=worked.date,
        release=release,
        covers=sum(one.covers for one in worked.services if one.date == worked.date),
        currency=worked.currency,
        lines=lines,
        paid=tuple(CookPaid(row[0], row[5], row[6]) for row in worked.labor),
        split=split,
        money=in_money(
            split,
            planned_cents=_cents(
                [(line.cook_name, (line.planned + line.lead) * 60) for line in before], wages
            ),
            actual_cents=_cents(
                [(line.cook_name, line.worked + line.lead_worked) for line in lines], wages
            ),
        ),
        planned=sum(line.planned + line.lead for line in before),
        dish_by_dish=(
            planned.dish_by_dish_minutes
            if planned.comparable and planned.dish_by_dish_minutes > 0
            else None
        ),
    )


def _works(before: Sequence[BatchLine], lines: Sequence[BatchLine]) -> list[Work]:
    plan: dict[_Kind, list[BatchLine]] = defaultdict(list)
    went: dict[_Kind, list[BatchLine]] = defaultdict(list)
    for line in before:
        plan[_kind(line)].append(line)
    for line in lines:
        if line.stage is not Stage.TO_DO:
            went[_kind(line)].append(line)
    return [
        Work(
            planned_grams=sum(line.grams for line in plan[kind]),
            planned_seconds=sum(line.planned for line in plan[kind]) * 60,
            made_grams=sum(line.grams for line in went[kind]),
            standard_seconds=sum(line.planned for line in went[kind]) * 60,
            took_seconds=sum(line.worked for line in went[kind]),
        )
        for kind in sorted({*plan, *went})
    ]


def _kind(line: BatchLine) -> _Kind:
    return line.operation, line.food, line.part


def _wages(sheet: KitchenSheet) -> dict[str, float]:
    """Wage per second by cook, as far as the plan pays them."""
    return {row[0]: row[6] / row[5] / 60 for row in sheet.labor if row[5] > 0}


def _cents(work: Sequence[tuple[str, int]], wages: Mapping[str, float]) -> int:
    """Hundredths of the currency for seconds of work by cook."""
    seconds: dict[str, int] = defaultdict(int)
    for cook, one in work:
        seconds[cook] += one
    return round(100 * sum(wages.get(cook, 0.0) * one for cook, one in seconds.items()))
