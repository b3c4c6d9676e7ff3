"""What tests teach: closed forms against statsmodels and scipy, and known yields found again."""

import math

import numpy as np
import pytest
import statsmodels.api as sm
from scipy import integrate, stats

from planner.yields.belief import BELIEF, Belief
from planner.yields.learned import learned, log_evidence
from planner.yields.mixture import Mixture, Normal
from planner.yields.repeats import Load

_KITCHENS = 2000


def _loads(rng: np.random.Generator, fraction: float, noise: float, count: int) -> list[Load]:
    into = rng.uniform(0.5, 6, count)
    out = into * (fraction + rng.normal(0, noise / np.sqrt(into)))
    return [Load(float(a) * 1000, float(b) * 1000) for a, b in zip(into, out, strict=True)]


def test_without_tests_the_usual_figure_stands() -> None:
    found = learned(0.88, [])
    assert found.kitchen.expected == pytest.approx(0.88)
    assert found.kitchen.low < 0.80
    assert found.kitchen.high > 0.96


def test_one_point_is_the_shrunken_ratio_of_sums() -> None:
    """With all spreads known: precision-weighted, as a conjugate normal prior gives it."""
    known = Belief(kitchen=(0.04,), supplier=(1e-9,), load=((0.03, 1.0),))
    loads = [Load(2000, 1640), Load(3000, 2430)]
    found = learned(0.88, [("", load) for load in loads], known).kitchen
    precision = 1 / 0.04**2 + 5 / 0.03**2
    mean = (0.88 / 0.04**2 + 5 / 0.03**2 * (1640 + 2430) / 5000) / precision
    assert found.expected == pytest.approx(mean)
    assert found.low == pytest.approx(stats.norm.ppf(0.05, mean, precision**-0.5), abs=1e-6)
    assert found.high == pytest.approx(stats.norm.ppf(0.95, mean, precision**-0.5), abs=1e-6)


def test_a_vague_belief_gives_weighted_least_squares() -> None:
    rng = np.random.default_rng(2)
    loads = _loads(rng, 0.8, 0.03, 20)
    vague = Belief(kitchen=(50.0,), supplier=(1e-9,), load=BELIEF.load)
    found = learned(0.5, [("", load) for load in loads], vague).kitchen
    fit = sm.WLS(
        [load.fraction for load in loads],
        np.ones(20),
        weights=[load.grams_in for load in loads],
    ).fit()
    assert found.expected == pytest.approx(fit.params[0], abs=1e-4)
    low, high = fit.conf_int(alpha=0.1)[0]
    assert (found.low, found.high) == pytest.approx((low, high), abs=0.003)


def test_suppliers_and_kitchen_are_one_joint_normal() -> None:
    """Known spreads: the joint normal of kitchen, suppliers and tests, conditioned by matrices."""
    kitchen, supplier, noise, usual = 0.05, 0.02, 0.03, 0.7
    known = Belief(kitchen=(kitchen,), supplier=(supplier,), load=((noise, 1.0),))
    loads = [("a", Load(1000, 800)), ("a", Load(2500, 1900)), ("b", Load(4000, 2600))]
    names = [name for name, _ in loads]
    same = np.array([[one == other for other in names] for one in names], dtype=float)
    kilos = np.array([load.grams_in / 1000 for _, load in loads])
    seen = np.array([load.fraction for _, load in loads])
    covariance = kitchen**2 + supplier**2 * same + np.diag(noise**2 / kilos)
    gains = np.linalg.solve(covariance, seen - usual)
    found = learned(usual, loads, known)
    assert found.kitchen.expected == pytest.approx(usual + np.full(3, kitchen**2) @ gains)
    for name in "ab":
        shared = kitchen**2 + supplier**2 * np.array([one == name for one in names], dtype=float)
        variance = kitchen**2 + supplier**2 - shared @ np.linalg.solve(covariance, shared)
        estimate = found.of(name).yields
        assert estimate.mean == pytest.approx(usual + shared @ gains)
        assert estimate.sd == pytest.approx(math.sqrt(variance))
        assert found.load(name, 2.0).sd == pytest.approx(math.sqrt(variance + noise**2 / 2))
    new = found.load("c", 2.0)
    left = kitchen**2 - np.full(3, kitchen**2) @ np.linalg.solve(covariance, np.full(3, kitchen**2))
    assert new.sd == pytest.approx(math.sqrt(left + supplier**2 + noise**2 / 2))


