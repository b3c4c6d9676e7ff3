"""How many portions to be ready for, when covers and menu mix are both uncertain.

The number of covers N is a discretised normal, cut off at zero. Given N, a dish that a cover orders
at most once is Binomial(N, m), m being its share of covers; where a cover may order several, m
above 1, counts are Poisson(N m). Portions X are the mixture of these over N, summed exactly.

Source of the newsvendor ratio and of the quantile rule: common practice in inventory theory.
"""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from statistics import NormalDist

_REACH = 4.0
"""Covers are counted to so many standard deviations either side of the forecast."""
_POINTS = 41
"""Fewest points of the covers mixture, where it is not small enough to take every integer."""
_NEGLIGIBLE = 1e-18
_ROUNDING = 1e-9
"""Keeps 100 x 0.07 = 7.000000000000001 from becoming eight portions."""
_HIGHEST_LEVEL = 0.999
"""A leftover that costs nothing would ask for endless portions; this is as sure as we get."""


@dataclass(frozen=True, slots=True)
class Covers:
    """Forecast covers; ``spread`` is their standard deviation / ``mean``."""

    mean: int
    spread: float = 0.0

    def __post_init__(self) -> None:
        if self.mean < 0:
            raise ValueError(f"covers are zero or more, not {self.mean}")
        if not 0 <= self.spread <= 1:
            raise ValueError(f"the spread of covers lies from 0 to 1, not {self.spread}")


@dataclass(frozen=True, slots=True)
class AtLevel:
    """Ready for what is ordered with chance ``level``, and for no less than the expectation."""

    level: float

    def __post_init__(self) -> None:
        if not 0 < self.level < 1:
            raise ValueError(f"a service level lies between 0 and 1, not {self.level}")


@dataclass(frozen=True, slots=True)
class AtCosts:
    """Weighs a portion short against one left over, in the kitchen's money.

    The total falls below the expectation where a leftover costs more than a shortage.
    """

    shortage: float
    leftover: float

    @property
    def ratio(self) -> float:
        """Newsvendor ratio, shortage / (shortage + leftover): the chance worth being ready for."""
        if self.shortage < 0 or self.leftover < 0 or self.shortage + self.leftover <= 0:
            raise ValueError(
                "shortage and leftover cost are zero or more and not both zero, not "
                f"{self.shortage} and {self.leftover}"
            )
        return min(self.shortage / (self.shortage + self.leftover), _HIGHEST_LEVEL)


@dataclass(frozen=True, slots=True)
class Flat:
    """The simple way: a fraction on top of the expectation."""

    fraction: float


@dataclass(frozen=True, slots=True)
class Agreed:
    """A banquet: covers are guaranteed, and ``overset`` more were agreed."""

    overset: int = 0


BufferRule = AtLevel | AtCosts | Flat | Agreed


@dataclass(frozen=True, slots=True)
class Portions:
    """``expected`` mean portions and the whole portions, ``total``, to be ready for."""

    expected: float
    total: int

    @property
    def buffer(self) -> int:
        """Whole portions on top of the rounded-up expectation; below zero only by costs."""
        return self.total - whole(self.expected)


def whole(portions: float) -> int:
    """Round up to whole portions, forgiving the last digits of a binary fraction."""
    return math.ceil(portions - _ROUNDING)


@lru_cache(maxsize=1024)
def portions_to_prepare(covers: Covers, per_cover: float, rule: BufferRule) -> Portions:
    """Work out expected and total portions of one dish at one service.

    Kept, since one plan asks for the same dish a dozen times.

    Parameters
    ----------
    covers
        Forecast; the guaranteed count where ``rule`` is `Agreed`.
    per_cover
        Portions per cover, m.
    rule
        How the buffer is set.
    """
    expected = covers.mean * per_cover
    match rule:
        case AtLevel(level):
            total = max(whole(expected), portions_quantile(covers, per_cover, level))
        case AtCosts():
            total = portions_quantile(covers, per_cover, rule.ratio)
        case Flat(fraction):
            total = whole(expected * (1 + fraction))
        case Agreed(overset):
            total = whole((covers.mean + overset) * per_cover)
    return Portions(expected, total)


def portions_quantile(covers: Covers, per_cover: float, level: float) -> int:
    """Return the smallest k with P(X <= k) >= ``level``, X being the portions ordered."""
    if per_cover < 0:
        raise ValueError(f"portions per cover are zero or more, not {per_cover}")
    masses: defaultdict[int, float] = defaultdict(float)
    for count, weight in covers_masses(covers, per_cover):
        orders = _binomial(count, per_cover) if per_cover <= 1 else _poisson(count * per_cover)
        for portions, mass in orders:
            masses[portions] += weight * mass
    cumulated = 0.0
    highest = 0
    for highest in sorted(masses):
        cumulated += masses[highest]
        if cumulated >= level - 1e-12:
            break
    return highest


