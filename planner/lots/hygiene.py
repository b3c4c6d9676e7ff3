"""What a step leaves on board and hands: species of raw animal food, and allergens."""

from planner.kitchen.allergens import allergens_of
from planner.kitchen.catalog import Catalog
from planner.kitchen.cautions import raw_animals_at
from planner.kitchen.foods import Component
from planner.schedule.problem import Hygiene


class HygieneBook:
    """Hygiene classes of a kitchen's steps."""

    def __init__(self, catalog: Catalog) -> None:
        self._catalog = catalog
        self._allergens = allergens_of(catalog.kitchen)

    def of(self, component: Component, step: int, *, after: bool = False) -> Hygiene:
        """Class of the food at a step; ``after`` its unattended part, when a kill step is done.

        Several species at once are a class of their own, named by all of them.
        """
        species = raw_animals_at(component, self._catalog, step, after=after)
        allergens = {
            str(allergen)
            for taken in component.inputs
            if taken.after_step <= step
            for item in (taken.item, *taken.may_use)
            for allergen in self._allergens[item]
        }
        return Hygiene("+".join(sorted(species)) or None, frozenset(allergens))
