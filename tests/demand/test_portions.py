"""Portions to be ready for, against scipy's distributions."""

import math
import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from planner.demand.portions import (
    Agreed,
    AtCosts,
    AtLevel,
    Covers,
    Draw,
    Flat,
    covers_masses,
    joint_quantile,
    portions_quantile,
    portions_to_prepare,
)

LEVELS = (0.05, 0.5, 0.8, 0.9, 0.99)


def mixture_quantile(mean: int, spread: float, per_cover: float, level: float) -> int:
    """The same quantile from scipy: every whole count of covers within six deviations."""
    deviation = mean * spread
    counts = np.arange(
        max(0, math.ceil(mean - 6 * deviation)), math.floor(mean + 6 * deviation) + 1
    )
    edges = np.append(counts - 0.5, counts[-1] + 0.5)
    weights = np.diff(stats.norm.cdf(edges, mean, deviation))
    weights /= weights.sum()
    portions = np.arange(int(mean * per_cover * (1 + 8 * spread)) + 60)
    orders = (
        stats.binom(counts[:, None], per_cover)
        if per_cover <= 1
        else stats.poisson(counts[:, None] * per_cover)
    )
    cumulated = (weights[:, None] * orders.cdf(portions[None, :])).sum(axis=0)
    return int(np.argmax(cumulated >= level))


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("covers", [1, 7, 96, 500])
@pytest.mark.parametrize("per_cover", [0.02, 0.35, 0.9])
def test_sure_covers_give_the_binomial_quantile(
    covers: int, per_cover: float, level: float
) -> None:
    expected = stats.binom.ppf(level, covers, per_cover)
    assert portions_quantile(Covers(covers), per_cover, level) == expected


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("covers", [1, 40, 300])
@pytest.mark.parametrize("per_cover", [1.2, 3.0])
def test_several_per_cover_give_the_poisson_quantile(
    covers: int, per_cover: float, level: float
) -> None:
    expected = stats.poisson.ppf(level, covers * per_cover)
    assert portions_quantile(Covers(covers), per_cover, level) == expected


@pytest.mark.parametrize("level", [0.2, 0.8, 0.9, 0.95])
@pytest.mark.parametrize("spread", [0.03, 0.08, 0.25])
@pytest.mark.parametrize(
    ("covers", "per_cover"),
    [(12, 0.4), (96, 0.35), (500, 0.35), (500, 0.97), (220, 1.0), (80, 2.5)],
)
def test_uncertain_covers_give_the_mixture_quantile(
    covers: int, per_cover: float, spread: float, level: float
) -> None:
    """Within a portion, or a five-hundredth: covers are cut at four deviations, and thinned."""
    expected = mixture_quantile(covers, spread, per_cover, level)
    found = portions_quantile(Covers(covers, spread), per_cover, level)
    assert abs(found - expected) <= max(1, expected / 500)


def test_the_newsvendor_ratio_is_the_level() -> None:
    rule = AtCosts(shortage=9.0, leftover=3.0)
    assert rule.ratio == pytest.approx(0.75)
    covers = Covers(120, 0.1)
    assert (
        portions_to_prepare(covers, 0.3, rule).total
        == portions_quantile(covers, 0.3, 0.75)
        == mixture_quantile(120, 0.1, 0.3, 0.75)
    )


def test_the_newsvendor_total_has_the_least_expected_cost() -> None:
    """Brute force over every total with scipy's binomial: no other total costs less."""
    shortage, leftover = 7.0, 2.0
    ordered = np.arange(81)
    chance = stats.binom.pmf(ordered, 80, 0.4)

    def cost(total: int) -> float:
        short = np.maximum(ordered - total, 0) * shortage
        over = np.maximum(total - ordered, 0) * leftover
        return float((chance * (short + over)).sum())

    total = portions_to_prepare(Covers(80), 0.4, AtCosts(shortage, leftover)).total
    assert cost(total) == pytest.approx(min(cost(k) for k in range(81)))


def test_a_dear_leftover_means_fewer_than_expected() -> None:
    portions = portions_to_prepare(Covers(100), 0.4, AtCosts(shortage=1.0, leftover=9.0))
    assert portions.total < portions.expected
    assert portions.buffer == portions.total - 40 < 0


def test_a_free_leftover_still_ends() -> None:
    assert portions_to_prepare(Covers(100), 0.4, AtCosts(1.0, 0.0)).total <= 100


@pytest.mark.parametrize("costs", [(0.0, 0.0), (-1.0, 2.0)])
def test_costs_without_a_ratio_are_refused(costs: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="not both zero"):
        _ = AtCosts(*costs).ratio


@settings(max_examples=60, deadline=None)
@given(
    covers=st.integers(0, 400),
    more=st.integers(1, 60),
    spread=st.sampled_from([0.0, 0.05, 0.2]),
    per_cover=st.floats(0.0, 3.0),
    level=st.sampled_from([0.5, 0.8, 0.95]),
)
def test_more_covers_never_want_fewer_portions(
    covers: int, more: int, spread: float, per_cover: float, level: float
) -> None:
    fewer = portions_to_prepare(Covers(covers, spread), per_cover, AtLevel(level)).total
    assert portions_to_prepare(Covers(covers + more, spread), per_cover, AtLevel(level)).total >= (
        fewer
    )


