"""One kitchen's season, planned one way: every day planned, worked, told, served and learned."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.floor.state import floor_of
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.quantities.compute import kitchenry
from planner.quantities.kitchenry import Kitchenry
from planner.sheet.build import build_sheet
from tests.bench.learning.clocked import clock
from tests.bench.learning.cooked import Cooked, cook, needed
from tests.bench.learning.house import FIRST_DAY, FLAT, house, on
from tests.bench.learning.learners import RateLearner, SalesLearner, Weights, YieldLearner
from tests.bench.learning.planned import due_of, ends_of, food_of, morning_of, ready_at
from tests.bench.learning.shelf import Shelf
from tests.bench.learning.told import SLIPS, Slips, told
from tests.bench.learning.truth import WORLD, Spreads, Truth, truth_of

_ROUNDING = 0.5
"""Minutes: what is planned to the minute is not late by a fraction."""


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
        Chance of enough that is planned for once there are forecasts; ``kept_level``, of food that
        keeps.
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
    kept_level: float | None = None
    tells_out: bool = True
    timed: bool = True


@dataclass(frozen=True, slots=True)
class DayResult:
    """One day. Grams as purchased where not said otherwise.

    Attributes
    ----------
    pulled, needed, off
        Raw food taken, what would just have been enough, and what the two differ by, by ingredient.
    planned, otherwise
        Finished food as planned, and by how much it came out more or less; grams as served.
    ran_out
        Components of which the service ran out; ``away`` orders turned away of ``wanted``.
    eaten, wasted, kept
        Raw food in what was eaten, thrown away and is left for tomorrow.
    """

    day: int
    pulled: float
    needed: float
    off: float
    planned: float
    otherwise: float
    ran_out: int
    away: int
    wanted: int
    eaten: float
    wasted: float
    kept: float
    minutes: "Minutes"


@dataclass(frozen=True, slots=True)
class Minutes:
    """A morning's clock.

    Attributes
    ----------
    late, planned_late
        Minutes after it is due that all is ready, as it went and by the plan.
    early
        Hours that the cooks came earlier than usual.
    """

    late: float = 0.0
    planned_late: float = 0.0
    early: int = 0


@dataclass(frozen=True, slots=True)
class Season:
    """All days of one kitchen planned one way."""

    arm: str
    seed: int
    days: tuple[DayResult, ...]
    weights: Weights
    timed: bool


def season(
    arm: Arm, seed: int, days: int, spreads: Spreads = WORLD, slips: Slips = SLIPS
) -> Season:
    """Run one. The same arm and seed give the same days."""
    start = house()
    rules = start.rules.model_copy(
        update={"pull_level": arm.pull_level, "kept_level": arm.kept_level}
    )
    running = _Running(
        arm=arm,
        truth=truth_of(start, seed, spreads),
        slips=slips,
        book=kitchenry(start, FIRST_DAY),
        kitchen=start.model_copy(update={"rules": rules}),
        dishes=_dishes(start),
        yields=YieldLearner(seed),
        rates=RateLearner(),
        sales=SalesLearner(seed, arm.level, arm.tells_out),
    )
    found = tuple(running.day(day) for day in range(days))
    return Season(arm.name, seed, found, running.yields.weights, arm.timed)


@dataclass
class _Running:
    """A season under way: the file by now, what was learned, what is on the shelf."""

    arm: Arm
    truth: Truth
    slips: Slips
    book: Kitchenry
    kitchen: Kitchen
    dishes: Mapping[str, Mapping[str, float]]
    yields: YieldLearner
    rates: RateLearner
    sales: SalesLearner
    shelf: Shelf = field(default_factory=Shelf)

    def day(self, day: int) -> DayResult:
        """Plan, work, serve and clear away one day."""
        today = FIRST_DAY + dt.timedelta(day)
        there = {one.component: self.shelf.grams(one.component) for one in self.shelf.held}
        morning = self._morning(today)
        # All that is drawn for the day is asked for from here on only: no plan knows it.
        if self.arm.timed:
            cooked, minutes = self._worked(morning, day, today)
        else:
            kit, _, quantities, workload = food_of(morning, today)
            work = workload.lots, quantities.pulls
            cooked = cook(kit.catalog, self.truth, day, *work, self.shelf, today)
            minutes = Minutes()
        guests, orders = self.truth.orders(day, today.weekday())
        served, eaten = self.shelf.serve(orders, self.dishes)
        wasted = self.shelf.clear(today)
        if self.arm.sales:
            self.sales.hear(today, guests, served)
        wanted = _wanted(orders, self.dishes)
        need = needed(self.book.catalog, self.truth, day, wanted, there)
        return DayResult(
            day=day,
            pulled=sum(cooked.pulled.values()),
            needed=sum(need.values()),
            off=sum(
                abs(cooked.pulled.get(item, 0.0) - need.get(item, 0.0))
                for item in {*cooked.pulled, *need}
            ),
            planned=sum(cooked.planned.values()),
            otherwise=sum(
                abs(cooked.finished[item] - grams) for item, grams in cooked.planned.items()
            ),
            ran_out=len(served.ran_out),
            away=served.turned_away,
            wanted=len(orders),
            eaten=eaten,
            wasted=wasted,
            kept=sum(one.grams * one.raw for one in self.shelf.held),
            minutes=minutes,
        )

    def _morning(self, today: dt.date) -> Kitchen:
        """The file that the day is planned from, as it is known when the day begins."""
        if self.arm.yields:
            self.kitchen = self.yields.look(self.kitchen, today)
        if self.arm.rates:
            self.kitchen = self.rates.look(self.kitchen, today)
        morning = _with_flat(on(self.kitchen, today), self.arm.flat)
        if self.arm.sales:
            morning = self.sales.look(morning, today)
        return morning.model_copy(update={"prepared": self.shelf.counted()})

    def _worked(self, morning: Kitchen, day: int, today: dt.date) -> tuple[Cooked, Minutes]:
        """The day's work with its clock, and what the cooks tell of it."""
        planned, plan, early = morning_of(morning, today)
        kit = kitchenry(planned, today)
        work = plan.workload.lots, plan.quantities.pulls
        cooked = cook(kit.catalog, self.truth, day, *work, self.shelf, today)
        clocked = clock(self.book, self.truth, day, plan, cooked)
        due = due_of(plan.workload)
        minutes = Minutes(
            late=max(0.0, ready_at(plan.workload, clocked.ends) - due - _ROUNDING),
            planned_late=max(0.0, ready_at(plan.workload, ends_of(plan)) - due),
            early=early,
        )
        if self.arm.yields or self.arm.rates:
            sheet = build_sheet(planned, plan)
            lots = {lot.id: lot for lot in plan.workload.lots}
            said = told(sheet, lots, self.truth, day, cooked, clocked, self.slips)
            floor = floor_of(said.ticks)
            if self.arm.yields:
                self.yields.hear(kit.catalog, sheet, floor, said.wrong)
            if self.arm.rates:
                self.rates.hear(kit, plan, sheet, floor)
        return cooked, minutes


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


def _wanted(orders: tuple[str, ...], dishes: Mapping[str, Mapping[str, float]]) -> dict[str, float]:
    found: dict[str, float] = defaultdict(float)
    for dish in orders:
        for item, grams in dishes[dish].items():
            found[item] += grams
    return dict(found)
