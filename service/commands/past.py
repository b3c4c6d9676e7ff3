"""Invented past days for the demo: planned, released and ticked, as if cooks had worked them.

Everything here is made up, with a seed, so that the manager's pages have something to show.
"""

import datetime as dt
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any
from zoneinfo import ZoneInfo

from planner.floor.ticks import Act
from planner.kitchen.dates import moved_to
from planner.kitchen.document import Kitchen
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import CookSheet, KitchenSheet
from service.app import Program
from service.commands.invented_sales import BUSY
from service.documents import kitchen_bytes
from service.floor_values import MOST_TICKS, TicksSent
from service.sales_values import INVENTED_BY
from service.usecases.floor import release_plan
from service.usecases.history import INVENTED
from service.usecases.kitchens import store_kitchen
from service.usecases.plans import request_plan
from service.usecases.released import ReleasedPlans
from service.usecases.running import run_plan
from service.usecases.ticking import take_ticks
from service.values import PlanChoices

_BANQUETS = frozenset({2, 4, 5})
"""Weekdays with the guaranteed party, Monday 0."""
_REASONS = (
    "Too little food",
    "Delivery is not here",
    "Equipment fails",
    "Will not be done in time",
)


@dataclass(frozen=True, slots=True)
class _Odds:
    """How often what happens: of batches."""

    left: float = 0.012
    untimed: float = 0.06
    reported: float = 0.025


def add_past(program: Program, bundled: Kitchen, today: dt.date, days: int) -> str:
    """Store ``days`` days before ``today`` as if they had been worked; return the kitchen's slug.

    Each is planned by the constructive rules alone. A day with a release stays as it is.

    Raises
    ------
    service.solving.SolveError
        A day cannot be planned.
    """
    slug = ""
    for back in range(days, 0, -1):
        slug = _add_day(program, _busy(moved_to(bundled, today - dt.timedelta(back))))
    return slug


def _busy(kitchen: Kitchen) -> Kitchen:
    """The kitchen with as many guests as its weekday brings, give or take."""
    weekday = kitchen.as_of.weekday()
    chance = random.Random(f"covers {kitchen.as_of}")  # noqa: S311 - invented figures
    factor = BUSY[weekday] * chance.uniform(0.93, 1.07)
    services = tuple(
        one
        if one.guaranteed
        else one.model_copy(update={"covers": max(1, round(one.covers * factor))})
        for one in kitchen.services
        if not one.guaranteed or weekday in _BANQUETS
    )
    return kitchen.model_copy(update={"services": services})


def _add_day(program: Program, kitchen: Kitchen) -> str:
    date, zone = kitchen.as_of, ZoneInfo(kitchen.time_zone)
    evening = dt.datetime.combine(date, dt.time(23, 59), zone).astimezone(dt.UTC)

    def now() -> dt.datetime:
        return evening

    stored = store_kitchen(program.database, kitchen_bytes(kitchen), actor=INVENTED_BY, now=now)
    slug = stored.kitchen.slug
    with program.database.reading() as unit:
        if unit.floor.release(slug, date) is not None:
            return slug
    choices = PlanChoices(seconds=0, seed=program.settings.seed, workers=1)
    plan = request_plan(program.database, slug, date, choices, actor=INVENTED_BY, now=now)
    solved = run_plan(replace(program.tools, now=now), plan.id)
    release_plan(program.database, plan.id, actor=INVENTED_BY, now=now)
    ticks = list(_ticks(solved.made.sheet, zone))
    for start in range(0, len(ticks), MOST_TICKS):
        sent = TicksSent(
            device=INVENTED, sent_at=evening, ticks=tuple(ticks[start : start + MOST_TICKS])
        )
        take_ticks(
            program.database,
            ReleasedPlans(program.database),
            slug,
            date,
            sent,
            actor=INVENTED_BY,
            now=now,
        )
    return slug


def _ticks(sheet: KitchenSheet, zone: ZoneInfo) -> Iterator[dict[str, Any]]:
    chance = random.Random(f"ticks {sheet.date}")  # noqa: S311 - invented figures
    for cook in sheet.cooks:
        # Who is quick is so every day; an operation that is planned too short is so for all.
        pace = random.Random(f"pace {cook.cook}").uniform(0.92, 1.12)  # noqa: S311
        yield from _of_cook(cook, sheet.date, zone, pace, chance)


def _of_cook(
    cook: CookSheet, date: dt.date, zone: ZoneInfo, pace: float, chance: random.Random
) -> Iterator[dict[str, Any]]:
    odds = _Odds()
    free = 0.0
    for batch in cook.batches:
        if chance.random() < odds.left:
            continue
        gap = (batch.start - batch.work_start) * -chance.lognormvariate(-0.02, 0.3)
        begun = max(batch.start + max(0.0, gap), free + max(0.2, gap))
        rule = random.Random(f"rule {batch.operation}").uniform(0.9, 1.2)  # noqa: S311
        took = batch.hands_on * pace * rule * chance.lognormvariate(0.0, 0.15)
        begun, done = _around_breaks(cook, begun, took)
        free = done
        if chance.random() < odds.reported:
            reason = chance.choice(_REASONS)
            yield _tick(batch, Act.PROBLEM, (begun + done) / 2, date, zone, reason)
        if chance.random() >= odds.untimed:
            yield _tick(batch, Act.BEGUN, begun, date, zone)
        yield _tick(batch, Act.DONE, done, date, zone)


def _around_breaks(cook: CookSheet, begun: float, took: float) -> tuple[float, float]:
    """Begin and end, later by what falls into a break or the line."""
    done = begun + took
    for away in sorted(cook.away, key=lambda one: one.start):
        if away.start <= begun < away.end:
            begun, done = away.end, away.end + took
        elif begun < away.start < done:
            done += away.end - away.start
    return begun, done


def _tick(
    batch: SheetBatch, act: Act, at: float, date: dt.date, zone: ZoneInfo, reason: str = ""
) -> dict[str, Any]:
    # The last of a night are said no later than the moment at which all are sent.
    wall = dt.datetime.combine(date, dt.time()) + dt.timedelta(minutes=min(at, 24 * 60 - 2))
    return {
        "key": f"{act.value}-{date:%Y%m%d}-{batch.number}".replace(" ", "-"),
        "release": 1,
        "act": act.value,
        "at": wall.replace(tzinfo=zone).isoformat(),
        "cook": batch.cook,
        "tasks": _ids(batch),
        "reason": reason,
    }


def _ids(batch: SheetBatch) -> Sequence[str]:
    return [task.id for task in batch.tasks]
