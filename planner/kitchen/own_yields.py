"""The kitchen's own yields beside the usual ones: which figure is used."""

from statistics import NormalDist

from planner.kitchen.base import Fraction, OwnYield
from planner.wording import counted, sentence

_EVEN = 0.5
_LEAST = 0.5
"""Of what is expected: no caution goes further down than half."""


def in_use(usual: Fraction, level: float) -> Fraction:
    """The figure that quantities are worked out with, its source in words.

    ``level`` is the chance that what is pulled gives enough: the yield that a load undercuts with
    the chance ``1 - level``, its spread taken as normal.
    """
    own = usual.own
    if own is None:
        return usual
    return Fraction(fraction=own_fraction(own, level), source=_source(usual, own, level))


def own_fraction(own: OwnYield, level: float) -> float:
    """The kitchen's own yield at a level; 0.5: the expected one."""
    cautious = own.fraction - NormalDist().inv_cdf(level) * own.spread
    return max(cautious, own.fraction * _LEAST)


def fraction_at_most(own: OwnYield, level: float) -> float:
    """The yield that a load exceeds with the chance ``1 - level``: what its trim is counted on by.

    Food is pulled as if the load were a poor one. Trim would be plenty of that, so that whatever
    stands on it must take the load for a rich one.
    """
    return own.fraction + NormalDist().inv_cdf(level) * own.spread


def _source(usual: Fraction, own: OwnYield, level: float) -> str:
    usually, yours = _percent(usual.fraction), _percent(own.fraction)
    if not own.tests:
        return sentence("usual {usual}, yours {own} (by hand)", usual=usually, own=yours)
    tests = counted("{n} test", "{n} tests", own.tests)
    text = sentence("usual {usual}, yours {own} ({tests})", usual=usually, own=yours, tests=tests)
    if own.spread and level > _EVEN:
        pulled = _percent(own_fraction(own, level))
        return sentence("{yields}, pulled at {pulled}", yields=text, pulled=pulled)
    return text


def _percent(fraction: float) -> str:
    return f"{fraction * 100:.0f} %"
