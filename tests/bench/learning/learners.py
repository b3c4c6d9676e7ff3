"""What a kitchen does with what it was told: the program's own learning, and people's answers.

Nothing here sees the truth. One thing is taken from it: somebody who is asked about a weight knows
whether they forgot the tare, and says so nine times in ten.
"""

import datetime as dt
import random
from collections import defaultdict
from dataclasses import dataclass, field

from planner.floor.review import batch_reviews
from planner.floor.state import Floor
from planner.forecast.history import COVERS, Sale, history_of
from planner.forecast.models import TooShortError
from planner.forecast.service import forecast_service, with_forecast
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from planner.plan import Plan
from planner.quantities.kitchenry import Kitchenry
from planner.rates.apply import Use, with_rates
from planner.rates.fit import learn_skill
from planner.rates.ticked import Gathering, LotWork
from planner.sheet.types import KitchenSheet
from planner.yields.decide import proposal_of
from planner.yields.drift import Drift, DriftKind, drifts_of
from planner.yields.edit import with_own_yield
from planner.yields.from_floor import floor_tests
from planner.yields.judging import Answer, Lesson, Standing, TakenTest, lesson
from planner.yields.keys import KitchenYield, YieldKey, yields_of
from service.documents import kitchen_bytes
from tests.bench.learning.house import SERVICE
from tests.bench.learning.shelf import Served

_NEWEST = 60
"""Tests of a yield that are looked at, as the program's page of yields does."""
_RIGHT = 0.9
"""Answers that are right."""
_TOLD = 0.8
"""Dishes that ran out of which somebody says so."""


@dataclass(frozen=True, slots=True)
class Weights:
    """What became of a season's weights.

    Attributes
    ----------
    tests
        Batches of which both weights were told.
    wrong
        Those of them with a forgotten tare or a wrong unit; ``asked`` about, or counting in the
        end: ``unasked``, or ``waved_through`` by a wrong answer.
    right_asked
        Right ones that were asked about.
    """

    tests: int = 0
    wrong: int = 0
    asked: int = 0
    unasked: int = 0
    waved_through: int = 0
    right_asked: int = 0


@dataclass
class YieldLearner:
    """The page of yields, looked at on Mondays; decided by the program's rule.

    Every question is answered. Where a change is suspected, tests count from its day on.
    """

    seed: int
    tests: dict[YieldKey, list[TakenTest]] = field(default_factory=lambda: defaultdict(list))
    answers: dict[str, Answer] = field(default_factory=dict)
    since: dict[YieldKey, dt.date] = field(default_factory=dict)
    wrong: set[str] = field(default_factory=set)
    asked: set[str] = field(default_factory=set)
    _new: set[YieldKey] = field(default_factory=set)
    _counted: dict[YieldKey, frozenset[str]] = field(default_factory=dict)

    def hear(
        self, catalog: Catalog, sheet: KitchenSheet, floor: Floor, wrong: frozenset[str]
    ) -> None:
        """A day is over: its weights are tests. ``wrong`` are those that somebody got wrong."""
        for test in floor_tests(catalog, [sheet], floor, over=True):
            self.tests[test.of].append(test.taken)
            self._new.add(test.of)
            if test.taken.key in wrong:
                self.wrong.add(test.taken.key)

    def look(self, kitchen: Kitchen, today: dt.date) -> Kitchen:
        """Answer what is asked, and take into use what the rule takes."""
        if today.weekday() != 0:
            return kitchen
        known = yields_of(Catalog(kitchen))
        for key in sorted(self._new):
            kitchen = self._decide(kitchen, known[key], today)
        self._new.clear()
        return kitchen

    def _decide(self, kitchen: Kitchen, known: KitchenYield, today: dt.date) -> Kitchen:
        key, usual = known.key, known.usual.fraction
        tests = self.tests[key][-_NEWEST:]
        found = lesson(usual, tests, self.answers, self.since.get(key))
        if self._answer(found):
            found = lesson(usual, tests, self.answers, self.since.get(key))
        drifts = self._drifts(usual, found)
        changed = next((one for one in drifts if one.kind is DriftKind.TIME), None)
        if changed is not None and changed.since > self.since.get(key, dt.date.min):
            self.since[key] = changed.since
            found = lesson(usual, tests, self.answers, changed.since)
            drifts = self._drifts(usual, found)
        self._counted[key] = frozenset(test.key for test in found.counting)
        proposal = proposal_of(known, found, drifts, today)
        if proposal is None or proposal.held is not None:
            return kitchen
        return read_kitchen(with_own_yield(kitchen_bytes(kitchen), key, proposal.own).data)

    def _drifts(self, usual: float, found: Lesson) -> tuple[Drift, ...]:
        looked_at = [
            one.test for one in found.tests if one.standing in (Standing.COUNTS, Standing.ASKED)
        ]
        return drifts_of(usual, looked_at)

    def _answer(self, found: Lesson) -> bool:
        """Whoever weighed is asked; whether there was anything to answer."""
        open_ones = [one for one in found.tests if one.standing is Standing.ASKED]
        for one in open_ones:
            self.asked.add(one.test.key)
            dice = random.Random(f"{self.seed} answer {one.test.key}")  # noqa: S311
            bad = (one.test.key in self.wrong) == (dice.random() < _RIGHT)
            self.answers[one.test.key] = Answer.LEFT_OUT if bad else Answer.COUNTS
        return bool(open_ones)

    @property
    def weights(self) -> "Weights":
        """What became of all weights by now."""
        counted = set().union(*self._counted.values()) if self._counted else set()
        return Weights(
            tests=sum(map(len, self.tests.values())),
            wrong=len(self.wrong),
            asked=len(self.wrong & self.asked),
            unasked=len((self.wrong & counted) - self.asked),
            waved_through=len(self.wrong & counted & self.asked),
            right_asked=len(self.asked - self.wrong),
        )


