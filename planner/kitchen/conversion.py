"""From what a kitchen writes (``2 each``, ``1.5 l``, ``3 sixth pan``) to grams of one food.

Nothing is guessed: a volume needs the food's density, a piece needs its weight.
"""

from planner.kitchen.base import Amount
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component, Ingredient
from planner.units import UNIT_NAMES, Dimension, standard_unit
from planner.wording import sentence


class ConversionError(ValueError):
    """An amount of a food cannot be turned into grams.

    Attributes
    ----------
    item, unit
        What could not be converted.
    problem, remedy
        What is missing, and what to enter.
    """

    def __init__(self, item: str, unit: str, problem: str, remedy: str) -> None:
        super().__init__(f"{problem}; {remedy}")
        self.item = item
        self.unit = unit
        self.problem = problem
        self.remedy = remedy


class UnitDefinitionError(ConversionError):
    """The unit itself is entered in a way that means nothing, whatever the amount."""


class Converter:
    """Turns amounts of a kitchen's foods into grams.

    A unit's name is looked up as: a unit of the closed list; a piece of this food (``weights``);
    the pack it is bought in (``purchase``); a unit of the kitchen's own.
    """

    def __init__(self, kitchen: Kitchen) -> None:
        self._catalog = Catalog(kitchen)
        self._kitchen_units = {unit.name: unit.equals for unit in kitchen.units}
        self._known: dict[tuple[str, str], float] = {}

    def grams(self, item: str, amount: Amount) -> float:
        """Grams of ``amount`` of the food with id ``item``.

        Raises
        ------
        ConversionError
            The food lacks the weight or density, or nobody knows the unit.
        KeyError
            No food has this id.
        """
        return amount.number * self.grams_per(item, amount.unit)

    def grams_per(self, item: str, unit: str) -> float:
        """Grams of one ``unit`` of the food with id ``item``; raises as :meth:`grams`."""
        known = self._known.get((item, unit))
        if known is None:
            known = self._known[item, unit] = self._grams_per(item, unit)
        return known

    def piece_grams(self, item: str, unit: str) -> float:
        """Grams of one piece or pack of the food, such as ``each`` or ``case``.

        Raises
        ------
        ConversionError
            The food has no piece or pack called ``unit``, even where a unit of measure is.
        KeyError
            No food has this id.
        """
        piece = self._piece(self._catalog.food(item), unit)
        if piece is None:
            raise self._no_piece(item, unit)
        return piece

    def _grams_per(self, item: str, unit: str) -> float:
        food = self._catalog.food(item)
        standard = self._standard_grams(food, unit)
        if standard is not None:
            return standard
        piece = self._piece(food, unit)
        if piece is not None:
            return piece
        equals = self._kitchen_units.get(unit)
        if equals is None:
            raise self._no_piece(item, unit)
        size = self._standard_grams(food, equals.unit)
        if size is None:
            raise UnitDefinitionError(
                item,
                unit,
                sentence(
                    "the kitchen's unit '{unit}' is given in '{unit_2}'",
                    unit=unit,
                    unit_2=equals.unit,
                ),
                sentence("give what it equals in one of: {units}", units=", ".join(UNIT_NAMES)),
            )
        return equals.number * size

    def _standard_grams(self, food: Ingredient | Component, unit: str) -> float | None:
        standard = standard_unit(unit)
        if standard is None:
            return None
        if standard.dimension is Dimension.MASS:
            return standard.size
        if food.density is None:
            raise ConversionError(
                food.id,
                unit,
                sentence(
                    "{food} has no density, so '{unit}' cannot become grams",
                    food=food.name,
                    unit=unit,
                ),
                sentence(
                    "enter density.g_per_ml of '{id}', or give the amount by weight", id=food.id
                ),
            )
        return standard.size * food.density.g_per_ml

    def _piece(self, food: Ingredient | Component, unit: str) -> float | None:
        for entry in food.weights:
            if entry.unit == unit:
                return self._weighed(food, unit, entry.weight)
        if isinstance(food, Ingredient) and food.purchase.unit == unit:
            return self._pack(food)
        return None

    def _weighed(self, food: Ingredient | Component, unit: str, weight: Amount) -> float:
        standard = standard_unit(weight.unit)
        if standard is None or standard.dimension is not Dimension.MASS:
            raise UnitDefinitionError(
                food.id,
                unit,
                sentence(
                    "the weight of one '{unit}' of {food} is given as '{weight}'",
                    unit=unit,
                    food=food.name,
                    weight=weight,
                ),
                sentence("give it as a mass, such as '120 g'"),
            )
        return weight.number * standard.size

    def _pack(self, food: Ingredient) -> float:
        holds = food.purchase.holds
        if holds.unit == food.purchase.unit:
            raise UnitDefinitionError(
                food.id,
                holds.unit,
                sentence(
                    "one '{unit}' of {food} is said to hold '{holds}'",
                    unit=holds.unit,
                    food=food.name,
                    holds=holds,
                ),
                sentence(
                    "say what it holds by weight, or enter the weight of one '{unit}' under "
                    "weights of '{id}'",
                    unit=holds.unit,
                    id=food.id,
                ),
            )
        return self.grams(food.id, holds)

    def _no_piece(self, item: str, unit: str) -> ConversionError:
        food = self._catalog.food(item)
        pieces = [entry.unit for entry in food.weights]
        if isinstance(food, Ingredient):
            pieces.append(food.purchase.unit)
        return ConversionError(
            item,
            unit,
            sentence(
                "{food} does not say what one '{unit}' weighs (it knows: {pieces})",
                food=food.name,
                unit=unit,
                pieces=", ".join(pieces),
            )
            if pieces
            else sentence(
                "{food} does not say what one '{unit}' weighs", food=food.name, unit=unit
            ),
            sentence(
                "enter the weight of one '{unit}' under weights of '{id}', or give the "
                "amount by weight",
                unit=unit,
                id=food.id,
            ),
        )
