"""What is wrong with a test, and what is asked of it before it counts.

Kinds and figures only: the pages put them into words.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from planner.yields.bench import BenchTest, PartKind, balance_of
from planner.yields.weighing import SCALE_UNITS, Reading


class FaultKind(StrEnum):
    """A test that is refused."""

    NOTHING = "nothing"
    """Zero or less on the scale."""
    TARE = "tare"
    """The empty container weighs as much as the load, or more."""
    NO_PARTS = "no parts"
    MORE_OUT = "more out"
    """More usable than gross, of work that takes nothing up."""
    ALL_TRIM = "all trim"
    """Trim leaves nothing usable."""


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a test is refused: which field, its figure, and what it was held against.

    ``field`` is ``gross`` or ``parts.0`` and so on. ``slip`` is a unit that would explain it.
    """

    kind: FaultKind
    field: str
    value: float
    against: float = 0.0
    unit: str = ""
    slip: "Slip | None" = None


@dataclass(frozen=True, slots=True)
class Slip:
    """A unit mix-up that would make the figures fit: ``field`` read in ``meant``, not ``unit``."""

    field: str
    unit: str
    meant: str


class QuestionKind(StrEnum):
    """Something a person must look at."""

    UNIT = "unit"
    BALANCE = "balance"
    """Weight is missing, or there is more than there was."""
    UNUSUAL = "unusual"
    """Far from what all other tests and the usual figure lead to expect."""
    PARTLY = "partly"
    """What went in and what came out seem not to be of the same food: figure and what was planned.
    """
    TRIM = "trim"
    """A kind of trim is far from its usual share of what is taken off; ``field`` is its item."""
    TWICE = "twice"
    """The same load seems to have been told twice."""


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked of a test, with the figures it is about (grams or fractions)."""

    kind: QuestionKind
    field: str
    value: float
    against: float = 0.0
    slip: Slip | None = None


_OFF = 0.03
"""Share of the gross weight that must be missing before a unit is suspected."""
_FITS = 0.02
"""Share of it that may be missing if the unit were another."""
_FAR = 1.6
"""Times the usual yield, or a part of it, that makes a unit suspect where no balance helps."""
_NEAR = 1.2


def faults_of(test: BenchTest, usual: float | None = None) -> tuple[Fault, ...]:
    """Why a test cannot stand; empty: it can. ``usual`` is the yield that is expected."""
    return tuple(_faults(test, usual))


def _faults(test: BenchTest, usual: float | None) -> Iterator[Fault]:
    bad = False
    for field, reading in readings(test):
        if not reading.shown > 0:
            bad = True
            yield Fault(FaultKind.NOTHING, field, reading.shown, unit=reading.unit)
        elif reading.tare >= reading.shown:
            bad = True
            yield Fault(FaultKind.TARE, field, reading.tare, reading.shown, reading.unit)
    if not test.parts:
        yield Fault(FaultKind.NO_PARTS, "parts", 0.0)
    elif not bad:
        yield from _out_of_proportion(test, usual)


def _out_of_proportion(test: BenchTest, usual: float | None) -> Iterator[Fault]:
    balance = balance_of(test)
    slip = next(iter(slips_of(test, usual)), None)
    if balance.usable > balance.gross + balance.tolerance and not test.may_gain:
        field = next(
            (f"parts.{i}" for i, part in enumerate(test.parts) if part.kind is PartKind.USABLE),
            "gross",
        )
        yield Fault(FaultKind.MORE_OUT, field, balance.usable, balance.gross, "g", slip)
    elif balance.usable <= 0:
        yield Fault(FaultKind.ALL_TRIM, "gross", balance.gross, balance.gross, "g", slip)


def questions_of(test: BenchTest, usual: float | None = None) -> tuple[Question, ...]:
    """What to ask of a test without faults: units that look mixed up, a balance that is open."""
    found = [
        Question(QuestionKind.UNIT, slip.field, balance_of(test).fraction, usual or 0.0, slip)
        for slip in slips_of(test, usual)
    ]
    balance = balance_of(test)
    excused = (test.may_lose and balance.missing > 0) or (test.may_gain and balance.missing < 0)
    if not balance.closes and not excused:
        found.append(
            Question(QuestionKind.BALANCE, "gross", balance.missing, balance.tolerance),
        )
    return tuple(found)


def slips_of(test: BenchTest, usual: float | None = None) -> tuple[Slip, ...]:
    """Single readings that would fit in another unit while they do not fit as they are.

    They fit where the balance closes; where it cannot be checked, or weight may come or go unseen,
    where the yield is near the ``usual`` one, or what was taken off if that alone was weighed.
    Looked for are the ratios of all scale units: 28.35 of grams and ounces, 2.2046 of kilograms and
    pounds, 16, 453.6, 1000.
    """
    if _fits(test, usual, _OFF, _FAR):
        return ()
    return tuple(
        Slip(field, reading.unit, unit)
        for field, reading in readings(test)
        for unit in SCALE_UNITS
        if unit != reading.unit and _fits(_with(test, field, reading.as_in(unit)), usual)
    )


def _fits(
    test: BenchTest, usual: float | None, missing: float = _FITS, factor: float = _NEAR
) -> bool:
    balance = balance_of(test)
    if not balance.usable > 0:
        return False
    share = balance.missing / balance.gross
    slack = missing + balance.tolerance / balance.gross
    if share < -slack and not test.may_gain:
        return False
    trim = balance.credited + balance.waste > 0
    checked = balance.usable_weighed and trim and not (test.may_lose or test.may_gain)
    if checked:
        return abs(share) <= slack
    if usual is None:
        return True
    if trim and not balance.usable_weighed and usual < 1:
        # A little trim in a wrong unit hardly moves the yield: what was taken off tells it.
        return _near(1 - balance.fraction, 1 - usual, factor)
    return _near(balance.fraction, usual, factor)


def _near(found: float, usual: float, factor: float) -> bool:
    return usual / factor <= found <= usual * factor


def readings(test: BenchTest) -> Iterator[tuple[str, Reading]]:
    """Every reading with its field: ``gross``, ``parts.0``, ``parts.1``."""
    yield "gross", test.gross
    for index, part in enumerate(test.parts):
        yield f"parts.{index}", part.reading


def _with(test: BenchTest, field: str, reading: Reading) -> BenchTest:
    if field == "gross":
        return replace(test, gross=reading)
    index = int(field.partition(".")[2])
    parts = list(test.parts)
    parts[index] = replace(parts[index], reading=reading)
    return replace(test, parts=tuple(parts))