@pytest.mark.parametrize("rule", [AtLevel(0.9), AtCosts(3.0, 1.0), Flat(0.1), Agreed(0)], ids=str)
def test_no_covers_want_nothing(rule: AtLevel | AtCosts | Flat | Agreed) -> None:
    portions = portions_to_prepare(Covers(0, 0.2), 0.5, rule)
    assert (portions.expected, portions.total, portions.buffer) == (0, 0, 0)


def test_a_dish_everybody_orders_has_only_the_noise_of_covers() -> None:
    assert portions_quantile(Covers(60), 1.0, 0.99) == 60
    assert portions_quantile(Covers(60, 0.1), 1.0, 0.9) == pytest.approx(
        stats.norm.ppf(0.9, 60, 6), abs=1
    )


def test_a_rare_dish_is_never_below_its_expectation() -> None:
    """The 90 % quantile of Binomial(20, 0.004) is none, yet the menu offers it."""
    assert portions_quantile(Covers(20), 0.004, 0.9) == 0
    assert portions_to_prepare(Covers(20), 0.004, AtLevel(0.9)).total == 1


def test_a_flat_buffer_rounds_up_once_and_not_for_a_binary_fraction() -> None:
    assert portions_to_prepare(Covers(96, 0.3), 0.35, Flat(0.10)).total == 37  # 36.96
    assert portions_to_prepare(Covers(100), 0.07, Flat(0.0)).total == 7  # 7.000000000000001


def test_a_banquet_is_ready_for_guaranteed_plus_overset() -> None:
    portions = portions_to_prepare(Covers(80), 0.5, Agreed(overset=5))
    assert (portions.expected, portions.total, portions.buffer) == (40, 43, 3)


@pytest.mark.parametrize(("covers", "spread"), [(10, 0.3), (500, 0.08), (4, 1.0), (2000, 0.5)])
def test_the_chances_of_covers_sum_to_one_and_keep_the_mean(covers: int, spread: float) -> None:
    masses = covers_masses(Covers(covers, spread), 0.35)
    assert sum(weight for _, weight in masses) == pytest.approx(1)
    assert min(count for count, _ in masses) >= 0
    if spread < 0.25:
        mean = sum(count * weight for count, weight in masses)
        assert mean == pytest.approx(covers, rel=1e-3)


def test_five_hundred_covers_take_milliseconds() -> None:
    """A menu of thirty dishes stays far below a second; the bound is loose for a busy machine."""
    begun = time.perf_counter()
    portions_quantile(Covers(500, 0.08), 0.35, 0.9)
    assert time.perf_counter() - begun < 0.05


def draws(covers: Covers, *lines: tuple[float, float]) -> list[Draw]:
    return [Draw(grams, m, portions_quantile(covers, m, 0.9)) for grams, m in lines]


def test_a_joint_buffer_lies_between_the_mean_and_the_single_totals() -> None:
    covers = Covers(150, 0.08)
    shared = draws(covers, (60, 0.3), (40, 0.2), (25, 0.5))
    mean = 150 * sum(draw.grams * draw.per_cover for draw in shared)
    apart = sum(draw.grams * draw.total for draw in shared)
    assert mean < joint_quantile(covers, shared, 0.9) < apart


def test_a_joint_buffer_agrees_with_the_exact_sum_of_two_binomials() -> None:
    """Two dishes of one gram size: their sum, convolved by scipy's masses, is within 1 %."""
    first = stats.binom.pmf(np.arange(201), 200, 0.3)
    second = stats.binom.pmf(np.arange(201), 200, 0.2)
    exact = int(np.argmax(np.cumsum(np.convolve(first, second)) >= 0.9))
    covers = Covers(200)
    found = joint_quantile(covers, draws(covers, (50, 0.3), (50, 0.2)), 0.9)
    assert found / 50 == pytest.approx(exact, rel=0.01)


def test_a_joint_buffer_of_one_dish_is_its_own() -> None:
    covers = Covers(96, 0.08)
    (only,) = draws(covers, (60, 0.35))
    assert joint_quantile(covers, [only], 0.9) == only.grams * only.total
    assert joint_quantile(covers, [], 0.9) == 0


def test_a_joint_buffer_is_capped_where_the_dishes_want_less() -> None:
    frugal = [Draw(10, 0.5, 40), Draw(10, 0.5, 40)]
    assert joint_quantile(Covers(100), frugal, 0.9) == 800


@pytest.mark.parametrize(
    "make",
    [
        lambda: Covers(-1),
        lambda: Covers(10, 1.5),
        lambda: AtLevel(1.0),
        lambda: portions_quantile(Covers(10), -0.1, 0.9),
    ],
)
def test_values_out_of_range_are_refused_with_the_value(make: object) -> None:
    with pytest.raises(ValueError, match=r"not (-1|1\.5|1\.0|-0\.1)$"):
        make()  # type: ignore[operator]
