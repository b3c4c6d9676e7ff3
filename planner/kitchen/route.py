"""What a step of a route works on: where its rate and its yield are looked up."""

from planner.kitchen.base import Fraction
from planner.kitchen.catalog import Catalog
from planner.kitchen.foods import Component, FoodYield, Holding
from planner.kitchen.own_yields import in_use
from planner.kitchen.safety import COOLING, celsius
from planner.kitchen.work import Caution

MOST_NESTED = 100
"""Components made of components made of ...: beyond any kitchen, and what bounds the walk here."""

_HEAT = frozenset({Caution.HOT_FAT, Caution.STEAM, Caution.HOT_SURFACE})
NO_LOSS = "no yield entered: nothing is lost"


def worked_foods(catalog: Catalog, component: Component) -> tuple[str, ...]:
    """Ids under which operations may name what this route works on, most particular first.

    The component itself; below it, as long as there is no recipe, its one input, and the one input
    of that: a yield of ``peel`` on ``onion`` holds for every cut made of onions.
    """
    found = [component.id]
    here: Component | None = component
    while here is not None and here.makes is None and len(here.inputs) == 1:
        item = here.inputs[0].item
        if item in found or len(found) > MOST_NESTED:
            break  # A loop, or too deep: the check of the file names either.
        found.append(item)
        here = catalog.components.get(item)
    return tuple(found)


def measured_foods(catalog: Catalog, component: Component) -> tuple[str, ...]:
    """Ids whose density and piece weights measure what goes into this route, nearest first.

    What goes in weighs as the input does; the component's own weights are those of its portions and
    come last. A recipe is measured by its own.
    """
    itself, *below = worked_foods(catalog, component)
    return (*below, itself)


def food_yield(catalog: Catalog, component: Component, index: int) -> FoodYield | None:
    """The operation's entry for what step ``index`` works on, the most particular one."""
    operation = catalog.operations.get(component.route[index].operation)
    if operation is None:
        return None
    cut = component.route[index].cut
    by_food = {(entry.food, entry.cut): entry for entry in operation.yields}
    for food in worked_foods(catalog, component):
        for of_cut in (cut, None):
            if (food, of_cut) in by_food:
                return by_food[food, of_cut]
    return None


def stated_fraction(catalog: Catalog, component: Component, index: int) -> Fraction | None:
    """Mass out / mass in of step ``index``, as it is used: the kitchen's own where it has one.

    None where the file states none.
    """
    usual = usual_fraction(catalog, component, index)
    return None if usual is None else in_use(usual, catalog.kitchen.rules.pull_level)


def usual_fraction(catalog: Catalog, component: Component, index: int) -> Fraction | None:
    """What the file states of step ``index``: the step's own, else the operation's for the food."""
    step = component.route[index]
    if step.fraction is not None:
        return step.fraction
    entry = food_yield(catalog, component, index)
    if entry is None:
        return None
    return Fraction(fraction=entry.fraction, source=entry.source, own=entry.own)


def leaves_hot(catalog: Catalog, component: Component, index: int) -> bool:
    """Whether food comes hot out of step ``index``: heat is used, and it is not cooled by it.

    Cooled is what is at or below the first limit of cooling, 21 C (70 F).
    """
    step = component.route[index]
    operation = catalog.operations[step.operation]
    cooled = step.temperature_c is not None and step.temperature_c <= celsius(COOLING[0].to_f)
    return not cooled and (operation.cooks_through or bool(operation.cautions & _HEAT))


def longest_wait(catalog: Catalog, component: Component, index: int) -> int | None:
    """Most minutes between a step and the next one on its route; None: any.

    The step's own; else, for food that needs temperature control, the kitchen's limit where it is
    held ambient, or comes hot out of a step that does not say how it is held.
    """
    if index == len(component.route) - 1:
        return None
    taken = component.route[index]
    if taken.max_wait_minutes is not None:
        return taken.max_wait_minutes
    hot = taken.hold is None and leaves_hot(catalog, component, index)
    if component.tcs and (taken.hold is Holding.AMBIENT or hot):
        return max(catalog.kitchen.rules.uncontrolled_minutes, taken.min_wait_minutes)
    return None


def held_after(component: Component, index: int) -> Holding:
    """Where food waits after step ``index``: as the step says, when finished as it is stored.

    A step that does not say leaves food that needs temperature control cold.
    """
    if index == len(component.route) - 1:
        return component.storage
    return component.route[index].hold or (Holding.COLD if component.tcs else Holding.AMBIENT)


def first_cooked(catalog: Catalog, component: Component) -> int:
    """Index of the first step after which the food weighs as served, not as trimmed and raw.

    A kill step, or one whose cautions speak of heat; the length of the route where none is.
    """
    for index, step in enumerate(component.route):
        operation = catalog.operations[step.operation]
        if operation.cooks_through or operation.cautions & _HEAT:
            return index
    return len(component.route)
