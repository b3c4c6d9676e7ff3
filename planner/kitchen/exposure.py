"""What a step means for food that must not be out of the cold for long."""

from enum import StrEnum

from planner.kitchen.catalog import Catalog
from planner.kitchen.cooling import is_cooling
from planner.kitchen.foods import Component
from planner.kitchen.route import leaves_hot
from planner.kitchen.safety import COLD_HOLDING_C


class Care(StrEnum):
    """How a step keeps food that needs temperature control."""

    HEAT = "heat"
    """It heats: no minutes out of temperature control."""
    COOLING = "cooling"
    """It is part of a cooling chain, which has limits of its own."""
    COLD = "cold"
    """Only the work on it counts; what goes on by itself is in the cold."""
    OUT = "out"
    """From the start of the work to the end of taking it out, all of it counts."""


def care_of(catalog: Catalog, component: Component, step: int) -> Care:
    """How a step of a route keeps the food."""
    reached = component.route[step].temperature_c
    if leaves_hot(catalog, component, step):
        return Care.HEAT
    if is_cooling(catalog, component, step):
        return Care.COOLING
    return Care.COLD if reached is not None and reached <= COLD_HOLDING_C else Care.OUT
