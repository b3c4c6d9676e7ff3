"""What a step leaves on board and hands: species of raw animal food, and allergens."""

from planner.kitchen.allergens import allergens_of
from planner.kitchen.catalog import Catalog
from planner.kitchen.cautions import raw_animals_in
from planner.kitchen.foods import Component
from planner.schedule.problem import Hygiene


class HygieneBook:
    """Hygiene classes of a kitchen's steps."""

    def __init__(self, catalog: Catalog) -> None:
        self._catalog = catalog
        self._allergens = allergens_of(catalog.kitchen)

    def allergens(self, component: Component) -> frozenset[str]:
        """Allergens in what a component is made of."""
        return frozenset(str(a) for a in self._allergens[component.id])

    def of(self, component: Component, step: int, *, after: bool = False) -> Hygiene:
        """Class of the food at a step; ``after`` its unattended part, when a kill step is done.

        Several species at once are a class of their own, named by all of them.
        """
        done = component.route[: step + 1] if after else component.route[:step]
        cooked = any(self._catalog.operations[s.operation].cooks_through for s in done)
        species: set[str] = set()
        if not cooked:
            for taken in component.inputs:
                for item in (taken.item, *taken.may_use):
                    species |= {str(s) for s in raw_animals_in(item, self._catalog)}
        return Hygiene("+".join(sorted(species)) or None, self.allergens(component))
