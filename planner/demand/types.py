"""What must be ready, and for whom."""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class DishDemand:
    """Portions of one dish to be ready for at one service.

    Attributes
    ----------
    expected
        Mean portions, covers x menu mix.
    buffer
        Whole portions on top of the rounded-up expectation. Below zero only where the dish's own
        costs say that a leftover hurts more than a shortage.
    total
        Whole portions to be ready for.
    doors, due, until
        Minutes after midnight of the planned day (a later day's run past 1440): opening, on the
        line by (doors less plating set-up), and the close, after which food is of no use.
    weight
        How much one short portion matters.
    lateness_weight
        How much one late minute matters.
    """

    service: str
    service_name: str
    dish: str
    dish_name: str
    date: dt.date
    doors: int
    due: int
    until: int
    expected: float
    buffer: int
    total: int
    weight: int
    lateness_weight: int
    reason: str
