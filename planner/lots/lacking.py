"""Food that cannot be made for want of raw food, carried on to whatever is made of it.

A pot that needs a kilo of leeks more than there are must not hold up the leeks that are there: what
lacks something goes into lots of its own, through every component that takes from it.
"""

from planner.lots.stages import Portion, portions_of
from planner.quantities.making import Kitchenry
from planner.quantities.order import consumers_first
from planner.quantities.supply import Allotment, DrawKey
from planner.quantities.types import ComponentNeed, Quantities, Reason, Supply

_LEAST = 1e-6


def all_portions(
    kit: Kitchenry, quantities: Quantities, allotted: dict[DrawKey, list[Allotment]]
) -> list[Portion]:
    """Portions of every component, in the order of its needs.

    ``allotted`` says who gets raw food; what a component cannot give its takers follows from it,
    first wanted first served.
    """
    found: dict[str, list[Portion]] = {}
    known = dict(allotted)
    for component in reversed(consumers_first(kit.catalog)):
        need = quantities.by_component.get(component)
        if need is None:
            continue
        found[component] = portions_of(need, known)
        known.update(_passed_on(need, found[component], quantities))
    return [portion for need in quantities.needs for portion in found.get(need.component, [])]


def _passed_on(
    need: ComponentNeed, portions: list[Portion], quantities: Quantities
) -> dict[DrawKey, list[Allotment]]:
    """What takers of a component get of it, where it lacks something; else nothing."""
    finished = [one for one in portions if one.making.finishes]
    lacks = tuple(sorted({item for one in finished for item in one.missing}))
    if not lacks:
        return {}
    there = sum(use.grams for use in need.stock if use.after_step is None)
    there += sum(one.grams for one in finished if not one.missing)
    takers: list[tuple[int, DrawKey | None, float]] = [
        (draw.due, (other.component, index, draw.item, draw.step), draw.grams)
        for other in quantities.needs
        for index, making in enumerate(other.makings)
        for draw in making.draws
        if draw.item == need.component
    ]
    takers += [
        (want.due, None, want.grams)
        for want in need.wants
        if want.reason is not Reason.COMPONENT and want.day <= 0
    ]
    takers.sort(key=lambda one: (one[0], one[1] is not None, one[1] or ()))
    given: dict[DrawKey, list[Allotment]] = {}
    for _, key, grams in takers:
        got = min(grams, max(0.0, there))
        there -= got
        if key is None or grams - got <= _LEAST:
            continue
        share = got / grams
        missing = Supply(grams - got, 0, "cannot be made", available=False, lacks=lacks)
        given[key] = [Allotment(share, 1.0, missing)]
        if share > _LEAST:
            given[key].insert(0, Allotment(0.0, share, Supply(got, 0, "made today")))
    return given