@dataclass
class RateLearner:
    """The page of learned rates, taken over on Mondays at the mean."""

    use: Use = field(default_factory=Use)
    gathering: Gathering = field(default_factory=Gathering)

    def hear(self, kit: Kitchenry, plan: Plan, sheet: KitchenSheet, floor: Floor) -> None:
        """A day is over: its ticks are minutes."""
        lots = {
            lot.id: LotWork(lot.component, lot.step, lot.grams_in) for lot in plan.workload.lots
        }
        self.gathering.add(kit, lots, batch_reviews(sheet, floor))

    def look(self, kitchen: Kitchen, today: dt.date) -> Kitchen:
        """Take over what is learned."""
        if today.weekday() != 0:
            return kitchen
        ticked = self.gathering.ticked()
        learned = [learn_skill(found, ticked.books) for found in ticked.by_skill.values() if found]
        return with_rates(kitchen, learned, self.use)[0]


@dataclass
class SalesLearner:
    """Covers and mix out of what was sold; the flat share until there is enough of it.

    ``level`` is the chance of enough that dishes are made for once there are forecasts.
    """

    seed: int
    level: float
    tells_out: bool = True
    sales: list[Sale] = field(default_factory=list)

    def hear(self, today: dt.date, guests: int, served: Served) -> None:
        """A day is over: what the till says. Guests who were turned away are not in it.

        That a dish ran out is told four times in five, if the kitchen tells such things at all.
        """
        self.sales.append(Sale(today, SERVICE, COVERS, guests))
        for dish in sorted({*served.sold, *served.out}):
            dice = random.Random(f"{self.seed} {today} out {dish}")  # noqa: S311
            out = self.tells_out and dish in served.out and dice.random() < _TOLD
            self.sales.append(Sale(today, SERVICE, dish, served.sold.get(dish, 0), ran_out=out))

    def look(self, kitchen: Kitchen, today: dt.date) -> Kitchen:
        """Today's service with what is forecast, if there is enough to forecast from."""
        if not self.sales:
            return kitchen
        (service,) = kitchen.services
        try:
            forecast = forecast_service(history_of(self.sales), SERVICE, today)
        except TooShortError:
            return kitchen
        made = with_forecast(service, forecast).model_copy(
            update={"buffer_fraction": None, "service_level": self.level}
        )
        return kitchen.model_copy(update={"services": (made,)})
