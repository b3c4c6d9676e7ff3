"""What the kitchen file says of a step, looked up for the checks alone.

The quantities have look-ups of their own; were these shared, a mistake in them would hide itself.
"""

import math
from collections.abc import Iterator

from planner.kitchen.base import Amount
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import ConversionError, Converter
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component
from planner.kitchen.work import EquipmentUse, Operation, Per

ROUNDING = 0.5
"""Grams that sums may differ by."""


def near(one: float, other: float) -> bool:
    """Whether two weights are the same within half a gram, or a millionth where that is more."""
    return abs(one - other) <= max(ROUNDING, 1e-6 * max(abs(one), abs(other)))


def covers(have: float, want: float) -> bool:
    """Whether ``have`` is at least ``want``, within the same rounding."""
    return have >= want or near(have, want)


class Facts:
    """Look-ups in one kitchen."""

    def __init__(self, kitchen: Kitchen) -> None:
        self.kitchen = kitchen
        self.catalog = Catalog(kitchen)
        self.converter = Converter(kitchen)

    def operation(self, component: str, step: int) -> Operation:
        """The operation of a step."""
        return self.catalog.operations[self.catalog.components[component].route[step].operation]

    def fraction(self, component: str, step: int) -> float:
        """Mass out / mass in of a step: its own, else that for the food, else 1; recipes: 1."""
        made = self.catalog.components[component]
        if made.makes is not None:
            return 1.0
        own = made.route[step].fraction
        if own is not None:
            return own.fraction
        for food in self._line(made):
            for entry in self.operation(component, step).yields:
                if entry.food == food:
                    return entry.fraction
        return 1.0

    def trim_share(self, component: str, step: int) -> dict[str, float]:
        """By-product -> fraction of the loss of a step."""
        made = self.catalog.components[component]
        if made.makes is None:
            for food in self._line(made):
                for entry in self.operation(component, step).yields:
                    if entry.food == food:
                        return {trim.item: trim.share for trim in entry.trim}
        return {}

    def book_minutes(self, component: str, step: int, grams: float) -> float:
        """Hands-on minutes at book rate for one lot of ``grams`` going in."""
        made = self.catalog.components[component]
        operation = self.operation(component, step)
        rate = made.route[step].minutes_per
        if rate is None:
            named = {entry.food: entry.minutes_per for entry in operation.rates}
            rate = next((named[f] for f in self._line(made) if f in named), operation.minutes_per)
        if operation.per is Per.LOT:
            return operation.each_lot_minutes + rate
        unit = self.grams(component, Amount(1.0, operation.per.value))
        return operation.each_lot_minutes + rate * grams / unit

    def unattended(self, component: str, step: int) -> int:
        """Minutes a step goes on by itself."""
        own = self.catalog.components[component].route[step].unattended_minutes
        return self.operation(component, step).unattended_minutes if own is None else own

    def vessel(self, component: str, use: EquipmentUse) -> float:
        """Grams that one unit of equipment takes of a component's work; infinite: any."""
        holds = use.holds or self.catalog.equipment[use.equipment].holds
        return math.inf if holds is None else self.grams(component, holds)

    def grams(self, component: str, amount: Amount) -> float:
        """Grams of an amount of what a route works on: the food at the bottom that can say.

        Raises
        ------
        ConversionError
            None of them knows the unit.
        """
        made = self.catalog.components[component]
        itself, *below = self._line(made)
        failure: ConversionError | None = None
        for food in (*below, itself):
            try:
                return self.converter.grams(food, amount)
            except ConversionError as error:
                failure = error
        assert failure is not None  # noqa: S101 - the line holds the component at least
        raise failure

    def stage(self, component: str, step: int) -> tuple[object, ...]:
        """What sets apart a step's work from other work: what it is done on, and all before it."""
        made = self.catalog.components[component]
        if made.makes is not None:
            return (component, step)
        taken = made.route[: step + 1]
        return (
            made.inputs[0].item,
            *((s.operation, s.cut, s.fraction, s.minutes_per, s.unattended_minutes) for s in taken),
        )

    def allergens(self, item: str) -> frozenset[str]:
        """Allergens of everything that may be in an ingredient or component."""
        ingredient = self.catalog.ingredients.get(item)
        if ingredient is not None:
            return frozenset(str(allergen) for allergen in ingredient.allergens)
        made = self.catalog.components[item]
        return frozenset[str]().union(*(self.allergens(each) for each in self._inside(made)))

    def raw_animals(self, component: str, step: int) -> frozenset[str]:
        """Species of raw animal food on the board at a step, before its heat if it is a cook."""
        made = self.catalog.components[component]
        if any(self.operation(component, index).cooks_through for index in range(step)):
            return frozenset()
        return frozenset[str]().union(*(self._raw_in(each) for each in self._inside(made)))

    def _raw_in(self, item: str) -> frozenset[str]:
        ingredient = self.catalog.ingredients.get(item)
        if ingredient is None:
            return self.raw_animals(item, len(self.catalog.components[item].route))
        return frozenset() if ingredient.raw_animal is None else frozenset({ingredient.raw_animal})

    def _inside(self, made: Component) -> Iterator[str]:
        for taken in made.inputs:
            yield taken.item
            yield from taken.may_use

    def _line(self, made: Component) -> list[str]:
        """The component, and what it is cut from as long as that is one food."""
        line = [made.id]
        while made.makes is None and len(made.inputs) == 1:
            item = made.inputs[0].item
            line.append(item)
            if item not in self.catalog.components:
                break
            made = self.catalog.components[item]
        return line
