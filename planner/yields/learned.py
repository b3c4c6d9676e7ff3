"""A yield learned from tests: usual figure -> kitchen -> supplier, each drawn to the one above.

Likelihood. The yield of a load of a grams is normal about its supplier's yield with variance
noise / a, so that what a supplier's tests say is their ratio of sums, R = sum out / sum in, with
variance noise / sum in. A supplier's yield is normal about the kitchen's, the kitchen's about the
usual figure. For given spreads and noise all of this is normal and in closed form; spreads and
noise are integrated over a grid (:class:`planner.yields.belief.Belief`), each point weighted by how
well it explains the tests. What comes out is a mixture of normals.

Source: partial pooling in the normal model with unknown spreads, Gelman et al., *Bayesian Data
Analysis*, chapter 5 (from memory); the closed forms are checked against statsmodels in the tests.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from planner.yields.belief import BELIEF, Belief
from planner.yields.mixture import Mixture, Normal
from planner.yields.repeats import Load

_GRAMS = 1000.0
_INTERVAL = 0.9


@dataclass(frozen=True, slots=True)
class Sums:
    """What one supplier's tests come to: kilograms in, ratio of sums, squares about it, number."""

    kilos: float
    ratio: float
    squares: float
    tests: int


@dataclass(frozen=True, slots=True)
class Estimate:
    """A yield, as what is known of it: expected, a 90 % interval, and the tests behind it."""

    yields: Mixture
    tests: int
    kilos: float

    @property
    def expected(self) -> float:
        """The mean."""
        return self.yields.mean

    @property
    def low(self) -> float:
        """The lower end of the 90 % interval."""
        return self.yields.quantile((1 - _INTERVAL) / 2)

    @property
    def high(self) -> float:
        """The upper end of it."""
        return self.yields.quantile((1 + _INTERVAL) / 2)


@dataclass(frozen=True, slots=True)
class Learned:
    """What the tests of one food, operation and cut say.

    Attributes
    ----------
    kitchen
        The yield of a supplier that is not known yet, or of all together.
    suppliers
        By name; the empty name are tests that name none, which count as one supplier more.
    noise
        Of a load of a kilogram, as a standard deviation; what it is expected to be.
    """

    usual: float
    kitchen: Estimate
    suppliers: dict[str, Estimate]
    noise: float
    _next: "_Ahead" = field(repr=False, compare=False)

    def of(self, supplier: str) -> Estimate:
        """A supplier's yield, or the kitchen's where nothing of them was tested."""
        return self.suppliers.get(supplier, self.kitchen)

    def load(self, supplier: str, kilos: float) -> Mixture:
        """The yield that one more load of so many ``kilos`` will have."""
        return self._next.load(supplier, kilos)


@dataclass(frozen=True, slots=True)
class _Point:
    """One point of the grid, with the kitchen's yield given it and how well it explains all."""

    weight: float
    kitchen: Normal
    supplier_variance: float
    noise: float


@dataclass(frozen=True, slots=True)
class _Ahead:
    """What is needed to say what the next load will give."""

    points: tuple[_Point, ...]
    sums: dict[str, Sums]

    def load(self, supplier: str, kilos: float) -> Mixture:
        one = self.sums.get(supplier)
        return Mixture.of([self._given(point, one, kilos) for point in self.points])

    @staticmethod
    def _given(point: _Point, one: Sums | None, kilos: float) -> Normal:
        known = point.kitchen
        variance = known.sd**2 + point.supplier_variance
        if one is not None:
            known = _pooled(one, point)
            variance = known.sd**2
        return Normal(point.weight, known.mean, math.sqrt(variance + point.noise / kilos))


def learned(usual: float, loads: Iterable[tuple[str, Load]], belief: Belief = BELIEF) -> Learned:
    """Learn from tests, each with its supplier (or the empty name). Without any: the belief."""
    sums = sums_of(loads)
    suited = belief.at(usual)
    points = tuple(_points(usual, tuple(sums.values()), suited))
    total = math.fsum(point.weight for point in points)
    kitchen = Mixture.of([_weighted(point.kitchen, point.weight / total) for point in points])
    suppliers = {
        name: Estimate(_supplier(one, points), one.tests, one.kilos) for name, one in sums.items()
    }
    return Learned(
        usual=usual,
        kitchen=Estimate(
            kitchen, sum(one.tests for one in sums.values()), sum(s.kilos for s in sums.values())
        ),
        suppliers=suppliers,
        noise=math.sqrt(math.fsum(p.weight / total * p.noise for p in points)),
        _next=_Ahead(points, sums),
    )