def covers_masses(covers: Covers, per_cover: float) -> list[tuple[int, float]]:
    """Discretise the normal of covers: (count, probability), probabilities summing to 1.

    Every whole number within four standard deviations where these are few. Else evenly spaced
    counts, each with the mass of its cell, and at least so dense that the menu mix's own noise at
    neighbouring counts overlaps: then the mixture is as good as exact and its cost stays bounded.
    """
    deviation = covers.mean * covers.spread
    if deviation == 0:
        return [(covers.mean, 1.0)]
    low = max(0, math.ceil(covers.mean - _REACH * deviation))
    high = math.floor(covers.mean + _REACH * deviation)
    noise = math.sqrt(covers.mean * _mix_variance(per_cover))
    dense = math.ceil((high - low) * per_cover / noise) if noise > 0 else high - low + 1
    points = min(high - low + 1, max(_POINTS, dense))
    if points < 2:
        return [(covers.mean, 1.0)]
    gap = (high - low) / (points - 1)
    counts = [round(low + gap * index) for index in range(points)]
    inner = [(left + right) / 2 for left, right in pairwise(counts)]
    edges = [low - gap / 2, *inner, high + gap / 2]
    below = [NormalDist(covers.mean, deviation).cdf(edge) for edge in edges]
    all_of_it = below[-1] - below[0]
    return [
        (count, (right - left) / all_of_it)
        for count, (left, right) in zip(counts, pairwise(below), strict=True)
    ]


@dataclass(frozen=True, slots=True)
class Draw:
    """What one dish draws from a shared component.

    ``grams`` per portion, ``per_cover`` portions per cover, and the ``total`` portions the dish
    alone is ready for.
    """

    grams: float
    per_cover: float
    total: int


def joint_quantile(covers: Covers, draws: Sequence[Draw], level: float) -> float:
    """Grams of a component shared by dishes of one service, with one buffer for them all.

    Each dish's own buffer covers its own unlucky day; these do not fall on one day, so the sum of
    buffers is more than ``level`` asks for. Normal approximation of the sum of grams: mean
    N sum(g m); variance N sum(g^2 v) + (sum(g m) N spread)^2 with v = m (1 - m) up to one portion
    per cover and m above. Dishes are taken as independent given N; where they compete for the same
    cover the truth is a little narrower, so this errs to the safe side.

    Returns
    -------
    float
        Grams: never below the mean, never above the sum of the single dishes' totals, which wins.
    """
    ceiling = sum(draw.grams * draw.total for draw in draws)
    if len(draws) < 2:
        return ceiling
    per_cover = sum(draw.grams * draw.per_cover for draw in draws)
    mean = covers.mean * per_cover
    within = covers.mean * sum(draw.grams**2 * _mix_variance(draw.per_cover) for draw in draws)
    between = (per_cover * covers.mean * covers.spread) ** 2
    deviation = math.sqrt(within + between)
    wanted = mean + NormalDist().inv_cdf(level) * deviation
    return min(max(mean, wanted), ceiling)


def _mix_variance(per_cover: float) -> float:
    return per_cover * (1 - per_cover) if per_cover <= 1 else per_cover


def _binomial(trials: int, share: float) -> Iterator[tuple[int, float]]:
    """Yield (k, P(k)) outwards from the mode, as far as it matters."""
    if share in (0, 1) or trials == 0:
        yield round(trials * share), 1.0
        return
    odds = share / (1 - share)
    mode = min(trials, math.floor((trials + 1) * share))
    peak = math.exp(
        math.lgamma(trials + 1)
        - math.lgamma(mode + 1)
        - math.lgamma(trials - mode + 1)
        + mode * math.log(share)
        + (trials - mode) * math.log1p(-share)
    )
    yield mode, peak
    mass = peak
    for count in range(mode + 1, trials + 1):
        mass *= odds * (trials - count + 1) / count
        if mass < _NEGLIGIBLE:
            break
        yield count, mass
    mass = peak
    for count in range(mode, 0, -1):
        mass *= count / (odds * (trials - count + 1))
        if mass < _NEGLIGIBLE:
            break
        yield count - 1, mass


def _poisson(mean: float) -> Iterator[tuple[int, float]]:
    """Yield (k, P(k)) outwards from the mode, as far as it matters."""
    if mean == 0:
        yield 0, 1.0
        return
    mode = math.floor(mean)
    peak = math.exp(mode * math.log(mean) - mean - math.lgamma(mode + 1))
    yield mode, peak
    mass, count = peak, mode
    while mass >= _NEGLIGIBLE:
        count += 1
        mass *= mean / count
        yield count, mass
    mass = peak
    for count in range(mode, 0, -1):
        mass *= count / mean
        if mass < _NEGLIGIBLE:
            break
        yield count - 1, mass
