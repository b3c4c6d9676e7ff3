r"""How many portions to be ready for, when one short and one left over each cost something.

The textbook's newsvendor: be ready for the smallest q with P(D <= q) >= c_s / (c_s + c_l), c_s what
a portion short costs and c_l one left over. Food that keeps is not lost at closing: what is left of
today's q is lost only if all guests until its last day take fewer, so that q solves

    c_s P(D_1 > q) = c_l P(D_1 + ... + D_L < q)

for a shelf life of L days, day of preparation first. L = 1 is the textbook's case.

Source: newsvendor, common in inventory theory: Arrow, Harris and Marschak 1951 (from memory); the
condition with shelf life is the same argument, that one more portion must cost what it saves.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from statistics import NormalDist

_NORMAL_FROM = 200.0
"""Means from here on are counted by the normal: the difference is below a portion."""
SUREST = 0.999
"""No chance beyond is worth food: of so rare an evening a history tells nothing."""


@dataclass(frozen=True, slots=True)
class Demand:
    """Portions that guests will take: ``mean`` and standard deviation ``sd``.

    Counted by the negative binomial of that mean and variance, by Poisson where the variance is no
    more than the mean, and by the normal where the mean is large.
    """

    mean: float
    sd: float

    def __post_init__(self) -> None:
        for name, value in (("mean", self.mean), ("standard deviation", self.sd)):
            if not (math.isfinite(value) and value >= 0):
                raise ValueError(f"the {name} of a demand is zero or more, not {value}")

    def at_most(self, portions: int) -> float:
        """P(D <= portions)."""
        if portions < 0:
            return 0.0
        if self.mean == 0:
            return 1.0
        if self.mean >= _NORMAL_FROM:
            sd = max(self.sd, math.sqrt(self.mean))
            return NormalDist(self.mean, sd).cdf(portions + 0.5)
        total, mass = 0.0, self._none()
        ratio = self._next()
        for count in range(portions + 1):
            total += mass
            mass *= ratio(count)
        return min(1.0, total)

    def quantile(self, level: float) -> int:
        """The smallest whole number of portions that is enough with chance ``level``."""
        if not 0 <= level < 1:
            raise ValueError(f"a service level lies from 0 to below 1, not {level}")
        if self.mean == 0:
            return 0
        if self.mean >= _NORMAL_FROM:
            sd = max(self.sd, math.sqrt(self.mean))
            if level == 0:
                return 0
            return max(0, math.ceil(NormalDist(self.mean, sd).inv_cdf(level) - 0.5 - 1e-9))
        total, mass, count = 0.0, self._none(), 0
        ratio = self._next()
        while total + mass < level - 1e-12 and count < 100_000:
            total += mass
            mass *= ratio(count)
            count += 1
        return count

    def over(self, days: int) -> "Demand":
        """Of so many days alike, each by itself."""
        return Demand(self.mean * days, self.sd * math.sqrt(days))

    def _size(self) -> float:
        """The negative binomial's r; infinite for Poisson."""
        extra = self.sd**2 - self.mean
        return self.mean**2 / extra if extra > 1e-9 * max(self.mean, 1e-300) else math.inf

    def _none(self) -> float:
        size = self._size()
        if math.isinf(size):
            return math.exp(-self.mean)
        return math.exp(size * (math.log(size) - math.log(size + self.mean)))

    def _next(self) -> Callable[[int], float]:
        """P(k + 1) / P(k), for k from 0."""
        size, mean = self._size(), self.mean
        if math.isinf(size):
            return lambda count: mean / (count + 1)
        failing = mean / (size + mean)
        return lambda count: (count + size) / (count + 1) * failing


@dataclass(frozen=True, slots=True)
class Costs:
    """What a portion short and one left over cost; ``keeps`` is its shelf life in days, from 1."""

    shortage: float
    leftover: float
    keeps: int = 1

    def __post_init__(self) -> None:
        if not (self.shortage >= 0 and self.leftover >= 0 and self.shortage + self.leftover > 0):
            raise ValueError(
                "shortage and leftover cost are zero or more and not both zero, not "
                f"{self.shortage} and {self.leftover}"
            )
        if self.keeps < 1:
            raise ValueError(
                f"food keeps for one day or more, day of preparation first: not {self.keeps}"
            )

    @property
    def ratio(self) -> float:
        """Chance worth being ready for, of food that does not keep."""
        return min(self.shortage / (self.shortage + self.leftover), SUREST)


def portions_to_make(demand: Demand, costs: Costs) -> int:
    """Whole portions that cost least to be ready for, short and left over weighed."""
    if costs.keeps == 1 or costs.leftover == 0:
        return demand.quantile(costs.ratio)
    until_last = demand.over(costs.keeps)
    low, high = demand.quantile(costs.ratio), demand.quantile(SUREST)
    # One more portion saves c_s with P(D_1 > q) and is lost with P(all days <= q): the first falls
    # with q and the second rises.
    while low < high:
        middle = (low + high) // 2
        saves = costs.shortage * (1 - demand.at_most(middle))
        loses = costs.leftover * until_last.at_most(middle)
        if saves > loses + 1e-12:
            low = middle + 1
        else:
            high = middle
    return low


def expected_cost(demand: Demand, costs: Costs, portions: int) -> float:
    """Money that being ready for so many costs on average, of food that does not keep."""
    short = left = 0.0
    mean_left = 0.0
    for count in range(portions):
        mean_left += demand.at_most(count)
    left = mean_left
    short = demand.mean - portions + left
    return costs.shortage * max(0.0, short) + costs.leftover * left