def next_load(
    usual: float,
    loads: Iterable[tuple[str, Load]],
    supplier: str,
    kilos: float,
    belief: Belief = BELIEF,
) -> Mixture:
    """What ``learned(usual, loads).load(supplier, kilos)`` says, and nothing else worked out."""
    sums = sums_of(loads)
    points = tuple(_points(usual, tuple(sums.values()), belief.at(usual)))
    return _Ahead(points, sums).load(supplier, kilos)


def sums_of(loads: Iterable[tuple[str, Load]]) -> dict[str, Sums]:
    """Tests summed up by supplier."""
    by_name: dict[str, list[Load]] = defaultdict(list)
    for name, load in loads:
        by_name[name].append(load)
    return {name: _sums(group) for name, group in by_name.items()}


def _sums(loads: Sequence[Load]) -> Sums:
    kilos = sum(load.grams_in for load in loads) / _GRAMS
    ratio = sum(load.grams_out for load in loads) / _GRAMS / kilos
    squares = sum(load.grams_in / _GRAMS * (load.fraction - ratio) ** 2 for load in loads)
    return Sums(kilos, ratio, squares, len(loads))


def log_evidence(usual: float, groups: Sequence[Sequence[Load]], belief: Belief = BELIEF) -> float:
    """Log of how well tests are explained by being of these groups, each with a yield of its own.

    Up to a constant that is the same for every way to group the same tests.
    """
    sums = [_sums(group) for group in groups]
    fits = [fit for fit, *_ in _grid(usual, sums, belief.at(usual))]
    best = max(fits)
    scale = sum(math.log(one.kilos) for one in sums) / 2
    return best + math.log(math.fsum(math.exp(fit - best) for fit in fits)) - scale


def _grid(
    usual: float, sums: Sequence[Sums], belief: Belief
) -> list[tuple[float, Normal, float, float]]:
    return [
        (math.log(weight) + fit, kitchen, sd * sd, noise * noise)
        for noise, weight in belief.load
        for sd in belief.supplier
        for spread in belief.kitchen
        for fit, kitchen in (_given(usual, sums, spread * spread, sd * sd, noise * noise),)
    ]


def _points(usual: float, sums: Sequence[Sums], belief: Belief) -> Iterator[_Point]:
    found = _grid(usual, sums, belief)
    best = max(fit for fit, *_ in found)
    for fit, kitchen, supplier, noise in found:
        yield _Point(math.exp(fit - best), kitchen, supplier, noise)


def _given(
    usual: float, sums: Sequence[Sums], kitchen: float, supplier: float, noise: float
) -> tuple[float, Normal]:
    """Log of how well these variances explain the tests, and the kitchen's yield given them.

    Suppliers' ratios are taken in one by one: each is first predicted, then learned from.
    """
    mean, variance, fit = usual, kitchen, 0.0
    for one in sums:
        own = supplier + noise / one.kilos
        off = one.ratio - mean
        ahead = variance + own
        fit -= (math.log(ahead) + off * off / ahead) / 2
        fit -= ((one.tests - 1) * math.log(noise) + one.squares / noise) / 2
        gain = variance / ahead
        mean += gain * off
        variance *= 1 - gain
    return fit, Normal(1.0, mean, math.sqrt(variance))


def _supplier(one: Sums, points: Sequence[_Point]) -> Mixture:
    """A supplier's yield: between the kitchen's, seen without it, and its own ratio of sums.

    The kitchen's yield with this supplier taken out is found by undoing the step in ``_given``.
    """
    return Mixture.of([_weighted(_pooled(one, point), point.weight) for point in points])


def _pooled(one: Sums, point: _Point) -> Normal:
    kitchen = point.kitchen.sd**2
    own = point.supplier_variance + point.noise / one.kilos
    without = 1 / (1 / kitchen - 1 / own)
    centre = without * (point.kitchen.mean / kitchen - one.ratio / own)
    prior = without + point.supplier_variance
    load = point.noise / one.kilos
    gain = prior / (prior + load)
    return Normal(1.0, centre + gain * (one.ratio - centre), math.sqrt(prior * (1 - gain)))


def _weighted(normal: Normal, weight: float) -> Normal:
    return Normal(weight, normal.mean, normal.sd)
