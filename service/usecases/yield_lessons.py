"""What a kitchen's tests teach of each of its yields, and what was decided."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.yields.decide import Proposal, TrimProposal, proposal_of, trim_proposal_of
from planner.yields.drift import Drift, drifts_of
from planner.yields.judging import Answer, Lesson, Standing, TakenTest, lesson
from planner.yields.keys import KitchenYield, YieldKey, yields_of
from service.clock import Now, today_in
from service.db.kitchens import StoredVersion
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import kept_kitchen
from service.errors import Fault, NotFoundError
from service.usecases.kitchens import no_such_kitchen
from service.yield_values import StoredTest, YieldDecision, YieldState
from web.language import _

_MOST = 60
"""Tests of one yield that are looked at, the newest: older ones are of other years."""


@dataclass(frozen=True, slots=True)
class YieldLine:
    """One yield: what the file says, what tests teach, what is proposed and was decided.

    ``state`` is what is in use. ``overruled`` says that a kitchen file that was sent since the
    last decision says otherwise than that did.
    """

    known: KitchenYield
    lesson: Lesson
    drifts: tuple[Drift, ...]
    proposal: Proposal | None
    trim_proposal: TrimProposal | None
    state: YieldState
    tests: Mapping[str, StoredTest]
    decisions: tuple[YieldDecision, ...]
    overruled: bool


@dataclass(frozen=True, slots=True)
class YieldsNow:
    """A kitchen's yields as they stand, in the file's order; ``others`` are tests of no yield."""

    slug: str
    kitchen: Kitchen
    version: int
    today: dt.date
    lines: tuple[YieldLine, ...]
    others: tuple[StoredTest, ...]

    def of(self, text: str) -> YieldLine:
        """The line of a yield; raise NotFoundError where the kitchen has no such yield."""
        for line in self.lines:
            if str(line.known.key) == text:
                return line
        raise no_such_yield(text)


def yields_now(database: Database, slug: str, *, now: Now) -> YieldsNow:
    """The yields of a kitchen as they stand.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    """
    with database.reading() as unit:
        return yields_in(unit, slug, now=now)


def yields_in(unit: UnitOfWork, slug: str, *, now: Now) -> YieldsNow:
    """The same within a unit of work."""
    stored = newest_version(unit, slug)
    kitchen = kept_kitchen(stored.document)
    today = today_in(kitchen.time_zone, now)
    tests: dict[str, list[StoredTest]] = defaultdict(list)
    for test in unit.yields.tests(stored.kitchen_id):
        tests[test.of].append(test)
    decided: dict[str, list[YieldDecision]] = defaultdict(list)
    for decision in unit.yields.decisions(stored.kitchen_id):
        decided[decision.of].append(decision)
    answers = unit.yields.answers(stored.kitchen_id)
    lines = tuple(
        _line(known, tests.pop(str(key), []), decided[str(key)], answers, today)
        for key, known in _known(stored.document).items()
    )
    others = tuple(test for group in tests.values() for test in group)
    return YieldsNow(slug, kitchen, stored.number, today, lines, others)


def newest_version(unit: UnitOfWork, slug: str) -> StoredVersion:
    """A kitchen's newest file; raise NotFoundError where there is no such kitchen."""
    stored = unit.kitchens.newest(slug)
    if stored is None:
        raise no_such_kitchen(slug)
    return stored


def no_such_yield(text: str) -> NotFoundError:
    """The error for a yield that the kitchen's routes do not have."""
    return NotFoundError(
        Fault(
            "yield",
            text[:60],
            _("no route of this kitchen has this food, operation and cut"),
            _("Choose one on the page of the kitchen's yields"),
        )
    )


@lru_cache(maxsize=8)
def _known(document: bytes) -> Mapping[YieldKey, KitchenYield]:
    return yields_of(Catalog(kept_kitchen(document)))


def _line(
    known: KitchenYield,
    stored: list[StoredTest],
    decisions: list[YieldDecision],
    answers: Mapping[str, Answer],
    today: dt.date,
) -> YieldLine:
    newest = stored[-_MOST:]
    since = decisions[0].after.since if decisions else None
    own = known.usual.own
    mine = tuple(
        (test.taken.key, answers[test.taken.key]) for test in newest if test.taken.key in answers
    )
    taken = tuple(test.taken for test in newest)
    trim = tuple((one.item, one.share) for one in known.trim)
    found, drifts = _taught(known.usual.fraction, taken, mine, since, trim)
    own_trim = tuple(
        (one.item, one.own)
        for one in sorted(known.trim, key=lambda one: one.item)
        if one.own is not None
    )
    return YieldLine(
        known=known,
        lesson=found,
        drifts=drifts,
        proposal=proposal_of(known, found, drifts, today),
        trim_proposal=trim_proposal_of(known, found, drifts, today) if known.kinds else None,
        state=YieldState(own, since, own_trim),
        tests={test.taken.key: test for test in newest},
        decisions=tuple(decisions),
        overruled=bool(decisions)
        and (decisions[0].after.own, decisions[0].after.trim) != (own, own_trim),
    )


@lru_cache(maxsize=512)
def _taught(
    usual: float,
    tests: tuple[TakenTest, ...],
    answers: tuple[tuple[str, Answer], ...],
    since: dt.date | None,
    trim: tuple[tuple[str, float], ...],
) -> tuple[Lesson, tuple[Drift, ...]]:
    """Worked out once for the same tests: every one is judged by all others."""
    found = lesson(usual, tests, dict(answers), since, dict(trim))
    # A test that waits may be the first of a new crop: it is looked at, though it does not count.
    looked_at = [
        one.test for one in found.tests if one.standing in (Standing.COUNTS, Standing.ASKED)
    ]
    return found, drifts_of(usual, looked_at)
