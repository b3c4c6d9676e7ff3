"""What a food may be counted in."""

from collections.abc import Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import ConversionError, Converter
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Ingredient

_OFFERED = ("kg", "g", "lb", "oz", "l", "ml", "qt", "pt", "gal", "cup")
"""Of the closed list, those that food is counted in; the others are read all the same. Common
practice, no source.
"""


class CountUnits:
    """Offers the units of a kitchen's foods that become grams."""

    def __init__(self, kitchen: Kitchen) -> None:
        self._catalog = Catalog(kitchen)
        self._converter = Converter(kitchen)
        self._own = tuple(unit.name for unit in kitchen.units)

    def of(self, item: str, first: str | None) -> tuple[str, ...]:
        """Units for a food: ``first`` where it can be used, its pieces and packs, the kitchen's
        own, then weights and volumes.
        """
        wanted = [first] if first else []
        wanted += [*self._pieces(item), *self._own, *_OFFERED]
        return tuple(unit for unit in dict.fromkeys(wanted) if self._usable(item, unit))

    def _pieces(self, item: str) -> Iterator[str]:
        food = self._catalog.food(item)
        for entry in food.weights:
            yield entry.unit
        if isinstance(food, Ingredient):
            yield food.purchase.unit

    def _usable(self, item: str, unit: str) -> bool:
        try:
            self._converter.grams_per(item, unit)
        except ConversionError:
            return False
        return True
