"""Which yield is in use: proposed from what was learned, taken by rule or by hand, put back.

A decision changes the kitchen file, so that every plan says by its version which yields it was made
with. What stood before is kept with the decision: it can be put back.
"""

import datetime as dt
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from planner.kitchen.base import Fraction, OwnShare, OwnYield
from planner.yields.drift import Drift, DriftKind
from planner.yields.judging import Lesson
from planner.yields.keys import KitchenYield
from planner.yields.trims import TrimLearned, fitted

_TESTS = 5
"""So many must count before a rule decides; starting guess."""
_WORTH = 0.01
"""A smaller change of a yield is not worth a new pull list; starting guess."""
_TRIM_WORTH = 0.05
"""The same of a share of what is taken off; starting guess."""
_SURE = 0.95
"""Chance that the yield lies on the new figure's side of the old one."""
_ANYBODY = "\0"
"""A supplier of whom nothing is known: no name has it."""
_TYPICAL_KILOS = 2.0
"""A load, where no test says how large loads are."""


class Way(StrEnum):
    """How a decision came about."""

    RULE = "rule"
    """The kitchen's rule: tests enough, sure enough, worth it, and nothing open."""
    TESTS = "tests"
    """Somebody took what the tests say."""
    HAND = "hand"
    """Somebody entered a figure."""
    USUAL = "usual"
    """Somebody went back to the usual figure."""
    BACK = "back"
    """A decision was put back."""
    SINCE = "since"
    """Tests count from a day on: another crop, another way to trim."""


class Hold(StrEnum):
    """Why the rule does not decide."""

    FEW = "few"
    SMALL = "small"
    UNSURE = "unsure"
    QUESTIONS = "questions"
    DRIFT = "drift"


@dataclass(frozen=True, slots=True)
class Proposal:
    """The yield the tests speak for, and what holds the rule back (None: it may take it)."""

    own: OwnYield
    held: Hold | None


@dataclass(frozen=True, slots=True)
class TrimProposal:
    """The shares of the trim that the tests speak for, by by-product; ``held`` as above."""

    own: Mapping[str, OwnShare]
    held: Hold | None


def proposal_of(
    known: KitchenYield, lesson: Lesson, drifts: tuple[Drift, ...], today: dt.date
) -> Proposal | None:
    """What the tests speak for; None: no test counts.

    The supplier's own yield where the file says who the food is bought from and tests name them,
    else the kitchen's.
    """
    counting = lesson.counting
    if not counting:
        return None
    learned = lesson.learned
    supplier = known.supplier if known.supplier in learned.suppliers else ""
    estimate = learned.of(supplier) if supplier else learned.kitchen
    whose = supplier or _ANYBODY
    if not supplier and len(learned.suppliers) == 1 and {known.supplier, *learned.suppliers} & {""}:
        (whose,) = learned.suppliers
        estimate = learned.of(whose)
    kilos = sum(test.load.grams_in for test in counting) / 1000 / len(counting)
    # Of a supplier whose food was never weighed a load may differ as suppliers do.
    ahead = learned.load(whose, kilos or _TYPICAL_KILOS)
    most = 10.0 if known.may_gain else 1.0
    expected = min(estimate.expected, most)
    own = OwnYield(
        fraction=round(expected, 4),
        spread=round(ahead.sd, 4),
        low=round(min(estimate.low, expected), 4),
        high=round(max(min(estimate.high, most), expected), 4),
        tests=estimate.tests,
        decided=today,
        supplier=supplier,
    )
    return Proposal(own, _held(known.usual, own, lesson, drifts, estimate.yields.below))


def outlived(usual: Fraction, lesson: Lesson, proposal: Proposal | None) -> bool:
    """Whether tests that the figure in use was learned from count no more, and it shows.

    Somebody has left them out, or what was weighed was taken back. Fewer tests than a rule wants
    are then still better than what they contradict. While a test waits for its answer, it waits.
    """
    own = usual.own
    if own is None or not own.tests or lesson.open:
        return False
    if proposal is None:
        return True
    now = proposal.own
    fewer = now.supplier == own.supplier and now.tests < own.tests
    return fewer and abs(now.fraction - own.fraction) >= _WORTH


def standing(usual: Fraction) -> float:
    """The expected yield that is in use now."""
    return usual.fraction if usual.own is None else usual.own.fraction


def by_hand(fraction: float, today: dt.date) -> OwnYield:
    """A figure that somebody enters; raise ValueError where it is none."""
    return OwnYield(fraction=fraction, decided=today)


def _held(
    usual: Fraction,
    own: OwnYield,
    lesson: Lesson,
    drifts: tuple[Drift, ...],
    below: Callable[[float], float],
) -> Hold | None:
    now = standing(usual)
    held = _not_ready(own.tests, lesson, drifts)
    if held is not None:
        return held
    if abs(own.fraction - now) < _WORTH:
        return Hold.SMALL
    chance = below(now)
    sure = 1 - chance if own.fraction > now else chance
    # How sure that it lies on the new figure's side of the one in use.
    return None if sure >= _SURE else Hold.UNSURE


def _not_ready(tests: int, lesson: Lesson, drifts: tuple[Drift, ...]) -> Hold | None:
    """What keeps the rule from deciding on anything of a yield."""
    if tests < _TESTS:
        return Hold.FEW
    if lesson.open:
        return Hold.QUESTIONS
    # Cooks may differ and the kitchen's yield be what they give together; a change in time may not.
    if any(drift.kind is DriftKind.TIME for drift in drifts):
        return Hold.DRIFT
    return None


def trim_proposal_of(
    known: KitchenYield, lesson: Lesson, drifts: tuple[Drift, ...], today: dt.date
) -> TrimProposal | None:
    """Shares that the tests speak for; None: no test that counts tells of any.

    Where only some kinds were weighed, the others stay as they are in use.
    """
    told = {one.item: one for one in lesson.trims if one.tests}
    if not told:
        return None
    using = trim_in_use(known)
    shares = fitted({**using, **{item: one.estimate.expected for item, one in told.items()}})
    own = {item: _own_share(told[item], shares[item], today) for item in told}
    return TrimProposal(own, _trim_held(using, told, own, lesson, drifts))


def trim_in_use(known: KitchenYield) -> Mapping[str, float]:
    """The shares that are in use now, by by-product."""
    return {one.item: one.in_use for one in known.trim}


def _own_share(one: TrimLearned, share: float, today: dt.date) -> OwnShare:
    expected = math.floor(share * 1e4) / 1e4  # Rounded up they might come to more than all.
    low, high = (round(min(max(end, 0.0), 1.0), 4) for end in (one.estimate.low, one.estimate.high))
    return OwnShare(
        share=expected,
        low=min(low, expected),
        high=max(high, expected),
        tests=one.tests,
        decided=today,
    )


def _trim_held(
    using: Mapping[str, float],
    told: Mapping[str, TrimLearned],
    own: Mapping[str, OwnShare],
    lesson: Lesson,
    drifts: tuple[Drift, ...],
) -> Hold | None:
    moved = {
        item: using.get(item, 0.0)
        for item, one in own.items()
        if abs(one.share - using.get(item, 0.0)) >= _TRIM_WORTH
    }
    held = _not_ready(min(one.tests for one in own.values()), lesson, drifts)
    if held is not None:
        return held
    if not moved:
        return Hold.SMALL
    for item, now in moved.items():
        chance = told[item].estimate.yields.below(now)
        if (1 - chance if own[item].share > now else chance) >= _SURE:
            return None
    return Hold.UNSURE
