"""Whether a yield has changed: at some time (a new crop), or with who does it (a new cook).

Two explanations of the same tests are held against each other: one yield for all, or one before and
one after, at any of the times where both sides have tests enough; or one for a cook's tests and one
for all others. Each is weighed by its evidence, and by how rarely yields change.
"""

import datetime as dt
import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from planner.yields.belief import BELIEF
from planner.yields.judging import TakenTest
from planner.yields.learned import log_evidence
from planner.yields.repeats import Load, repeated

_FEWEST = 3
"""Tests on each side of a change: fewer are one bag."""
_BEFORE = 0.1
"""Chance of a change among the tests at hand, before looking; starting guess."""
_SURE = 0.9
_STEP = 0.06
"""How far a changed yield lies from what it was, as a standard deviation; starting guess."""
_APART = replace(BELIEF, supplier=(_STEP / math.sqrt(2),))
_ALIKE = replace(BELIEF, supplier=(1e-6,))


class DriftKind(StrEnum):
    """What goes with the change."""

    TIME = "time"
    COOK = "cook"


@dataclass(frozen=True, slots=True)
class Drift:
    """A change that the tests speak for, with ``chance``.

    ``before`` and ``after`` are ratios of sums: of a cook, all others' and theirs. ``since`` is the
    day of the first test after it, ``cook`` whose tests differ.
    """

    kind: DriftKind
    supplier: str
    before: float
    after: float
    chance: float
    since: dt.date
    cook: str = ""


def drifts_of(usual: float, tests: Sequence[TakenTest]) -> tuple[Drift, ...]:
    """The likeliest change of each supplier's tests; empty: none is likely.

    Suppliers are looked at one by one, since they differ without any change.
    """
    by_supplier: dict[str, list[TakenTest]] = defaultdict(list)
    for test in sorted(tests, key=lambda test: test.date):
        by_supplier[test.supplier].append(test)
    found = []
    for group in by_supplier.values():
        likely = [drift for drift in _of(usual, group) if drift.chance >= _SURE]
        if likely:
            found.append(max(likely, key=lambda drift: drift.chance))
    return tuple(found)


def _of(usual: float, tests: Sequence[TakenTest]) -> Iterator[Drift]:
    if len(tests) < 2 * _FEWEST:
        return
    alike = log_evidence(usual, [[test.load for test in tests]], _ALIKE)
    times = [
        (tests[:index], tests[index:])
        for index in range(_FEWEST, len(tests) - _FEWEST + 1)
        if tests[index - 1].date < tests[index].date
    ]
    yield from _likeliest(usual, DriftKind.TIME, times, alike)
    cooks = {test.cook for test in tests if test.cook}
    shares = [
        ([t for t in tests if t.cook != cook], [t for t in tests if t.cook == cook])
        for cook in sorted(cooks)
    ]
    enough = [pair for pair in shares if min(map(len, pair)) >= _FEWEST]
    yield from _likeliest(usual, DriftKind.COOK, enough, alike)


def _likeliest(
    usual: float,
    kind: DriftKind,
    pairs: Sequence[tuple[Sequence[TakenTest], Sequence[TakenTest]]],
    alike: float,
) -> Iterator[Drift]:
    """The pair that explains best; the chance is that of a change at any of them."""
    if not pairs:
        return
    factors = [
        math.exp(min(500.0, log_evidence(usual, [_loads(a), _loads(b)], _APART) - alike))
        for a, b in pairs
    ]
    odds = _BEFORE / (1 - _BEFORE) * sum(factors) / len(factors)
    one, other = pairs[factors.index(max(factors))]
    yield Drift(
        kind=kind,
        supplier=other[0].supplier,
        before=repeated(_loads(one)).mean,
        after=repeated(_loads(other)).mean,
        chance=odds / (1 + odds),
        since=other[0].date,
        cook=other[0].cook if kind is DriftKind.COOK else "",
    )


def _loads(tests: Sequence[TakenTest]) -> list[Load]:
    return [test.load for test in tests]
