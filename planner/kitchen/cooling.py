"""Cooling chains of a route: from the step that leaves food hot to those that bring it down."""

from collections.abc import Iterator
from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.foods import Component, Holding
from planner.kitchen.route import leaves_hot
from planner.kitchen.safety import COOLING, HOT_HOLDING_C, CoolingLimit, celsius


@dataclass(frozen=True, slots=True)
class CoolingChain:
    """Food must be down at ``limit.to_f`` when step ``cold`` of the route is over.

    Its clock starts at the end of step ``hot``, or where food held hot goes into that step
    (``from_start``) at its start.
    """

    hot: int
    cold: int
    limit: CoolingLimit
    from_start: bool = False


def cooling_chains(catalog: Catalog, component: Component) -> tuple[CoolingChain, ...]:
    """Every cooling chain of a component that needs temperature control.

    From each step that leaves food hot, and each step into which food goes that was held hot, to
    the first later step with a temperature at or below that of a limit. Heat in between starts a
    clock of its own: a step that cooks through, states a hot temperature, or goes on by itself. A
    hot pan in somebody's hands does not. FDA Food Code 3-501.14; the food code does not start the
    clock before 57 C (135 F), so this is a little stricter.
    """
    if not component.tcs:
        return ()
    found: list[CoolingChain] = []
    for hot, from_start in _clocks(catalog, component):
        left = list(COOLING)
        for cold in range(hot if from_start else hot + 1, len(component.route)):
            if _heats(catalog, component, cold):
                break
            reached = component.route[cold].temperature_c
            for limit in list(left):
                if reached is not None and reached <= celsius(limit.to_f):
                    found.append(CoolingChain(hot, cold, limit, from_start))
                    left.remove(limit)
    return tuple(dict.fromkeys(found))


def is_cooling(catalog: Catalog, component: Component, step: int) -> bool:
    """Whether a step is part of a chain behind its first: what comes hot into it must go on."""
    return any(chain.hot < step <= chain.cold for chain in cooling_chains(catalog, component))


def _clocks(catalog: Catalog, component: Component) -> Iterator[tuple[int, bool]]:
    """(step, whether the clock starts at its start) of every clock of a route."""
    for step, taken in enumerate(component.route):
        if leaves_hot(catalog, component, step):
            held = taken.hold is Holding.HOT and step + 1 < len(component.route)
            yield (step + 1, True) if held else (step, False)
    for taken_in in component.inputs:
        made = catalog.components.get(taken_in.item)
        step = taken_in.after_step
        # Into a step that leaves it hot: that one's own clock counts.
        if (
            made is not None
            and made.storage is Holding.HOT
            and step < len(component.route)
            and not leaves_hot(catalog, component, step)
        ):
            yield step, True


def _heats(catalog: Catalog, component: Component, step: int) -> bool:
    taken = component.route[step]
    if not leaves_hot(catalog, component, step):
        return False
    operation = catalog.operations[taken.operation]
    alone = taken.unattended_minutes
    alone = operation.unattended_minutes if alone is None else alone
    hot = taken.temperature_c is not None and taken.temperature_c >= HOT_HOLDING_C
    return operation.cooks_through or hot or alone > 0
