"""Keep yield tests: those of the bench, those of the floor, and what people answer of them."""

import datetime as dt
import uuid
from collections.abc import Sequence

from planner.floor.state import floor_of
from planner.floor.ticks import Tick
from planner.kitchen.catalog import Catalog
from planner.kitchen.errors import KitchenErrors
from planner.yields.bench import balance_of, kept_of
from planner.yields.from_floor import floor_tests
from planner.yields.judging import Answer, TakenTest
from planner.yields.record import BenchRecord
from planner.yields.repeats import Load
from service.clock import Now, today_in
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import kept_kitchen
from service.errors import Fault, NotFoundError
from service.usecases.floor import tick_of
from service.usecases.released import ReleasedPlan, ReleasedPlans
from service.usecases.yield_decisions import RULE, decide_by_rule
from service.usecases.yield_lessons import newest_version
from service.yield_values import StoredTest
from web.language import _

_LOOK_BACK = dt.timedelta(days=400)
"""Older floors have been gathered, or are of another year's food."""


def keep_bench_test(
    database: Database, slug: str, sent: str, record: BenchRecord, *, actor: str, now: Now
) -> StoredTest:
    """Keep a bench test that has no faults. The same form again keeps nothing new.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    balance = balance_of(record.test)
    load = Load(balance.gross, balance.usable)
    trim = kept_of(record.test)
    with database.writing() as unit:
        kitchen_id = newest_version(unit, slug).kitchen_id
        kept = unit.yields.add_bench_test(
            kitchen_id, sent, record, load, trim, actor=actor, now=now()
        )
        decide_by_rule(unit, slug, now=now)
        unit.commit()
    return kept


def bench_test(
    database: Database, slug: str, number: int
) -> tuple[StoredTest, tuple[StoredTest, ...]]:
    """A bench test, and all bench tests of the same yield (or food) with it, oldest first.

    Raises
    ------
    NotFoundError
        There is no such kitchen or test.
    """
    with database.reading() as unit:
        kitchen_id = newest_version(unit, slug).kitchen_id
        found = unit.yields.bench_test(kitchen_id, number)
        tests = unit.yields.tests(kitchen_id)
    if found is None or found.record is None:
        raise NotFoundError(
            Fault(
                "test", str(number), _("there is no such yield test"), _("Choose one on the page")
            )
        )
    mine = _same(found.record)
    beside = tuple(test for test in tests if test.record is not None and _same(test.record) == mine)
    return found, beside


def kept_records(database: Database, slug: str) -> list[tuple[int, BenchRecord]]:
    """Number and record of every bench test, the newest first.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    with database.reading() as unit:
        tests = unit.yields.tests(newest_version(unit, slug).kitchen_id)
    found = [
        (test.number, test.record)
        for test in tests
        if test.number is not None and test.record is not None
    ]
    return sorted(found, key=lambda one: one[0], reverse=True)


def _same(record: BenchRecord) -> tuple[str, str]:
    """What tests that are laid side by side have in common."""
    return record.of, "" if record.of else record.food.casefold()


def answer_test(
    database: Database,
    slug: str,
    test_key: str,
    answer: Answer,
    reason: str,
    *,
    actor: str,
    now: Now,
) -> None:
    """Say whether a test counts. It can be said otherwise later; both are kept.

    Raises
    ------
    NotFoundError
        There is no such kitchen or test.
    """
    with database.writing() as unit:
        kitchen_id = newest_version(unit, slug).kitchen_id
        if all(test.taken.key != test_key for test in unit.yields.tests(kitchen_id)):
            raise NotFoundError(
                Fault(
                    "test",
                    test_key[:60],
                    _("there is no such yield test"),
                    _("Load the page again"),
                )
            )
        unit.yields.add_answer(kitchen_id, test_key, answer, reason, actor=actor, now=now())
        decide_by_rule(unit, slug, now=now)
        unit.commit()


def gather_floor_tests(database: Database, plans: ReleasedPlans, slug: str, *, now: Now) -> None:
    """Make tests of what cooks have weighed since this was last done, then let the rule decide.

    A tick that comes late, or is taken back, makes its day's tests anew.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    with database.reading() as unit:
        stored = newest_version(unit, slug)
        today = today_in(kept_kitchen(stored.document).time_zone, now)
        waiting = unit.yields.ungathered(stored.kitchen_id, today, today - _LOOK_BACK)
    if not waiting:
        return
    with database.writing() as unit:
        for date, release, ticks, over in waiting:
            tests = _of_day(unit, plans, slug, date, over=over)
            _ask_again(unit, stored.kitchen_id, [taken for _, taken in tests], now=now)
            unit.yields.replace_floor_tests(stored.kitchen_id, date, tests, actor=RULE, now=now())
            unit.yields.gathered(
                stored.kitchen_id, date, release, ticks, over=over, actor=RULE, now=now()
            )
        decide_by_rule(unit, slug, now=now)
        unit.commit()


def _ask_again(
    unit: UnitOfWork, kitchen_id: uuid.UUID, tests: Sequence[TakenTest], *, now: Now
) -> None:
    """An answer that a test counts is of its weights: of others it says nothing.

    That one is left out holds for whatever else is weighed of it.
    """
    answers = unit.yields.answers(kitchen_id)
    before = {test.taken.key: test.taken.load for test in unit.yields.tests(kitchen_id)}
    for test in tests:
        if answers.get(test.key) is Answer.COUNTS and before.get(test.key) != test.load:
            unit.yields.add_answer(
                kitchen_id, test.key, Answer.ASKED_AGAIN, "", actor=RULE, now=now()
            )


def _of_day(
    unit: UnitOfWork, plans: ReleasedPlans, slug: str, date: dt.date, *, over: bool
) -> list[tuple[str, TakenTest]]:
    """Tests of one day: loads of every release, each with the batches it was said of."""
    newest = unit.floor.release(slug, date)
    if newest is None:
        return []
    read: list[tuple[ReleasedPlan, uuid.UUID]] = []
    ticks: dict[str, Tick] = {}
    for number in range(newest.number, 0, -1):
        release = unit.floor.release(slug, date, number)
        if release is None:
            continue
        plan = plans.of(release.plan_id)
        read.append((plan, release.plan_id))
        for stored in unit.floor.ticks(release):
            ticks.setdefault(stored.key, tick_of(plan, stored))
    version, _, _ = unit.plans.inputs(read[0][1])
    try:
        catalog = Catalog(kept_kitchen(unit.kitchens.version(version).document))
    except KitchenErrors:
        return []  # Of before a rule of the file that it breaks now: nothing can be read from it.
    sheets = [plan.sheet for plan, _ in read]
    found = floor_tests(catalog, sheets, floor_of(ticks.values()), over=over)
    return [(str(one.of), one.taken) for one in found]
