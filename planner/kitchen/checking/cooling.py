"""Cooling that takes too long by its own minutes, whoever does it and whatever else goes on."""

from collections.abc import Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.cooling import CoolingChain, cooling_chains
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.foods import Component
from planner.kitchen.safety import LOCAL_CODE, celsius
from planner.kitchen.work import Per
from planner.wording import sentence


def check_cooling(catalog: Catalog) -> Iterator[FileError]:
    """Yield each step by whose end food cannot be down in time, one error a step."""
    for place, component in places("components", catalog.kitchen.components):
        if any(step.operation not in catalog.operations for step in component.route):
            continue  # Reported where the operation is named.
        told: set[int] = set()
        for chain in cooling_chains(catalog, component):
            minutes = _own_minutes(catalog, component, chain)
            if minutes > chain.limit.minutes and chain.cold not in told:
                told.add(chain.cold)
                yield _error(place.item("route", chain.cold), component, chain, minutes)


def _own_minutes(catalog: Catalog, component: Component, chain: CoolingChain) -> float:
    """Least minutes of a chain: unattended, per lot, taking out, and the waits that are asked."""
    total = 0.0
    for index in range(chain.hot, chain.cold + 1):
        step = component.route[index]
        operation = catalog.operations[step.operation]
        if index > chain.hot or chain.from_start:
            alone = step.unattended_minutes
            total += operation.unattended_minutes if alone is None else alone
            total += operation.each_lot_minutes
            if operation.per is Per.LOT:
                rate = step.minutes_per
                total += operation.minutes_per if rate is None else rate
            total += operation.finish_minutes if index < chain.cold else 0
        total += step.min_wait_minutes if index < chain.cold else 0
    return total


def _error(place: Place, component: Component, chain: CoolingChain, minutes: float) -> FileError:
    step, limit = component.route[chain.cold], chain.limit
    stated = step.unattended_minutes is not None
    where = place.field("unattended_minutes" if stated else "operation")
    goal = f"{celsius(limit.to_f):.0f} C ({limit.to_f:g} F)"
    return where.error(
        step.unattended_minutes if stated else step.operation,
        sentence(
            "{component} is at {goal} {n:g} min after the heat at the soonest; the "
            "limit is {n_2} min (FDA Food Code 3-501.14; {local_code})",
            component=component.name,
            goal=goal,
            n=minutes,
            n_2=limit.minutes,
            local_code=LOCAL_CODE,
        ),
        sentence(
            "cool it faster (shallow pans, an ice bath, a blast chiller) to be at "
            "{goal} within {n} min, or put a step before it that has a temperature_c "
            "of {n_2:.0f} and brings it there in time",
            goal=goal,
            n=limit.minutes,
            n_2=celsius(limit.to_f),
        ),
    )
