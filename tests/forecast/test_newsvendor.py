"""Portions by what short and left over cost, against scipy's distributions and plain search."""

import math

import numpy as np
import pytest
from scipy import stats

from planner.forecast.newsvendor import Costs, Demand, expected_cost, portions_to_make
from planner.forecast.pooling import Taker, correlations, pooled


@pytest.mark.parametrize("mean", [0.4, 3.0, 17.5, 80.0, 150.0])
@pytest.mark.parametrize("level", [0.05, 0.5, 0.8, 0.95, 0.99])
def test_without_extra_spread_it_is_scipy_s_poisson(mean: float, level: float) -> None:
    assert Demand(mean, 0.0).quantile(level) == stats.poisson.ppf(level, mean)
    assert Demand(mean, 0.0).at_most(12) == pytest.approx(stats.poisson.cdf(12, mean))


@pytest.mark.parametrize(("mean", "sd"), [(3.0, 2.5), (17.5, 6.0), (80.0, 20.0), (150.0, 16.0)])
@pytest.mark.parametrize("level", [0.05, 0.5, 0.8, 0.95, 0.99])
def test_with_spread_it_is_scipy_s_negative_binomial(mean: float, sd: float, level: float) -> None:
    share = mean / sd**2
    size = mean * share / (1 - share)
    assert Demand(mean, sd).quantile(level) == stats.nbinom.ppf(level, size, share)
    assert Demand(mean, sd).at_most(20) == pytest.approx(stats.nbinom.cdf(20, size, share))


def test_large_demand_is_normal_by_the_textbook() -> None:
    # q = mean + z sd with z the quantile of the ratio.
    ratio = 7 / 9
    assert portions_to_make(Demand(1000, 80), Costs(7, 2)) == pytest.approx(
        1000 + stats.norm.ppf(ratio) * 80, abs=1
    )


@pytest.mark.parametrize(("shortage", "leftover"), [(6, 2), (1, 1), (2, 7), (9.5, 0.5)])
def test_no_other_number_of_portions_costs_less(shortage: float, leftover: float) -> None:
    demand, costs = Demand(24, 7), Costs(shortage, leftover)
    best = min(range(80), key=lambda q: expected_cost(demand, costs, q))
    assert portions_to_make(demand, costs) == best


def test_the_cost_of_a_number_of_portions_is_that_of_many_evenings() -> None:
    demand, costs = Demand(24, 7), Costs(6, 2)
    share = 24 / 49
    guests = np.random.default_rng(1).negative_binomial(24 * share / (1 - share), share, 200_000)
    evenings = 6 * np.maximum(guests - 28, 0) + 2 * np.maximum(28 - guests, 0)
    assert expected_cost(demand, costs, 28) == pytest.approx(float(evenings.mean()), rel=0.02)


def test_food_that_keeps_is_made_for_more_and_for_no_less() -> None:
    demand = Demand(24, 7)
    today, two, week = (portions_to_make(demand, Costs(3, 2, keeps)) for keeps in (1, 2, 7))
    assert today < two <= week
    assert week >= demand.quantile(0.99)


def test_what_keeps_is_weighed_as_simulated_evenings_weigh_it() -> None:
    # Made once, sold for two days; what the second day leaves is lost.
    dice, share = np.random.default_rng(2), 10 / 36
    days = dice.negative_binomial(10 * share / (1 - share), share, (2, 400_000))
    first, both = days[0], days.sum(axis=0)

    def money(q: int) -> float:
        return float(3 * np.maximum(first - q, 0).mean() + 2 * np.maximum(q - both, 0).mean())

    best = min(range(60), key=money)
    assert abs(portions_to_make(Demand(10, 6), Costs(3, 2, keeps=2)) - best) <= 1


def test_the_shared_onion_needs_less_safety_than_the_sum() -> None:
    takers = [Taker(dish, 60.0, Demand(30, 8), Costs(9, 1)) for dish in ("soup", "stew", "tart")]
    apart = pooled(takers, np.ones((3, 3)).tolist())
    half = pooled(takers, [[1, 0.3, 0.3], [0.3, 1, 0.3], [0.3, 0.3, 1]])
    none = pooled(takers, np.eye(3).tolist())
    assert none.together < half.together < apart.together <= apart.apart
    # Independent and alike: the buffer grows with the square root of how many there are.
    one = 60 * 8 * stats.norm.ppf(0.9)
    assert none.together - none.expected == pytest.approx(math.sqrt(3) * one)


def test_what_keeps_is_worth_more_of_the_shared_onion_too() -> None:
    """Dishes that rise and fall as one need together what they need apart, whatever they keep."""
    for keeps in (1, 3):
        costs = Costs(3, 1, keeps=keeps)
        takers = [Taker(dish, 60.0, Demand(400, 60), costs) for dish in ("soup", "stew")]
        found = pooled(takers, np.ones((2, 2)).tolist())
        assert found.together == pytest.approx(found.apart, rel=0.005)


def test_the_pool_s_spread_is_that_of_drawn_demands() -> None:
    table = np.array([[1, 0.5], [0.5, 1]])
    draws = np.random.default_rng(3).multivariate_normal(
        [40, 20], np.outer([9, 6], [9, 6]) * table, 300_000
    )
    takers = [
        Taker("soup", 50.0, Demand(40, 9), Costs(4, 1)),
        Taker("stew", 80.0, Demand(20, 6), Costs(4, 1)),
    ]
    grams = draws @ np.array([50.0, 80.0])
    found = pooled(takers, table.tolist())
    assert found.sd == pytest.approx(float(grams.std()), rel=0.01)
    assert found.together == pytest.approx(float(np.quantile(grams, 0.8)), rel=0.01)


def test_how_dishes_rise_together_is_read_from_history_and_guessed_where_it_is_short() -> None:
    dice = np.random.default_rng(4)
    common = dice.normal(size=400)
    both = correlations([(common + dice.normal(size=400)).tolist() for _ in range(2)])
    assert both[0][1] == pytest.approx(0.5, abs=0.1)
    assert correlations([[1.0], [2.0]]) == ((1.0, 0.5), (0.5, 1.0))


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="mean of a demand"):
        Demand(-1, 1)
    with pytest.raises(ValueError, match="not both zero"):
        Costs(0, 0)
    with pytest.raises(ValueError, match="one day or more"):
        Costs(1, 1, keeps=0)
    with pytest.raises(ValueError, match="2 by 2"):
        pooled([Taker("a", 1, Demand(1, 1), Costs(1, 1))] * 2, [[1.0]])
    with pytest.raises(ValueError, match="from -1 to 1"):
        pooled([Taker("a", 1, Demand(1, 1), Costs(1, 1))] * 2, [[1.0, 2.0], [2.0, 1.0]])
