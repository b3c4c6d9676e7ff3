"""Tests as they are learned from, and what people have answered of those that were questioned."""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from planner.yields.asking import Question, QuestionKind
from planner.yields.learned import Learned, learned, next_load
from planner.yields.repeats import Load
from planner.yields.trims import TrimLearned, TrimTest, share_learned, trims_learned


class Answer(StrEnum):
    """What somebody said of a test."""

    COUNTS = "counts"
    LEFT_OUT = "left out"
    ASKED_AGAIN = "asked again"
    """Its weights are others than those that were said to count: as if nothing had been said."""


@dataclass(frozen=True, slots=True)
class TakenTest:
    """A test of one food, operation and cut.

    ``key`` names it for good; ``asked`` are the questions it came with. ``trim`` are grams of each
    by-product that was kept of what was taken off; ``trim_whole`` says that all of that was
    weighed, so that nothing was kept of what is not listed.
    """

    key: str
    date: dt.date
    load: Load
    supplier: str = ""
    cook: str = ""
    asked: tuple[Question, ...] = ()
    trim: tuple[tuple[str, float], ...] = ()
    trim_whole: bool = False


class Standing(StrEnum):
    """Whether a test is learned from."""

    COUNTS = "counts"
    ASKED = "asked"
    """It waits for an answer, and does not count until it has one."""
    LEFT_OUT = "left out"
    BEFORE = "before"
    """Older than what the kitchen counts from: another crop."""


@dataclass(frozen=True, slots=True)
class Judged:
    """A test, how it stands, and what is asked of it."""

    test: TakenTest
    standing: Standing
    questions: tuple[Question, ...] = ()


@dataclass(frozen=True, slots=True)
class Lesson:
    """All tests of one food, operation and cut, and what those that count teach."""

    learned: Learned
    tests: tuple[Judged, ...]
    trims: tuple[TrimLearned, ...] = ()

    @property
    def counting(self) -> tuple[TakenTest, ...]:
        """Those that are learned from, oldest first."""
        return tuple(one.test for one in self.tests if one.standing is Standing.COUNTS)

    @property
    def open(self) -> int:
        """How many wait for an answer."""
        return sum(one.standing is Standing.ASKED for one in self.tests)


_ALL_OF_IT = 1.1
"""Of what was taken off: more than that was not weighed with the food; starting guess."""
_RARE = 0.005
"""A load further out than one in two hundred would be is asked about; starting guess."""


def lesson(
    usual: float,
    tests: Sequence[TakenTest],
    answers: Mapping[str, Answer],
    since: dt.date | None = None,
    trim: Mapping[str, float] | None = None,
) -> Lesson:
    """Judge tests and learn from those that count; ``trim`` are usual shares by by-product.

    A test is questioned where one in two hundred would lie as far out by what the usual figure and
    all other tests say. It is kept and shown, waits for an answer, and does not count meanwhile; as
    more like it come, the question goes away by itself.
    """
    ordered = sorted(tests, key=lambda test: test.date)
    judged = []
    able = [
        test
        for test in ordered
        if (since is None or test.date >= since) and answers.get(test.key) is not Answer.LEFT_OUT
    ]
    for test in ordered:
        if answers.get(test.key) is Answer.LEFT_OUT:
            judged.append(Judged(test, Standing.LEFT_OUT, test.asked))
        elif since is not None and test.date < since:
            judged.append(Judged(test, Standing.BEFORE, test.asked))
        elif answers.get(test.key) is Answer.COUNTS:
            judged.append(Judged(test, Standing.COUNTS, test.asked))
        else:
            others = [
                one
                for one in able
                if one is not test and (not one.asked or answers.get(one.key) is Answer.COUNTS)
            ]
            questions = (
                *test.asked,
                *_unusual(usual, test, others),
                *_unusual_trim(trim or {}, test, others),
            )
            standing = Standing.ASKED if questions else Standing.COUNTS
            judged.append(Judged(test, standing, questions))
    counting = [one.test for one in judged if one.standing is Standing.COUNTS]
    return Lesson(
        learned(usual, loads_of(counting)),
        tuple(judged),
        trims_learned(trim or {}, _trims(counting)),
    )


def loads_of(tests: Sequence[TakenTest]) -> list[tuple[str, Load]]:
    """Tests as ``learned`` takes them."""
    return [(test.supplier, test.load) for test in tests]


def _unusual(usual: float, test: TakenTest, others: Sequence[TakenTest]) -> tuple[Question, ...]:
    fraction = test.load.fraction
    expected = next_load(usual, loads_of(others), test.supplier, test.load.grams_in / 1000)
    below = expected.below(fraction)
    if min(below, 1 - below) * 2 >= _RARE:
        return ()
    return (Question(QuestionKind.UNUSUAL, "usable", fraction, expected.mean),)


def _trims(tests: Sequence[TakenTest]) -> list[TrimTest]:
    """Tests as shares of the trim are learned from: where something was taken off and weighed."""
    found = []
    for test in tests:
        off = test.load.grams_in - test.load.grams_out
        if off > 0 and (test.trim or test.trim_whole):
            found.append(TrimTest(off, dict(test.trim), test.trim_whole, test.supplier))
    return found


def _unusual_trim(
    usual: Mapping[str, float], test: TakenTest, others: Sequence[TakenTest]
) -> Iterator[Question]:
    """Kinds of trim that weigh what one load in two hundred would, or more than was taken off."""
    before = _trims(others)
    for mine in _trims([test]):
        for item, grams in test.trim:
            share = grams / mine.off
            expected = share_learned(usual.get(item, 0.0), item, before).load(
                test.supplier, mine.off / 1000
            )
            below = expected.below(share)
            far = min(below, 1 - below) * 2 < _RARE
            if far or share > _ALL_OF_IT:
                yield Question(QuestionKind.TRIM, item, share, min(max(expected.mean, 0.0), 1.0))
