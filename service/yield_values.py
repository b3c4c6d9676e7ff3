"""Yield tests and decisions, as they are stored and read."""

import datetime as dt
from dataclasses import dataclass

from planner.kitchen.base import OwnShare, OwnYield
from planner.yields.decide import Way
from planner.yields.judging import TakenTest
from planner.yields.record import BenchRecord


@dataclass(frozen=True, slots=True)
class StoredTest:
    """A test with the yield it is of (as text); ``number`` and ``record`` of a bench test."""

    of: str
    taken: TakenTest
    number: int | None = None
    record: BenchRecord | None = None
    created_by: str = ""


@dataclass(frozen=True, slots=True)
class YieldState:
    """What is in use: the kitchen's own figure, or None; the day that tests count from; and its
    own shares of the trim by by-product.
    """

    own: OwnYield | None = None
    since: dt.date | None = None
    trim: tuple[tuple[str, OwnShare], ...] = ()


@dataclass(frozen=True, slots=True)
class YieldDecision:
    """A dated change of a yield in use; putting it back brings ``before`` again."""

    number: int
    of: str
    way: Way
    before: YieldState
    after: YieldState
    reason: str
    version: int
    puts_back: int | None
    created_by: str
    created_at: dt.datetime
