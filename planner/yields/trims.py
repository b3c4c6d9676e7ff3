"""Shares of what an operation takes off: so much kept as each by-product, the rest waste.

A share is learned as a yield is, by ratio of sums with partial pooling: grams kept over grams taken
off in place of grams out over grams in. Usable food and all that is taken off are one whole, so a
yield and the shares of its loss always add up to what went in, waste being the rest.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.yields.belief import TRIM_BELIEF, Belief
from planner.yields.learned import Estimate, Learned, learned
from planner.yields.repeats import Load


@dataclass(frozen=True, slots=True)
class TrimTest:
    """A load of which so much was taken ``off`` (grams), and ``kept`` grams of it by by-product.

    ``whole``: all that was taken off was weighed, so that nothing was kept of what is not listed;
    else a kind that is not listed is not known.
    """

    off: float
    kept: Mapping[str, float]
    whole: bool
    supplier: str = ""


@dataclass(frozen=True, slots=True)
class TrimLearned:
    """One by-product's share of what is taken off: usual, and as the tests teach it."""

    item: str
    usual: float
    learned: Learned

    @property
    def tests(self) -> int:
        """Tests behind it."""
        return self.learned.kitchen.tests

    @property
    def estimate(self) -> Estimate:
        """Of the one supplier that was tested, or of all together."""
        suppliers = self.learned.suppliers
        return next(iter(suppliers.values())) if len(suppliers) == 1 else self.learned.kitchen


def kinds_of(usual: Mapping[str, float], tests: Sequence[TrimTest]) -> tuple[str, ...]:
    """By-products that shares are learned of: the usual ones, then others that were kept."""
    return tuple(dict.fromkeys([*usual, *(item for test in tests for item in test.kept)]))


def share_learned(
    usual: float, item: str, tests: Sequence[TrimTest], belief: Belief = TRIM_BELIEF
) -> Learned:
    """The share of one by-product; tests that do not tell of it are left out.

    More than was taken off cannot be kept: what the scale says on top of that is its own error.
    """
    loads = [
        (test.supplier, Load(test.off, min(test.kept.get(item, 0.0), test.off)))
        for test in tests
        if test.off > 0 and (test.whole or item in test.kept)
    ]
    return learned(usual, loads, belief)


def trims_learned(usual: Mapping[str, float], tests: Sequence[TrimTest]) -> tuple[TrimLearned, ...]:
    """Shares of all by-products, in the order of the file, then as they were weighed."""
    return tuple(
        TrimLearned(item, usual.get(item, 0.0), share_learned(usual.get(item, 0.0), item, tests))
        for item in kinds_of(usual, tests)
    )


def fitted(shares: Mapping[str, float]) -> Mapping[str, float]:
    """Shares between 0 and 1 that leave no less than nothing for waste: made smaller alike, where
    they come to more than all.
    """
    inside = {item: min(max(share, 0.0), 1.0) for item, share in shares.items()}
    total = sum(inside.values())
    return {item: share / total for item, share in inside.items()} if total > 1 else inside
