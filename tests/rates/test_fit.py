"""Rates that are known are found again, with the doubt that is stated."""

import math

import numpy as np
import pytest
from scipy.optimize import least_squares

from planner.rates.fit import Beliefs, learn_skill
from planner.rates.types import Book, Key, Kind, Observation
from tests.rates.simulated import SKILL, cook_key, ticked_kitchen

SET_UP = Key(Kind.SET_UP, operation="dice")
RATE = Key(Kind.RATE, operation="dice", food="onion")
ANA, BEN = cook_key("ana"), cook_key("ben")
BOOKS = {key: Book(key, value) for key, value in ((SET_UP, 2), (RATE, 4), (ANA, 1), (BEN, 1))}


def batch(units: float, minutes: float, cook: Key = ANA) -> Observation:
    return Observation(SKILL, cook, RATE, SET_UP, units, minutes, source="Tue ana 1")


def test_of_simulated_kitchens_90_percent_intervals_hold_the_truth_in_88_to_92() -> None:
    # 600 here; tests/bench/rates.py goes over 2,000 of each kind.
    held = found = 0
    for seed in range(600):
        kitchen = ticked_kitchen(seed, batches=40)
        for figure in learn_skill(kitchen.observations, kitchen.books).figures:
            low, high = figure.interval(0.9)
            found += 1
            held += low <= kitchen.truth[figure.key] <= high
    assert found > 5000
    assert 0.88 <= held / found <= 0.92


def test_what_was_ticked_wrongly_is_told_from_what_was_not() -> None:
    named = right = wrong = 0
    for seed in range(40):
        kitchen = ticked_kitchen(seed, batches=80)
        learned = learn_skill(kitchen.observations, kitchen.books)
        doubtful = {int(one.observation.source[1:]) for one in learned.doubtful}
        named += len(doubtful)
        right += len(doubtful & kitchen.wrong)
        wrong += len(kitchen.wrong)
    assert right / named > 0.85  # whoever is asked has mostly ticked wrongly
    assert right / wrong > 0.8


def test_a_tick_of_three_hours_is_no_onion_of_three_hours() -> None:
    right = [batch(units, 2 + 4.4 * units) for units in (1, 1.5, 2, 3, 4, 5, 2.5, 3.5)]
    learned = learn_skill([*right, batch(2, 190)], BOOKS)
    (rate,) = [one for one in learned.figures if one.key == RATE]
    slowness = next(one for one in learned.figures if one.key == ANA).value
    assert rate.value * slowness == pytest.approx(4.4, rel=0.06)
    assert [one.observation.minutes for one in learned.doubtful] == [190]
    assert learned.doubtful[0].usual == pytest.approx(10.8, rel=0.08)


def test_with_many_batches_the_book_is_forgotten() -> None:
    dice = np.random.default_rng(3)
    found = [
        batch(units, (5 + 9 * units) * math.exp(dice.normal(0, 0.1)))
        for units in dice.uniform(0.5, 5, 300)
    ]
    figures = {one.key: one.value for one in learn_skill(found, BOOKS).figures}
    assert figures[SET_UP] == pytest.approx(5, rel=0.06)
    assert figures[RATE] * figures[ANA] == pytest.approx(9, rel=0.03)


def test_without_wrong_ticks_it_agrees_with_scipy_s_least_squares() -> None:
    # Same priors of no weight, no wrong ticks: both are the plain least squares of logarithms.
    dice = np.random.default_rng(5)
    units = dice.uniform(0.5, 5, 120)
    minutes = (3 + 6 * units) * np.exp(dice.normal(0, 0.15, 120))
    loose = Beliefs(set_up=50, rate=50, cooks=1e-4, cooks_weight=1e6, wrong=1e-9, wrong_weight=1e9)
    ours = learn_skill([batch(u, m) for u, m in zip(units, minutes, strict=True)], BOOKS, loose)

    def off(theta: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
        return np.log(np.exp(theta[0]) + units * np.exp(theta[1])) - np.log(minutes)

    theirs = np.exp(least_squares(off, np.log([2.0, 4.0])).x)
    found = {one.key: one.value for one in ours.figures}
    assert found[SET_UP] == pytest.approx(theirs[0], rel=1e-3)
    assert found[RATE] == pytest.approx(theirs[1], rel=1e-3)


def test_with_the_file_as_prior_and_two_cooks_it_agrees_with_scipy_too() -> None:
    # What is known of the spreads is fixed, so that both look for the same maximum.
    dice = np.random.default_rng(7)
    held = Beliefs(
        set_up=0.6,
        rate=0.5,
        cooks=0.2,
        cooks_weight=1e9,
        spread=0.3,
        spread_weight=1e9,
        wrong=1e-9,
        wrong_weight=1e9,
    )
    units, of_ben = dice.uniform(0.1, 1.0, 30), dice.random(30) < 0.4
    minutes = (6 + 6 * units * np.where(of_ben, 1.8, 0.9)) * np.exp(dice.normal(0, 0.3, 30))
    found = [batch(u, m, BEN if b else ANA) for u, m, b in zip(units, minutes, of_ben, strict=True)]
    prior, sds = np.log([2.0, 4.0, 1.0, 1.0]), np.array([0.6, 0.5, 0.2, 0.2])

    def off(theta: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
        pace = np.where(of_ben, theta[3], theta[2])
        usual = np.log(np.exp(theta[0]) + units * np.exp(theta[1] + pace))
        return np.concatenate([(usual - np.log(minutes)) / 0.3, (theta - prior) / sds])

    theirs = np.exp(least_squares(off, prior, xtol=1e-12, ftol=1e-12).x)
    ours = {one.key: one.value for one in learn_skill(found, BOOKS, held).figures}
    # Ours is averaged over spreads of cooks near the fixed one.
    assert [ours[k] for k in (SET_UP, RATE, ANA, BEN)] == pytest.approx(theirs.tolist(), rel=2e-3)


def test_a_cook_of_few_batches_is_taken_to_be_much_as_the_file_says() -> None:
    dice = np.random.default_rng(9)

    def ticked(count: int, times: float, cook: Key) -> list[Observation]:
        return [
            batch(u, (2 + 4 * times * u) * math.exp(dice.normal(0, 0.25)), cook)
            for u in np.linspace(1, 5, count)
        ]

    many = ticked(60, 1.0, ANA)
    few = {f.key: f for f in learn_skill([*many, batch(3, 2 + 12 * 1.4, BEN)], BOOKS).figures}
    full = {f.key: f for f in learn_skill([*many, *ticked(60, 1.4, BEN)], BOOKS).figures}
    ratio, of_many = (f[BEN].value / f[ANA].value for f in (few, full))
    assert 1.02 < ratio < 1.25
    assert of_many == pytest.approx(1.4, rel=0.1)
    assert few[BEN].doubt > full[BEN].doubt


def test_nothing_to_learn_from_or_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one"):
        learn_skill([], BOOKS)
    with pytest.raises(ValueError, match="Tue ana 1: -1 minutes"):
        learn_skill([batch(1, -1)], BOOKS)
    with pytest.raises(ValueError, match="nan units"):
        learn_skill([batch(math.nan, 4)], BOOKS)
    with pytest.raises(ValueError, match="no figure for"):
        learn_skill([batch(1, 4)], {RATE: BOOKS[RATE], SET_UP: BOOKS[SET_UP]})
    with pytest.raises(ValueError, match="above zero"):
        Book(RATE, 0)
