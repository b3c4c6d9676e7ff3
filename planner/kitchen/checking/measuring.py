"""Whether amounts become grams, and the words for it where they do not."""

from collections.abc import Iterator, Sequence

from planner.kitchen.base import Amount
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import ConversionError, Converter, UnitDefinitionError
from planner.kitchen.document import Kitchen
from planner.kitchen.errors import FileError, Place, suggestion
from planner.kitchen.foods import Component, Ingredient
from planner.units import UNIT_NAMES
from planner.wording import sentence

_ABOVE_ZERO = sentence("enter an amount above zero")


class Measuring:
    """Checks amounts of one kitchen."""

    def __init__(self, catalog: Catalog) -> None:
        self.converter = Converter(catalog.kitchen)
        self.catalog = catalog
        self._foods = catalog.foods
        self._everywhere = _known_units(catalog.kitchen)

    def knows(self, item: str) -> bool:
        """Whether there is such a food; the check of references names it where not."""
        return item in self._foods

    def amount(
        self, place: Place, item: str, amount: Amount | None, *, zero_allowed: bool = False
    ) -> Iterator[FileError]:
        """Yield what is wrong with ``amount`` of the food ``item``; None is no amount."""
        if amount is None:
            return
        if amount.number == 0 and not zero_allowed:
            yield place.error(amount, sentence("nothing at all"), _ABOVE_ZERO)
        if self.knows(item):
            yield from self.unit(place, amount, item, amount.unit)

    def unit(self, place: Place, value: object, item: str, unit: str) -> Iterator[FileError]:
        """Yield why ``unit`` of the food ``item`` cannot become grams."""
        try:
            self.converter.grams_per(item, unit)
        except UnitDefinitionError:
            return  # Reported once, where the unit is entered.
        except ConversionError as error:
            if not self.anywhere(unit):
                yield self.unknown(place, value, unit, item)
            elif not self._pack_of(item, error, unit):
                yield place.error(value, error.problem, error.remedy)

    def anywhere(self, unit: str) -> bool:
        """Whether the unit means something for some food."""
        return unit in self._everywhere

    def unknown(self, place: Place, value: object, unit: str, item: str | None = None) -> FileError:
        """The error of a unit that nobody knows, with those that could be used here."""
        usable = [*UNIT_NAMES, *(kitchen.name for kitchen in self.catalog.kitchen.units)]
        if item is not None:
            usable.extend(_pieces(self._foods[item]))
        return place.error(
            value,
            sentence("unknown unit '{unit}'", unit=unit),
            suggestion(unit, self._everywhere)
            + sentence(
                "known units here: {units}; more can be added under units",
                units=", ".join(dict.fromkeys(usable)),
            ),
        )

    def first_reason(self, items: Sequence[str], unit: str) -> ConversionError | None:
        """Why no food of ``items`` can be measured in ``unit``; None where one can be."""
        reason: ConversionError | None = None
        for item in items:
            try:
                self.converter.grams_per(item, unit)
            except ConversionError as error:
                reason = reason or error
            else:
                return None
        return reason

    def _pack_of(self, item: str, error: ConversionError, unit: str) -> bool:
        """Whether the error lies in what the food's pack holds, which is reported there."""
        food = self._foods[item]
        return isinstance(food, Ingredient) and food.purchase.unit == unit and error.unit != unit


def _pieces(food: Ingredient | Component) -> Iterator[str]:
    for entry in food.weights:
        yield entry.unit
    if isinstance(food, Ingredient):
        yield food.purchase.unit


def _known_units(kitchen: Kitchen) -> set[str]:
    known = {*UNIT_NAMES, *(unit.name for unit in kitchen.units)}
    for ingredient in kitchen.ingredients:
        known.update(_pieces(ingredient))
    for component in kitchen.components:
        known.update(_pieces(component))
    return known