def test_evidence_is_the_density_of_the_tests() -> None:
    """One noise, one spread: against scipy's multivariate normal, for two ways to group."""
    known = Belief(kitchen=(0.05,), supplier=(0.02,), load=((0.03, 1.0),))
    loads = [Load(1000, 800), Load(2500, 1900), Load(4000, 2600), Load(1500, 1000)]
    kilos = np.array([load.grams_in / 1000 for load in loads])
    seen = np.array([load.fraction for load in loads])

    def density(groups: list[int]) -> float:
        same = np.array([[one == other for other in groups] for one in groups], dtype=float)
        covariance = 0.05**2 + 0.02**2 * same + np.diag(0.03**2 / kilos)
        return float(stats.multivariate_normal(np.full(4, 0.7), covariance).logpdf(seen))

    apart = log_evidence(0.7, [loads[:2], loads[2:]], known)
    together = log_evidence(0.7, [loads], known)
    assert apart - together == pytest.approx(density([0, 0, 1, 1]) - density([0, 0, 0, 0]))


def test_mixture_against_scipy() -> None:
    found = Mixture.of([Normal(2, 0.8, 0.01), Normal(1, 0.85, 0.05)])

    def density(x: float) -> float:
        return float((2 * stats.norm.pdf(x, 0.8, 0.01) + stats.norm.pdf(x, 0.85, 0.05)) / 3)

    mean = integrate.quad(lambda x: x * density(x), 0.3, 1.4, points=[0.8, 0.85])[0]
    square = integrate.quad(lambda x: (x - mean) ** 2 * density(x), 0.3, 1.4, points=[0.8])[0]
    assert found.mean == pytest.approx(mean)
    assert found.sd == pytest.approx(math.sqrt(square))
    for chance in (0.05, 0.5, 0.9):
        assert found.below(found.quantile(chance)) == pytest.approx(chance, abs=1e-5)


def test_intervals_cover_at_their_level_over_two_thousand_kitchens() -> None:
    """Kitchens drawn by the belief itself: 90 % intervals hold the truth in 88 to 92 of 100."""
    rng = np.random.default_rng(7)
    noises = np.array([noise for noise, _ in BELIEF.load])
    weights = np.array([weight for _, weight in BELIEF.load])
    weights /= weights.sum()
    kitchen = supplier = 0
    for _ in range(_KITCHENS):
        usual = rng.uniform(0.4, 0.95)
        true = usual + rng.normal(0, rng.choice(BELIEF.kitchen))
        apart = rng.choice(BELIEF.supplier)
        noise = float(rng.choice(noises, p=weights))
        theirs = true + rng.normal(0, apart, rng.integers(1, 4))
        tests = [
            (str(index), load)
            for index, fraction in enumerate(theirs)
            for load in _loads(rng, float(fraction), noise, int(rng.integers(1, 9)))
        ]
        found = learned(usual, tests)
        kitchen += _held(found.kitchen.yields, true)
        supplier += _held(found.of("0").yields, float(theirs[0]))
    assert 0.88 <= kitchen / _KITCHENS <= 0.92
    assert 0.88 <= supplier / _KITCHENS <= 0.92


def test_intervals_hold_up_where_kitchens_are_otherwise_than_believed() -> None:
    """Spreads that the belief does not have, and loads with heavier tails: 86 to 94 of 100."""
    rng = np.random.default_rng(8)
    kitchens, held = 600, 0
    for _ in range(kitchens):
        true = 0.8 + rng.normal(0, 0.04)
        noise = math.exp(rng.normal(math.log(0.025), 0.4))
        into = rng.uniform(0.5, 6, 8)
        out = into * (true + noise / np.sqrt(into) * rng.standard_t(6, 8) / math.sqrt(1.5))
        loads = [("", Load(float(a), float(b))) for a, b in zip(into * 1e3, out * 1e3, strict=True)]
        held += _held(learned(0.8, loads).of("").yields, true)
    assert 0.86 <= held / kitchens <= 0.94


def test_more_tests_say_more() -> None:
    rng = np.random.default_rng(3)
    loads = [("", load) for load in _loads(rng, 0.8, 0.03, 40)]
    widths = []
    for count in (0, 2, 8, 40):
        found = learned(0.9, loads[:count]).kitchen
        widths.append(found.high - found.low)
    assert widths == sorted(widths, reverse=True)
    assert abs(learned(0.9, loads).of("").expected - 0.8) < 0.01


def test_what_swells_scatters_in_proportion() -> None:
    pasta = learned(2.1, []).kitchen
    assert pasta.high - 2.1 == pytest.approx(2.1 * (learned(1.0, []).kitchen.high - 1.0), rel=1e-3)


def _held(found: Mixture, true: float) -> bool:
    return bool(0.05 <= found.below(true) <= 0.95)
