"""Which figure of the kitchen file says how long a step takes, and what it says."""

from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.foods import Component
from planner.kitchen.route import worked_foods
from planner.kitchen.work import Operation, Per
from planner.quantities.kitchenry import Kitchenry
from planner.rates.types import Book, Key, Kind


@dataclass(frozen=True, slots=True)
class StepFigures:
    """What a step's hands-on minutes follow from.

    ``rate`` is None where they do not grow with a quantity. ``units_per_gram`` and
    ``units_per_lot`` are units of the rate; ``fixed_per_lot`` minutes at pace 1.
    """

    operation: Operation
    rate: Book | None
    units_per_gram: float
    units_per_lot: float
    fixed_per_lot: float


def step_figures(kit: Kitchenry, component: Component, index: int) -> StepFigures:
    """Figures of step ``index`` of a component's route."""
    effort = kit.efforts.of(component, index)
    operation = effort.operation
    key, value = _rate(kit.catalog, component, index, operation)
    if value <= 0:
        return StepFigures(operation, None, 0.0, 0.0, effort.minutes_per_lot)
    per_lot = operation.per is Per.LOT
    return StepFigures(
        operation=operation,
        rate=Book(key, value),
        units_per_gram=effort.minutes_per_gram / value,
        units_per_lot=1.0 if per_lot else 0.0,
        fixed_per_lot=operation.each_lot_minutes,
    )


def set_up_figure(operation: Operation) -> Book | None:
    """The operation's set-up; None where it has none."""
    if operation.set_up_minutes == 0:
        return None
    return Book(Key(Kind.SET_UP, operation=operation.id), float(operation.set_up_minutes))


def slowness_figure(catalog: Catalog, cook: str, skill: str) -> Book | None:
    """A cook's minutes / those of pace 1; None for somebody who has not the skill."""
    person = catalog.cooks.get(cook)
    if person is None:
        return None
    pace = next((one.pace for one in person.skills if one.skill == skill), None)
    if pace is None:
        return None
    return Book(Key(Kind.SLOWNESS, cook=cook, skill=skill), 1 / pace)


def _rate(
    catalog: Catalog, component: Component, index: int, operation: Operation
) -> tuple[Key, float]:
    """Where the rate stands, as the planner looks it up: step, then food, then operation.

    A rate that stands at the operation alone is learned for each food apart: what is learned is
    written beside it, and the operation's goes on for foods that nobody has ticked.
    """
    step = component.route[index]
    if step.minutes_per is not None:
        key = Key(Kind.RATE, operation=operation.id, food=component.id, step=index)
        return key, step.minutes_per
    foods = worked_foods(catalog, component)
    rates = {rate.food: rate.minutes_per for rate in operation.rates}
    for food in foods:
        if food in rates:
            return Key(Kind.RATE, operation=operation.id, food=food), rates[food]
    return Key(Kind.RATE, operation=operation.id, food=foods[-1]), operation.minutes_per
