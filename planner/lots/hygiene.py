"""What a step leaves on board and hands: species of raw animal food, and allergens."""

from collections.abc import Iterable

from planner.kitchen.allergens import allergens_of
from planner.kitchen.catalog import Catalog
from planner.kitchen.cautions import raw_animals_at, served_raw
from planner.kitchen.foods import Component
from planner.schedule.problem import Hygiene
from planner.wording import sentence

SERVED_RAW = sentence("served raw")
"""Marks the class of raw animal food that guests eat as it is: a class of its own, so that a clean
is due between the cod to be cooked and the trout to be served raw."""


class HygieneBook:
    """Hygiene classes of a kitchen's steps."""

    def __init__(self, catalog: Catalog) -> None:
        self._catalog = catalog
        self._allergens = allergens_of(catalog.kitchen)
        self._served_raw = served_raw(catalog)

    def of(self, component: Component, step: int, *, after: bool = False) -> Hygiene:
        """Class of one component's food at a step, as :meth:`joint`."""
        return self.joint([component], step, after=after)

    def joint(self, components: Iterable[Component], step: int, *, after: bool = False) -> Hygiene:
        """Class of the food at a step; ``after`` its unattended part, when a kill step is done.

        Several species at once are a class of their own, named by all of them; so is what is served
        raw. Of several components that are worked on together, what is in any of them counts.
        """
        species: set[str] = set()
        allergens: set[str] = set()
        marks: set[str] = set()
        for component in components:
            raw = {str(s) for s in raw_animals_at(component, self._catalog, step, after=after)}
            species |= raw
            if raw and component.id in self._served_raw:
                marks.add(SERVED_RAW)
            for taken in component.inputs:
                if taken.after_step <= step:
                    for item in (taken.item, *taken.may_use):
                        allergens |= {str(allergen) for allergen in self._allergens[item]}
        name = ", ".join(("+".join(sorted(species)), *marks)) if species else None
        return Hygiene(name, frozenset(allergens))
