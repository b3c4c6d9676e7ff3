"""What a guest with an allergy must be told: the allergens in everything an item holds.

Sources: US, Food Allergen Labeling and Consumer Protection Act of 2004 and FASTER Act of 2021
(sesame, since 2023-01-01); EU, Regulation (EU) 1169/2011, Annex II. These are ingredients as
entered; a shared fryer or board carries allergens across as well, and what must be declared is for
the local food code to say.
"""

from collections.abc import Iterable

from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Allergen

US_NINE: frozenset[Allergen] = frozenset(
    {
        Allergen.MILK,
        Allergen.EGG,
        Allergen.FISH,
        Allergen.CRUSTACEAN,
        Allergen.TREE_NUT,
        Allergen.PEANUT,
        Allergen.WHEAT,
        Allergen.SOY,
        Allergen.SESAME,
    }
)
"""Major food allergens of US law. Barley, rye, oats and molluscs are not among them."""

EU_FOURTEEN: frozenset[Allergen] = frozenset(Allergen) - {Allergen.WHEAT}
"""Annex II; wheat stands there among the cereals containing gluten."""


def us_nine(allergens: Iterable[str]) -> frozenset[str]:
    """Those of ``allergens`` that US law names."""
    return frozenset(allergens) & US_NINE


def eu_fourteen(allergens: Iterable[str]) -> frozenset[str]:
    """Those of ``allergens`` that EU law names; wheat counts as a cereal containing gluten."""
    named = frozenset(allergens)
    if Allergen.WHEAT in named:
        named |= {Allergen.GLUTEN_CEREAL}
    return named & EU_FOURTEEN


def allergens_of(kitchen: Kitchen) -> dict[str, frozenset[str]]:
    """Allergens by id, of every ingredient, component and dish.

    The union over everything inside, to any depth, by-products that may stand in for an input
    included: on the day one may. Where a dish has the id of a food it is made beside, the two are
    joined, to warn rather than not.
    """
    inside: dict[str, set[str]] = {ingredient.id: set() for ingredient in kitchen.ingredients}
    for component in kitchen.components:
        held = inside.setdefault(component.id, set())
        for taken in component.inputs:
            held.update((taken.item, *taken.may_use))
    for dish in kitchen.dishes:
        inside.setdefault(dish.id, set()).update(portion.item for portion in dish.components)
    own = {ingredient.id: ingredient.allergens for ingredient in kitchen.ingredients}
    return {
        item: frozenset(
            allergen
            for held in _everything_in(item, inside)
            for allergen in own.get(held, frozenset())
        )
        for item in inside
    }


def _everything_in(item: str, inside: dict[str, set[str]]) -> set[str]:
    """``item`` and all it holds; ends on a file whose components hold each other, too."""
    found: set[str] = set()
    waiting = [item]
    while waiting:
        held = waiting.pop()
        if held not in found:
            found.add(held)
            waiting.extend(inside.get(held, ()))
    return found
