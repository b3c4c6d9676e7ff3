"""What a component takes of each of its inputs, by-products first, and what that asks of them."""

import math
from collections.abc import Sequence
from dataclasses import replace

from planner.kitchen.foods import Component
from planner.kitchen.hours import DAY
from planner.kitchen.route import first_cooked
from planner.measures import AsServed, gross, raw
from planner.quantities.credits import TrimPool
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.netting import part_of
from planner.quantities.types import Credit, InputDraw, Making, Reason, Want


def draws_of(
    kit: Kitchenry, component: Component, grams: float, starts: Sequence[int]
) -> list[InputDraw]:
    """Each input of ``grams`` finished, at the latest start of the step that it goes in at."""
    return [
        InputDraw(taken.item, wanted, taken.after_step, starts[taken.after_step])
        for taken, wanted in zip(component.inputs, input_grams(kit, component, grams), strict=True)
    ]


def draws_on_later_days(kit: Kitchenry, component: Component, making: Making) -> list[InputDraw]:
    """What goes in at steps that a making leaves for later days."""
    draws = draws_of(kit, component, making.grams, making.starts)
    return [draw for draw in draws if draw.step >= making.last_step]


def input_grams(kit: Kitchenry, component: Component, grams: float) -> list[float]:
    """Grams of each input for ``grams`` finished: by the recipe batch, or by the yield chain.

    The chain runs from as served, through cook yields, to the edible portion, and on through trim
    yields to as purchased (or to the input as it was prepared).
    """
    if component.makes is None:
        cooked = first_cooked(kit.catalog, component)
        fractions = [step.fraction for step in kit.flows.of(component)]
        edible = raw(AsServed(grams), math.prod(fractions[cooked:]))
        return [gross(edible, math.prod(fractions[:cooked])).grams]
    batches = grams / kit.converter.grams(component.id, component.makes)
    return [
        0.0 if taken.amount is None else batches * kit.converter.grams(taken.item, taken.amount)
        for taken in component.inputs
    ]


def with_draws(kit: Kitchenry, component: Component, making: Making, pool: TrimPool) -> Making:
    """Attach what a making takes of each input on the planned day, by-products taken first."""
    draws: list[InputDraw] = []
    given: list[Credit] = []
    wanted = draws_of(kit, component, making.grams, making.starts)
    for taken, draw in zip(component.inputs, wanted, strict=True):
        if not making.first_step <= draw.step < making.last_step:
            continue
        credited = pool.take(component.id, taken, draw.grams, draw.due) if taken.may_use else ()
        given += credited
        draws.append(replace(draw, grams=draw.grams - sum(credit.grams for credit in credited)))
    return replace(making, draws=tuple(draws), credits=tuple(given))


def passed_on(component: Component, want: Want, grams: float, draw: InputDraw) -> Want:
    """The want that ``grams`` finished put on one input; the buffer is inside already."""
    part = part_of(want, grams)
    return Want(
        reason=Reason.COMPONENT,
        consumer=component.id,
        consumer_name=component.name,
        grams=draw.grams,
        expected=draw.grams,
        buffer=0.0,
        due=draw.due,
        until=part.until,
        doors=part.doors,
        day=max(0, draw.due // DAY),  # what should have begun before is begun today
        lateness_weight=part.lateness_weight,
        shares=part.shares,
    )
