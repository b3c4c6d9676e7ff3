"""A yield test on the bench: weights of one load, their balance, the yield.

Gross weight = usable parts + trim + loss. A butcher's test is the same with several usable parts
and trim that is worth something.
"""

from dataclasses import dataclass
from enum import StrEnum

from planner.yields.weighing import Reading


class PartKind(StrEnum):
    """What becomes of a part."""

    USABLE = "usable"
    """What the test is about: served or worked on."""
    CREDITED = "credited"
    """Of use elsewhere, at a value: bones to the stock, trim to the mince."""
    WASTE = "waste"


@dataclass(frozen=True, slots=True)
class Part:
    """One thing the load came apart into; ``value`` is money per gram, of a credited part, and
    ``item`` the by-product it is kept as, where the kitchen file has it.
    """

    name: str
    kind: PartKind
    reading: Reading
    value: float = 0.0
    item: str = ""


@dataclass(frozen=True, slots=True)
class BenchTest:
    """One load from the scale to its parts.

    Attributes
    ----------
    gross
        What went in.
    parts
        What came of it. Without a usable part the usable weight is what is left, and the balance
        cannot be checked.
    may_lose
        Heat, draining or thawing takes weight that no scale sees.
    may_gain
        Water is taken up: more may come out than went in.
    """

    gross: Reading
    parts: tuple[Part, ...]
    may_lose: bool = False
    may_gain: bool = False

    def of(self, kind: PartKind) -> tuple[Part, ...]:
        """Parts of one kind, in their order."""
        return tuple(part for part in self.parts if part.kind is kind)


@dataclass(frozen=True, slots=True)
class Balance:
    """Grams of a test, and whether they add up.

    ``missing`` is gross - usable - trim: below zero, more came out than went in. ``tolerance`` is
    what the scale's division explains.
    """

    gross: float
    usable: float
    credited: float
    waste: float
    missing: float
    tolerance: float
    usable_weighed: bool

    @property
    def closes(self) -> bool:
        """Whether what is missing is within what the scale can tell apart."""
        return abs(self.missing) <= self.tolerance + _ROUNDING

    @property
    def fraction(self) -> float:
        """The yield: usable / gross."""
        return self.usable / self.gross

    @property
    def percent(self) -> float:
        """Yield percent = EP / AP x 100."""
        return self.fraction * 100


_ROUNDING = 1e-6


def balance_of(test: BenchTest) -> Balance:
    """Sum a test up.

    Raises
    ------
    ValueError
        Nothing went in.
    """
    gross = test.gross.grams
    if not gross > 0:
        raise ValueError("a yield test needs a gross weight above its tare")
    weights = {kind: sum(part.reading.grams for part in test.of(kind)) for kind in PartKind}
    weighed = bool(test.of(PartKind.USABLE))
    trim = weights[PartKind.CREDITED] + weights[PartKind.WASTE]
    usable = weights[PartKind.USABLE] if weighed else gross - trim
    return Balance(
        gross=gross,
        usable=usable,
        credited=weights[PartKind.CREDITED],
        waste=weights[PartKind.WASTE],
        missing=gross - usable - trim,
        tolerance=test.gross.unsure + sum(part.reading.unsure for part in test.parts),
        usable_weighed=weighed,
    )


def kept_of(test: BenchTest) -> tuple[tuple[tuple[str, float], ...], bool]:
    """Grams kept as each by-product of the kitchen file, and whether all that was taken off was
    weighed: where the balance closes by weights, or the trim says what is usable.

    Of a part that is kept without saying as what, nobody can tell whether it is one of them.
    """
    grams: dict[str, float] = {}
    for part in test.of(PartKind.CREDITED):
        if part.item:
            grams[part.item] = grams.get(part.item, 0.0) + part.reading.grams
    balance = balance_of(test)
    told = all(part.item for part in test.of(PartKind.CREDITED))
    trim = balance.credited + balance.waste > 0
    return tuple(grams.items()), told and trim and balance.closes
