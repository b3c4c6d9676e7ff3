"""Tests that are questioned, and changes that are noticed."""

import datetime as dt

import numpy as np
import pytest

from planner.yields.asking import Question, QuestionKind
from planner.yields.drift import DriftKind, drifts_of
from planner.yields.judging import Answer, Standing, TakenTest, lesson
from planner.yields.repeats import Load

_FIRST = dt.date(2026, 3, 2)


def _tests(
    rng: np.random.Generator, fractions: list[float], cook: str = "", start: int = 0
) -> list[TakenTest]:
    return [
        TakenTest(
            key=f"t{start + index:03d}",
            date=_FIRST + dt.timedelta(start + index),
            load=Load(2000, 2000 * (fraction + float(rng.normal(0, 0.015)))),
            cook=cook,
        )
        for index, fraction in enumerate(fractions)
    ]


def test_an_odd_weighing_is_asked_about_and_kept() -> None:
    rng = np.random.default_rng(1)
    tests = _tests(rng, [0.85] * 8)
    odd = TakenTest("odd", _FIRST + dt.timedelta(9), Load(2000, 1000))
    found = lesson(0.88, [*tests, odd], {})
    assert len(found.tests) == 9
    last = found.tests[-1]
    assert last.standing is Standing.ASKED
    assert [question.kind for question in last.questions] == [QuestionKind.UNUSUAL]
    assert found.open == 1
    assert found.learned.kitchen.expected == lesson(0.88, tests, {}).learned.kitchen.expected


def test_an_answer_decides() -> None:
    rng = np.random.default_rng(1)
    odd = TakenTest("odd", _FIRST + dt.timedelta(9), Load(2000, 1000))
    tests = [*_tests(rng, [0.85] * 8), odd]
    counted = lesson(0.88, tests, {"odd": Answer.COUNTS})
    left = lesson(0.88, tests, {"odd": Answer.LEFT_OUT})
    assert counted.tests[-1].standing is Standing.COUNTS
    assert counted.learned.kitchen.expected < left.learned.kitchen.expected - 0.01
    assert left.tests[-1].standing is Standing.LEFT_OUT
    assert not counted.open
    assert not left.open


def test_a_first_test_far_from_the_book_is_asked_about() -> None:
    far = TakenTest("far", _FIRST, Load(3000, 900))
    assert lesson(0.88, [far], {}).open == 1
    near = TakenTest("near", _FIRST, Load(3000, 2500))
    assert lesson(0.88, [near], {}).open == 0


def test_a_question_goes_away_when_more_come_like_it() -> None:
    rng = np.random.default_rng(5)
    old = _tests(rng, [0.9] * 5)
    new = _tests(rng, [0.72] * 8, start=10)
    assert lesson(0.9, [*old, new[0]], {}).open == 1
    assert lesson(0.9, [*old, *new], {}).open == 0


def test_a_question_that_came_with_it_waits_too() -> None:
    asked = Question(QuestionKind.BALANCE, "gross", 120.0, 5.0)
    test = TakenTest("open", _FIRST, Load(3000, 2600), asked=(asked,))
    assert lesson(0.88, [test], {}).tests[0].standing is Standing.ASKED
    assert lesson(0.88, [test], {"open": Answer.COUNTS}).open == 0


def test_what_somebody_said_to_count_speaks_for_others_like_it() -> None:
    asked = (Question(QuestionKind.BALANCE, "gross", 120.0, 5.0),)
    rng = np.random.default_rng(6)
    dirty = [
        TakenTest(f"a{n}", test.date, test.load, asked=asked)
        for n, test in enumerate(_tests(rng, [0.55] * 5))
    ]
    plain = _tests(rng, [0.55], start=8)
    assert lesson(0.9, [*dirty, *plain], {}).tests[-1].standing is Standing.ASKED
    said = {test.key: Answer.COUNTS for test in dirty}
    assert lesson(0.9, [*dirty, *plain], said).tests[-1].standing is Standing.COUNTS


def test_few_honest_tests_are_asked_about() -> None:
    rng = np.random.default_rng(11)
    asked = sum(
        lesson(0.85, _tests(rng, [0.85 + float(rng.normal(0, 0.05))] * 6), {}).open
        for _ in range(150)
    )
    assert asked <= 150 * 6 * 0.02


def test_tests_before_a_day_do_not_count() -> None:
    rng = np.random.default_rng(1)
    tests = [*_tests(rng, [0.9] * 4), *_tests(rng, [0.8] * 4, start=4)]
    found = lesson(0.88, tests, {}, since=_FIRST + dt.timedelta(4))
    assert [one.standing for one in found.tests[:4]] == [Standing.BEFORE] * 4
    assert len(found.counting) == 4
    assert found.learned.kitchen.expected < 0.85


def test_a_new_crop_is_noticed() -> None:
    rng = np.random.default_rng(2)
    tests = [*_tests(rng, [0.88] * 6), *_tests(rng, [0.80] * 5, start=6)]
    (drift,) = drifts_of(0.88, tests)
    assert drift.kind is DriftKind.TIME
    assert drift.since == _FIRST + dt.timedelta(6)
    assert drift.before == pytest.approx(0.88, abs=0.015)
    assert drift.after == pytest.approx(0.80, abs=0.015)


def test_a_cook_who_trims_deeper_is_noticed() -> None:
    rng = np.random.default_rng(3)
    tests = []
    for day in range(12):
        cook = "ines" if day % 2 else "noor"
        tests += _tests(rng, [0.80 if cook == "ines" else 0.88], cook, start=day)
    (drift,) = drifts_of(0.88, tests)
    assert (drift.kind, drift.cook) in {(DriftKind.COOK, "ines"), (DriftKind.COOK, "noor")}
    assert abs(drift.before - drift.after) == pytest.approx(0.08, abs=0.015)


def test_steady_yields_seldom_cry_wolf() -> None:
    rng = np.random.default_rng(4)
    cried = sum(bool(drifts_of(0.88, _tests(rng, [0.86] * 12))) for _ in range(100))
    assert cried <= 4


def test_few_tests_are_no_change() -> None:
    rng = np.random.default_rng(6)
    assert drifts_of(0.9, [*_tests(rng, [0.9] * 2), *_tests(rng, [0.7] * 3, start=2)]) == ()
