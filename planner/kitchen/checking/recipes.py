"""A component is a recipe with a measured output, or one input that follows its route's yields."""

from collections.abc import Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.checking.measuring import Measuring
from planner.kitchen.conversion import ConversionError
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.flow import FlowError, measured_step, route_flow
from planner.kitchen.foods import Component
from planner.wording import counted, sentence

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
            sentence(
                "{component} has {n} inputs and no measured output",
                component=component.name,
                n=len(component.inputs),
            ),
            sentence("enter under makes what one batch gives, such as '8 l', or leave one input"),
        )
    for below, entry in place.items("inputs", component.inputs):
        if entry.amount is not None and len(component.inputs) == 1:
            yield below.field("amount").error(
                entry.amount,
                sentence("without makes the quantity follows the yields of the route"),
                sentence("leave the amount out, or enter under makes what this much gives"),
            )


def _complete(place: Place, component: Component) -> Iterator[FileError]:
    for below, entry in place.items("inputs", component.inputs):
        if entry.amount is None:
            yield below.field("amount").error(
                None,
                sentence(
                    "a recipe that makes {makes} needs the amount of each input",
                    makes=component.makes,
                ),
                sentence(
                    "enter how much '{item}' one batch takes, such as '2 kg'", item=entry.item
                ),
            )


def _joins(place: Place, component: Component) -> Iterator[FileError]:
    """Each input goes in at a step there is, and one at the first."""
    steps = len(component.route)
    for below, entry in place.items("inputs", component.inputs):
        if entry.after_step and component.makes is None:
            yield below.field("after_step").error(
                entry.after_step,
                sentence("without makes the one input goes in at the start"),
                sentence("leave it out, or enter under makes what one batch gives"),
            )
        elif entry.after_step >= steps:
            yield below.field("after_step").error(
                entry.after_step,
                sentence(
                    "{component} has {steps}: what goes in must do so before the last",
                    component=component.name,
                    steps=counted("{n} step", "{n} steps", steps),
                ),
                sentence("enter 0 to {n}: how many steps are done when it goes in", n=steps - 1),
            )
    if all(entry.after_step for entry in component.inputs):
        yield place.field("inputs").error(
            None,
            sentence(
                "nothing goes in at the first step, '{operation}'",
                operation=component.route[0].operation,
            ),
            sentence("leave after_step out where an input goes in at the start"),
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
            sentence(
                "implausible: {n:.4g} g of inputs make {n_2:.4g} g", n=grams_in, n_2=grams_out
            ),
            sentence(
                "check the units; output / inputs lies between {n:g} and {n_2:g}",
                n=LEAST_OUTPUT,
                n_2=MOST_OUTPUT,
            ),
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
            sentence(
                "leave the yield out at one step (what makes says is taken for it), or "
                "check amounts and yields"
            ),
        )
        return
    if index is not None and not LEAST_OUTPUT <= flow[index].fraction <= MOST_OF_A_STEP:
        yield place.field("makes").error(
            component.makes,
            sentence(
                "implausible: '{operation}' would make {n:.3g} kg of each kg that goes in",
                operation=component.route[index].operation,
                n=flow[index].fraction,
            ),
            sentence(
                "check amounts, yields and where each input goes in; one step's yield "
                "lies between {n:g} and {n_2:g}",
                n=LEAST_OUTPUT,
                n_2=MOST_OF_A_STEP,
            ),
        )


def _waits(place: Place, component: Component) -> Iterator[FileError]:
    last = len(component.route) - 1
    if component.route[last].max_wait_minutes is not None:
        yield (
            place.item("route", last)
            .field("max_wait_minutes")
            .error(
                component.route[last].max_wait_minutes,
                sentence("no step comes after the last one"),
                sentence("enter it at the step before which it is about, or leave it out"),
            )
        )
    for below, step in place.items("route", component.route):
        if step.max_wait_minutes is not None and step.max_wait_minutes < step.min_wait_minutes:
            yield below.field("max_wait_minutes").error(
                step.max_wait_minutes,
                sentence(
                    "the next step would start at least {n} min and at most {n_2} min later",
                    n=step.min_wait_minutes,
                    n_2=step.max_wait_minutes,
                ),
                sentence(
                    "enter {n} or more, or a shorter min_wait_minutes", n=step.min_wait_minutes
                ),
            )
