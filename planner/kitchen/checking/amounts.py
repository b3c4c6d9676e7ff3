"""Every amount of a food becomes grams, and every lot can be measured against its vessel."""

from collections.abc import Callable, Iterator
from functools import partial

from planner.kitchen.base import Amount
from planner.kitchen.catalog import Catalog
from planner.kitchen.checking.measuring import Measuring
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.foods import Component, Step
from planner.kitchen.route import measured_foods
from planner.kitchen.work import Operation, Per
from planner.wording import sentence

_RATE_UNITS = {Per.LITRE: "l", Per.EACH: "each"}


def check_amounts(catalog: Catalog) -> Iterator[FileError]:
    """Yield each amount that is nothing, or whose unit does not fit its food."""
    measuring = Measuring(catalog)
    yield from _food_amounts(catalog, measuring)
    yield from _vessels(catalog, measuring)
    for place, component in places("components", catalog.kitchen.components):
        foods = measured_foods(catalog, component)
        if all(measuring.knows(food) for food in foods):
            for below, step in place.items("route", component.route):
                operation = catalog.operations.get(step.operation)
                if operation is not None:
                    yield from _step(
                        below.field("operation"), catalog, component, step, operation, measuring
                    )


def _food_amounts(catalog: Catalog, measuring: Measuring) -> Iterator[FileError]:
    kitchen = catalog.kitchen
    for place, component in places("components", kitchen.components):
        for name in ("makes", "batch_multiple"):
            yield from measuring.amount(place.field(name), component.id, getattr(component, name))
        for name in ("par", "batch_minimum"):
            yield from measuring.amount(
                place.field(name), component.id, getattr(component, name), zero_allowed=True
            )
        for below, entry in place.items("inputs", component.inputs):
            yield from measuring.amount(below.field("amount"), entry.item, entry.amount)
    for place, dish in places("dishes", kitchen.dishes):
        for below, portion in place.items("components", dish.components):
            yield from measuring.amount(below.field("amount"), portion.item, portion.amount)
    for list_name in ("prepared", "raw_stock", "deliveries"):
        for place, stock in places(list_name, getattr(kitchen, list_name)):
            yield from measuring.amount(
                place.field("amount"), stock.item, stock.amount, zero_allowed=True
            )


def _vessels(catalog: Catalog, measuring: Measuring) -> Iterator[FileError]:
    for place, equipment in places("equipment", catalog.kitchen.equipment):
        yield from _capacity(place.field("holds"), equipment.holds, measuring)
    for place, operation in places("operations", catalog.kitchen.operations):
        yield from _capacity(place.field("lot_limit"), operation.lot_limit, measuring)
        for below, use in place.items("equipment", operation.equipment):
            yield from _capacity(below.field("holds"), use.holds, measuring)


def _capacity(place: Place, holds: Amount | None, measuring: Measuring) -> Iterator[FileError]:
    if holds is None:
        return
    if holds.number == 0:
        yield place.error(
            holds, sentence("this holds nothing"), sentence("enter an amount above zero")
        )
    if not measuring.anywhere(holds.unit):
        yield measuring.unknown(place, holds, holds.unit)


def _step(
    place: Place,
    catalog: Catalog,
    component: Component,
    step: Step,
    operation: Operation,
    measuring: Measuring,
) -> Iterator[FileError]:
    """What bounds a lot, and what its rate counts, must be measurable for what goes in."""
    foods = measured_foods(catalog, component)
    for limit, told in _limits(catalog, operation):
        reason = measuring.first_reason(foods, limit.unit)
        if reason is not None and measuring.anywhere(limit.unit):
            yield place.error(
                step.operation,
                told(reason.problem),
                reason.remedy,
            )
    unit = _RATE_UNITS.get(operation.per)
    if unit is not None:
        reason = measuring.first_reason(foods, unit)
        if reason is not None:
            yield place.error(
                step.operation,
                sentence(
                    "{operation} is timed per '{unit}', and {problem}",
                    operation=operation.name,
                    unit=unit,
                    problem=reason.problem,
                ),
                reason.remedy,
            )


def _limits(
    catalog: Catalog, operation: Operation
) -> Iterator[tuple[Amount, Callable[[str], str]]]:
    """What bounds a lot, and how a problem with it is told."""
    if operation.lot_limit is not None:
        yield operation.lot_limit, partial(_most_at_once, operation.name, operation.lot_limit)
    for use in operation.equipment:
        equipment = catalog.equipment.get(use.equipment)
        holds = use.holds or (equipment.holds if equipment else None)
        if equipment is not None and holds is not None:
            yield holds, partial(_holding, equipment.name, holds)


def _most_at_once(operation: str, limit: Amount, problem: str) -> str:
    return sentence(
        "{operation} takes at most {limit} at once, and {problem}",
        operation=operation,
        limit=limit,
        problem=problem,
    )


def _holding(equipment: str, holds: Amount, problem: str) -> str:
    return sentence(
        "{equipment} holds {holds}, and {problem}",
        equipment=equipment,
        holds=holds,
        problem=problem,
    )
