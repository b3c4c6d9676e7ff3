"""What the kitchen file says of a step, looked up for the checks alone.

The quantities have look-ups of their own; were these shared, a mistake in them would hide itself.
"""

import math
from collections.abc import Iterator, Sequence
from statistics import NormalDist

from planner.kitchen.base import Amount, OwnYield
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import ConversionError, Converter
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component, FoodYield, Input
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
        self.served_raw = self._served_raw()

    def operation(self, component: str, step: int) -> Operation:
        """The operation of a step."""
        return self.catalog.operations[self.catalog.components[component].route[step].operation]

    def fraction(self, component: str, step: int) -> float:
        """Mass out / mass in of a step: its own, else that for the food, else 1.

        A recipe's one unstated change is found by trying: its output is a straight line in it, so
        two tries give the fraction that makes what was measured.
        """
        made = self.catalog.components[component]
        stated = [self._stated(made, index) for index in range(len(made.route))]
        if made.makes is None or step != self._open_step(made, stated):
            return stated[step] or 1.0
        measured = self.converter.grams(component, made.makes)
        nothing, all_of_it = (self._recipe(made, stated, step, f)[-1][1] for f in (0.0, 1.0))
        return (measured - nothing) / (all_of_it - nothing)

    def batch_grams(self, component: str, step: int) -> tuple[float, float]:
        """Grams in and out of a recipe's step, for one recipe batch."""
        made = self.catalog.components[component]
        fractions = [self.fraction(component, index) for index in range(len(made.route))]
        return self._recipe(made, fractions, step, fractions[step])[step]

    def _recipe(
        self, made: Component, stated: Sequence[float | None], step: int, tried: float
    ) -> list[tuple[float, float]]:
        """Grams in and out of each step of one batch, ``step`` having the yield ``tried``."""
        grams, found = 0.0, []
        for index, fraction in enumerate(stated):
            taken = [t for t in made.inputs if t.after_step == index and t.amount is not None]
            into = grams + sum(self.converter.grams(t.item, t.amount) for t in taken if t.amount)
            grams = into * (tried if index == step else 1.0 if fraction is None else fraction)
            found.append((into, grams))
        return found

    def _open_step(self, made: Component, stated: Sequence[float | None]) -> int | None:
        """The unstated step nearest the last input's, those before it first."""
        last = max(taken.after_step for taken in made.inputs)
        unstated = [index for index, fraction in enumerate(stated) if fraction is None]
        before = [index for index in unstated if index <= last]
        return max(before) if before else min(unstated, default=None)

    def _stated(self, made: Component, step: int) -> float | None:
        stated = made.route[step].fraction or self._entry(made, step)
        if stated is None:
            return None
        return stated.fraction if stated.own is None else self._found(stated.own)

    def _found(self, own: OwnYield) -> float:
        """The kitchen's own yield: so far below the expected that enough is pulled at its level."""
        level = self.kitchen.rules.pull_level
        below = own.fraction + own.spread * NormalDist().inv_cdf(1 - level)
        return max(own.fraction / 2, below)

    def _entry(self, made: Component, step: int) -> FoodYield | None:
        """What the operation says of the food; an entry of the step's cut before one of any."""
        cut = made.route[step].cut
        for food in self._line(made):
            entries = [one for one in self.operation(made.id, step).yields if one.food == food]
            of_cut = [one for one in entries if one.cut is not None and one.cut == cut]
            found = of_cut or [one for one in entries if one.cut is None]
            if found:
                return found[0]
        return None

    def trim_share(self, component: str, step: int) -> dict[str, float]:
        """By-product -> fraction of the loss of a step."""
        entry = self._entry(self.catalog.components[component], step)
        kept = entry.trim if entry else ()
        return {one.item: one.share if one.own is None else one.own.share for one in kept}

    def joining(self, component: str, step: int) -> tuple[Input, ...]:
        """Inputs that go in at a step."""
        made = self.catalog.components[component]
        return tuple(taken for taken in made.inputs if taken.after_step == step)

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

    def allergens(self, item: str, step: int | None = None) -> frozenset[str]:
        """Allergens of everything that may be in an ingredient or component, up to a step."""
        ingredient = self.catalog.ingredients.get(item)
        if ingredient is not None:
            return frozenset(str(allergen) for allergen in ingredient.allergens)
        made = self.catalog.components[item]
        inside = self._inside(made, len(made.route) if step is None else step)
        return frozenset[str]().union(*(self.allergens(each) for _, each in inside))

    def raw_animals(self, component: str, step: int) -> frozenset[str]:
        """Species of raw animal food on the board at a step, before its heat if it is a cook."""
        found: set[str] = set()
        for joined, item in self._inside(self.catalog.components[component], step):
            cooked = any(self.operation(component, i).cooks_through for i in range(joined, step))
            found |= frozenset() if cooked else self._raw_in(item)
        return frozenset(found)

    def _served_raw(self) -> frozenset[str]:
        """Components that are eaten with raw animal food in them, or that such food comes from."""
        found = {
            made.id
            for made in self.kitchen.components
            if made.ready_to_eat and self.raw_animals(made.id, len(made.route))
        }
        while True:
            below = {
                item
                for name in found
                for joined, item in self._inside(
                    self.catalog.components[name], len(self.catalog.components[name].route)
                )
                if item in self.catalog.components
                and self._raw_in(item)
                and not any(
                    self.operation(name, index).cooks_through
                    for index in range(joined, len(self.catalog.components[name].route))
                )
            }
            if below <= found:
                return frozenset(found)
            found |= below

    def _raw_in(self, item: str) -> frozenset[str]:
        ingredient = self.catalog.ingredients.get(item)
        if ingredient is None:
            return self.raw_animals(item, len(self.catalog.components[item].route))
        return frozenset() if ingredient.raw_animal is None else frozenset({ingredient.raw_animal})

    def _inside(self, made: Component, step: int) -> Iterator[tuple[int, str]]:
        """(step it goes in at, item) of what is in it by a step."""
        for taken in made.inputs:
            if taken.after_step <= step:
                yield from ((taken.after_step, item) for item in (taken.item, *taken.may_use))

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
