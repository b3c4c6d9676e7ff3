"""One kitchen's season, planned one way: every day planned, worked, told, served and learned."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from planner.floor.state import floor_of
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.quantities.compute import kitchenry
from planner.sheet.build import build_sheet
from tests.bench.learning.clocked import clock
from tests.bench.learning.cooked import cook, needed
from tests.bench.learning.house import FIRST_DAY, FLAT, house, on
from tests.bench.learning.learners import RateLearner, SalesLearner, Weights, YieldLearner
from tests.bench.learning.planned import due_of, ends_of, food_of, morning_of, ready_at
from tests.bench.learning.shelf import Shelf
from tests.bench.learning.told import SLIPS, Slips, told
from tests.bench.learning.truth import WORLD, Spreads, truth_of


@dataclass(frozen=True, slots=True)
class Arm:
    """A way to plan.

    Attributes
    ----------
    flat
        Share on top of what is expected, as long as nothing is forecast.
    yields, rates, sales
        What is learned.
    pull_level
        The kitchen's level of caution with its own yields.
    level
        Chance of enough that is planned for once there are forecasts.
    tells_out
        Whether the history says that a dish ran out.
    timed
        Whether who does what when is planned and worked; else food alone.
    """

    name: str
    flat: float = FLAT
    yields: bool = False
    rates: bool = False
    sales: bool = False
    pull_level: float = 0.5
    level: float = 0.9
    tells_out: bool = True
    timed: bool = True


@dataclass(frozen=True, slots=True)
class DayResult:
    """One day. Grams as purchased where not said otherwise; minutes.

    Attributes
    ----------
    pulled, needed, off
        Raw food taken, what would just have been enough, and what the two differ by, by ingredient.
    ran_out
        Components of which the service ran out; ``away`` orders turned away of ``wanted``.
    eaten, wasted, kept
        Raw food in what was eaten, thrown away and is left for tomorrow.
    late, planned_late
        After it is due, as it went and by the plan.
    early
        Hours that the cooks came earlier than usual.
    """

    day: int
    pulled: float
    needed: float
    off: float
    ran_out: int
    away: int
    wanted: int
    eaten: float
    wasted: float
    kept: float
    late: float = 0.0
    planned_late: float = 0.0
    early: int = 0


@dataclass(frozen=True, slots=True)
class Season:
    """All days of one kitchen planned one way."""

    arm: str
    seed: int
    days: tuple[DayResult, ...]
    weights: Weights = Weights()


def season(
    arm: Arm, seed: int, days: int, spreads: Spreads = WORLD, slips: Slips = SLIPS
) -> Season:
    """Run one. The same arm and seed give the same days."""
    start = house()
    truth = truth_of(start, seed, spreads)
    rules = start.rules.model_copy(update={"pull_level": arm.pull_level})
    kitchen = start.model_copy(update={"rules": rules})
    book = kitchenry(start, FIRST_DAY)
    dishes = _dishes(start)
    yields, rates, sales = YieldLearner(seed), RateLearner(), SalesLearner(seed, arm.level, arm.tells_out)
    shelf = Shelf()
    found: list[DayResult] = []
    for day in range(days):
        today = FIRST_DAY + dt.timedelta(day)
        if arm.yields:
            kitchen = yields.look(kitchen, today)
        if arm.rates:
            kitchen = rates.look(kitchen, today)
        morning = _with_flat(on(kitchen, today), arm.flat)
        if arm.sales:
            morning = sales.look(morning, today)
        morning = morning.model_copy(update={"prepared": shelf.counted()})
        there = {name: shelf.grams(name) for name in {one.component for one in shelf.held}}
        guests, orders = truth.orders(day, today.weekday())
        minutes: dict[str, float] = {}
        if arm.timed:
            planned, plan, early = morning_of(morning, today)
            kit = kitchenry(planned, today)
            lots, pulls = plan.workload.lots, plan.quantities.pulls
            cooked = cook(kit.catalog, truth, day, lots, pulls, shelf, today)
            clocked = clock(book, truth, day, plan, cooked)
            due = due_of(plan.workload)
            minutes = {
                "late": max(0.0, ready_at(plan.workload, dict(clocked.ends)) - due - 0.5),
                "planned_late": max(0.0, ready_at(plan.workload, ends_of(plan)) - due),
                "early": early,
            }
            if arm.yields or arm.rates:
                sheet = build_sheet(planned, plan)
                said = told(
                    sheet, {lot.id: lot for lot in lots}, truth, day, cooked, clocked, slips
                )
                floor = floor_of(said.ticks)
                if arm.yields:
                    yields.hear(kit.catalog, sheet, floor, said.wrong)
                if arm.rates:
                    rates.hear(kit, plan, sheet, floor)
        else:
            kit, _, quantities, workload = food_of(morning, today)
            cooked = cook(
                kit.catalog, truth, day, workload.lots, quantities.pulls, shelf, today
            )
        served, eaten = shelf.serve(orders, dishes)
        _, wasted = shelf.clear(today)
        if arm.sales:
            sales.hear(today, guests, served)
        need = needed(kit.catalog, truth, day, _wanted(orders, dishes), there)
        found.append(
            DayResult(
                day=day,
                pulled=sum(cooked.pulled.values()),
                needed=sum(need.values()),
                off=sum(
                    abs(cooked.pulled.get(item, 0.0) - need.get(item, 0.0))
                    for item in {*cooked.pulled, *need}
                ),
                ran_out=len(served.ran_out),
                away=served.turned_away,
                wanted=len(orders),
                eaten=eaten,
                wasted=wasted,
                kept=sum(one.grams * one.raw for one in shelf.held),
                **minutes,
            )
        )
    return Season(arm.name, seed, tuple(found), yields.weights)


def _with_flat(kitchen: Kitchen, flat: float) -> Kitchen:
    (service,) = kitchen.services
    return kitchen.model_copy(
        update={"services": (service.model_copy(update={"buffer_fraction": flat}),)}
    )


def _dishes(kitchen: Kitchen) -> dict[str, dict[str, float]]:
    converter = kitchenry(kitchen, FIRST_DAY).converter
    return {
        dish.id: {
            portion.item: converter.grams(portion.item, portion.amount)
            for portion in dish.components
        }
        for dish in Catalog(kitchen).dishes.values()
    }


def _wanted(
    orders: tuple[str, ...], dishes: Mapping[str, Mapping[str, float]]
) -> dict[str, float]:
    found: dict[str, float] = defaultdict(float)
    for dish in orders:
        for item, grams in dishes[dish].items():
            found[item] += grams
    return dict(found)
