"""What a usable unit costs by a yield test, secondary values credited.

Source of the sums: *Basic Kitchen and Food Service Management* (BCcampus, CC BY 4.0), yield
testing; and the trade's butcher test card (common practice, no source).
"""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from planner.yields.bench import BenchTest, PartKind, balance_of
from planner.yields.weighing import unit_grams


@dataclass(frozen=True, slots=True)
class Price:
    """Money for one ``unit`` of mass, as purchased."""

    money: float
    unit: str

    @property
    def per_gram(self) -> float:
        """Money per gram."""
        return self.money / unit_grams(self.unit)


@dataclass(frozen=True, slots=True)
class Costs:
    """Money of one load; ``unit_cost`` is per usable unit of the price's own unit.

    ``factor`` is unit cost / price: with another price, factor x price is the new unit cost.
    """

    total: float
    credit: float
    usable: float
    unit_cost: float
    factor: float
    unit: str

    def portion(self, grams: float) -> float:
        """Money of a portion of so many grams of the usable part."""
        return self.unit_cost / unit_grams(self.unit) * grams

    def portion_factor(self, grams: float, price: Price) -> float:
        """What a unit's price is multiplied by to get the cost of such a portion."""
        return self.portion(grams) / price.money


class CreditError(ValueError):
    """Secondary parts are credited with as much as the whole load cost, or more."""

    def __init__(self, credit: float, total: float) -> None:
        super().__init__(f"{cents(credit)} is credited on a load that cost {cents(total)}")
        self.credit, self.total = credit, total


def costs_of(test: BenchTest, price: Price) -> Costs:
    """What the usable part of a load costs.

    Raises
    ------
    CreditError
        The credit takes up all that was paid.
    """
    balance = balance_of(test)
    total = balance.gross * price.per_gram
    credit = sum(part.reading.grams * part.value for part in test.of(PartKind.CREDITED))
    if credit >= total > 0:
        raise CreditError(credit, total)
    usable = total - credit
    unit_cost = usable / balance.usable * unit_grams(price.unit)
    factor = unit_cost / price.money if price.money else 1 / balance.fraction
    return Costs(total, credit, usable, unit_cost, factor, price.unit)


def cents(money: float) -> str:
    """Money to the cent, half a cent up: ``13.51``."""
    exact = Decimal(repr(round(money, 9)))
    return str(exact.quantize(Decimal("0.01"), rounding=ROUND_HALF_UP))
