"""Routes on which food is out of temperature control for too long by their own minutes."""

from collections.abc import Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.exposure import Care, care_of
from planner.kitchen.foods import Component, Holding
from planner.kitchen.route import held_after
from planner.kitchen.safety import LOCAL_CODE
from planner.wording import sentence


def check_exposure(catalog: Catalog) -> Iterator[FileError]:
    """Yield the first step of each route by which food has been out for too long."""
    limit = catalog.kitchen.rules.out_of_control_minutes
    for place, component in places("components", catalog.kitchen.components):
        known = all(step.operation in catalog.operations for step in component.route)
        if not component.tcs or not known:
            continue
        spent = 0.0
        for index in range(len(component.route)):
            spent = _after(catalog, component, index, spent)
            if spent > limit:
                yield _error(place.item("route", index), component, index, spent, limit)
                break


def _after(catalog: Catalog, component: Component, index: int, spent: float) -> float:
    """Least minutes out by the end of a step, and of the wait after it that is asked for."""
    step, care = component.route[index], care_of(catalog, component, index)
    operation = catalog.operations[step.operation]
    alone = step.unattended_minutes
    alone = operation.unattended_minutes if alone is None else alone
    if care in (Care.HEAT, Care.COOLING):
        return 0.0 if operation.cooks_through else spent
    spent += operation.each_lot_minutes
    warm = held_after(component, index) is Holding.AMBIENT
    if care is Care.OUT and (operation.finish_minutes or warm):
        spent += alone
    spent += operation.finish_minutes
    return spent + (step.min_wait_minutes if warm and index < len(component.route) - 1 else 0)


def _error(place: Place, component: Component, index: int, spent: float, limit: int) -> FileError:
    step = component.route[index]
    stated = step.unattended_minutes is not None
    return place.field("unattended_minutes" if stated else "operation").error(
        step.unattended_minutes if stated else step.operation,
        sentence(
            "{component} is out of temperature control for {n:g} min by then; the "
            "kitchen's limit is {n_2} min in all (FDA Food Code 3-501.19; "
            "{local_code})",
            component=component.name,
            n=spent,
            n_2=limit,
            local_code=LOCAL_CODE,
        ),
        sentence(
            "enter a temperature_c of 5 or below where the step keeps it cold, hold "
            "it cold between steps, or make it shorter; rules.out_of_control_minutes "
            "is the limit"
        ),
    )
