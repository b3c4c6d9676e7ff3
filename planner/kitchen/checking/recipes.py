"""A component is a recipe with a measured output, or one input that follows its route's yields."""

from collections.abc import Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.checking.measuring import Measuring
from planner.kitchen.conversion import ConversionError
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.foods import Component

LEAST_OUTPUT, MOST_OUTPUT = 0.05, 6.0
"""Mass out / mass in of a whole recipe or route. Outside is more likely a slip of the pen or of
the unit than a food; starting guess."""


def check_recipes(catalog: Catalog) -> Iterator[FileError]:
    """Yield each recipe whose amounts are incomplete or cannot be meant."""
    measuring = Measuring(catalog)
    for place, component in places("components", catalog.kitchen.components):
        if component.makes is None:
            yield from _single(place, component)
        else:
            yield from _complete(place, component)
            yield from _plausible(place, component, measuring)
        yield from _waits(place, component)


def _single(place: Place, component: Component) -> Iterator[FileError]:
    if len(component.inputs) > 1:
        yield place.field("makes").error(
            None,
            f"{component.name} has {len(component.inputs)} inputs and no measured output",
            "enter under makes what one batch gives, such as '8 l', or leave one input",
        )
    for below, entry in place.items("inputs", component.inputs):
        if entry.amount is not None and len(component.inputs) == 1:
            yield below.field("amount").error(
                entry.amount,
                "without makes the quantity follows the yields of the route",
                "leave the amount out, or enter under makes what this much gives",
            )


def _complete(place: Place, component: Component) -> Iterator[FileError]:
    for below, entry in place.items("inputs", component.inputs):
        if entry.amount is None:
            yield below.field("amount").error(
                None,
                f"a recipe that makes {component.makes} needs the amount of each input",
                f"enter how much '{entry.item}' one batch takes, such as '2 kg'",
            )
    for below, step in place.items("route", component.route):
        if step.fraction is not None:
            yield below.field("fraction").error(
                step.fraction.fraction,
                f"{component.name} is a recipe: what it makes is measured, so no yield applies",
                "leave the yield out, or leave makes out where there is one input",
            )


def _plausible(place: Place, component: Component, measuring: Measuring) -> Iterator[FileError]:
    if component.makes is None:
        return
    try:
        grams_in = sum(
            measuring.converter.grams(entry.item, entry.amount)
            for entry in component.inputs
            if entry.amount is not None
        )
        grams_out = measuring.converter.grams(component.id, component.makes)
    except (ConversionError, KeyError):
        return  # Reported where the amount or the item stands.
    complete = all(entry.amount is not None for entry in component.inputs)
    if not complete or grams_in == 0 or grams_out == 0:
        return
    if not LEAST_OUTPUT <= grams_out / grams_in <= MOST_OUTPUT:
        yield place.field("makes").error(
            component.makes,
            f"implausible: {grams_in:.4g} g of inputs make {grams_out:.4g} g",
            f"check the units; output / inputs lies between {LEAST_OUTPUT:g} and {MOST_OUTPUT:g}",
        )


def _waits(place: Place, component: Component) -> Iterator[FileError]:
    for below, step in place.items("route", component.route):
        if step.max_wait_minutes is not None and step.max_wait_minutes < step.min_wait_minutes:
            yield below.field("max_wait_minutes").error(
                step.max_wait_minutes,
                f"the next step would start at least {step.min_wait_minutes} minutes and at most "
                f"{step.max_wait_minutes} minutes later",
                f"enter {step.min_wait_minutes} or more, or a shorter min_wait_minutes",
            )
