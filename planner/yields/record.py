"""A bench test as it is kept and printed: who, what, on which scale, every load as it was read."""

import datetime as dt
from dataclasses import dataclass

from planner.yields.asking import Question
from planner.yields.bench import BenchTest
from planner.yields.costs import Price


@dataclass(frozen=True, slots=True)
class Portion:
    """A portion's weight in the unit it was entered in."""

    number: float
    unit: str


@dataclass(frozen=True, slots=True)
class BenchRecord:
    """All that was entered of one test.

    Attributes
    ----------
    of
        The yield it is a test of, as text; empty: of a food the kitchen file does not have.
    food, operation, cut, supplier, cook, scale, note
        In words, as they stood on the day.
    questions
        What was asked when it was entered; ``settled`` says that whoever entered it said that the
        weights are right.
    """

    of: str
    food: str
    operation: str
    cut: str
    supplier: str
    cook: str
    scale: str
    date: dt.date
    test: BenchTest
    currency: str
    price: Price | None = None
    portion: Portion | None = None
    note: str = ""
    questions: tuple[Question, ...] = ()
    settled: bool = False
