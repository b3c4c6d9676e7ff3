"""A component is a recipe with a measured output, or one input that follows its route's yields."""

from collections.abc import Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.checking.measuring import Measuring
from planner.kitchen.conversion import ConversionError
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.flow import FlowError, measured_step, route_flow
from planner.kitchen.foods import Component

LEAST_OUTPUT, MOST_OUTPUT = 0.05, 6.0
"""Mass out / mass in of a whole recipe or route. Outside is more likely a slip of the pen or of
the unit than a food; starting guess."""
MOST_OF_A_STEP = 4.0
"""Mass out / mass in of one step. Dry rice, beans and pasta take up two to three times their mass
in water; starting guess."""


def check_recipes(catalog: Catalog) -> Iterator[FileError]:
    """Yield each recipe whose amounts are incomplete or cannot be meant."""
    measuring = Measuring(catalog)
    for place, component in places("components", catalog.kitchen.components):
        if component.makes is None:
            yield from _single(place, component)
        else:
            yield from _complete(place, component)
            if all(entry.after_step < len(component.route) for entry in component.inputs):
                yield from _plausible(place, component, measuring)
        yield from _joins(place, component)
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


def _joins(place: Place, component: Component) -> Iterator[FileError]:
    """Each input goes in at a step there is, and one at the first."""
    steps = len(component.route)
    for below, entry in place.items("inputs", component.inputs):
        if entry.after_step and component.makes is None:
            yield below.field("after_step").error(
                entry.after_step,
                "without makes the one input goes in at the start",
                "leave it out, or enter under makes what one batch gives",
            )
        elif entry.after_step >= steps:
            yield below.field("after_step").error(
                entry.after_step,
                f"{component.name} has {steps} step{'' if steps == 1 else 's'}: what goes in must "
                "do so before the last",
                f"enter 0 to {steps - 1}: how many steps are done when it goes in",
            )
    if all(entry.after_step for entry in component.inputs):
        yield place.field("inputs").error(
            None,
            f"nothing goes in at the first step, '{component.route[0].operation}'",
            "leave after_step out where an input goes in at the start",
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
        return
    yield from _each_step(place, component, measuring)


def _each_step(place: Place, component: Component, measuring: Measuring) -> Iterator[FileError]:
    """The step that explains the measured output does so as food can."""
    catalog = measuring.catalog
    index = measured_step(catalog, component)
    try:
        flow = route_flow(catalog, measuring.converter, component)
    except FlowError as error:
        yield place.field("makes").error(
            component.makes,
            str(error),
            "leave the yield out at one step (what makes says is taken for it), or check amounts "
            "and yields",
        )
        return
    if index is not None and not LEAST_OUTPUT <= flow[index].fraction <= MOST_OF_A_STEP:
        yield place.field("makes").error(
            component.makes,
            f"implausible: '{component.route[index].operation}' would make "
            f"{flow[index].fraction:.3g} kg of each kg that goes in",
            "check amounts, yields and where each input goes in; one step's yield lies between "
            f"{LEAST_OUTPUT:g} and {MOST_OF_A_STEP:g}",
        )


def _waits(place: Place, component: Component) -> Iterator[FileError]:
    last = len(component.route) - 1
    if component.route[last].max_wait_minutes is not None:
        yield (
            place.item("route", last)
            .field("max_wait_minutes")
            .error(
                component.route[last].max_wait_minutes,
                "no step comes after the last one",
                "enter it at the step before which it is about, or leave it out",
            )
        )
    for below, step in place.items("route", component.route):
        if step.max_wait_minutes is not None and step.max_wait_minutes < step.min_wait_minutes:
            yield below.field("max_wait_minutes").error(
                step.max_wait_minutes,
                f"the next step would start at least {step.min_wait_minutes} min and at most "
                f"{step.max_wait_minutes} min later",
                f"enter {step.min_wait_minutes} or more, or a shorter min_wait_minutes",
            )
