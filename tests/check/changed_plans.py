"""The tiny plan with one thing changed: a lot, a task, a need, a pull line, the kitchen file."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from planner.kitchen.document import Kitchen
from planner.lots.types import Lot
from planner.plan import Plan
from planner.schedule.problem import Family, Hygiene, Problem, Wait
from tests.kitchens.plans import planned_kitchen, tiny_plan

PEEL, DICE, DICE_MORE, SIMMER, ROAST = range(5)
"""Lots of the tiny plan."""
SIMMER_WORK, ROAST_WORK = 3, 5
"""Tasks of the tiny plan."""


@dataclass(frozen=True)
class Checked:
    """A kitchen as the file has it, and a plan of it."""

    file: dict[str, Any]
    plan: Plan

    @property
    def kitchen(self) -> Kitchen:
        return Kitchen.model_validate(self.file)


def good() -> Checked:
    """The tiny plan, which rounds book minutes for paper, with all their decimals."""
    plan = tiny_plan()
    exact = {
        PEEL: plan.workload.lots[PEEL].grams_in / 1000 * 3,
        DICE: plan.workload.lots[DICE].grams_in / 1000 * 6,
        DICE_MORE: plan.workload.lots[DICE_MORE].grams_in / 1000 * 6,
    }
    lots = tuple(
        replace(lot, tasks=(replace(lot.tasks[0], book_minutes=exact[lot.index]),))
        if lot.index in exact
        else lot
        for lot in plan.workload.lots
    )
    file = planned_kitchen().model_dump(mode="json")
    return Checked(file, replace(plan, workload=replace(plan.workload, lots=lots)))


def lot(index: int, **fields: Any) -> Checked:
    """The good plan with fields of a lot altered."""
    return lot_by(index, lambda _: fields)


def lot_by(index: int, fields: Callable[[Lot], dict[str, Any]]) -> Checked:
    """The good plan with fields of a lot altered, worked out from the lot."""
    checked = good()
    lots = list(checked.plan.workload.lots)
    lots[index] = replace(lots[index], **fields(lots[index]))
    workload = replace(checked.plan.workload, lots=tuple(lots))
    return replace(checked, plan=replace(checked.plan, workload=workload))


def problem(change: Callable[[Problem], dict[str, Any]]) -> Checked:
    """The good plan with fields of its problem altered."""
    checked = good()
    workload = checked.plan.workload
    altered = replace(workload.problem, **change(workload.problem))
    return replace(checked, plan=replace(checked.plan, workload=replace(workload, problem=altered)))


def task(index: int, **fields: Any) -> Checked:
    """The good plan with fields of a task of its problem altered."""

    def change(old: Problem) -> dict[str, Any]:
        tasks = list(old.tasks)
        tasks[index] = replace(tasks[index], **fields)
        return {"tasks": tuple(tasks)}

    return problem(change)


def family(index: int, hygiene: Hygiene) -> Checked:
    """The good plan with the hygiene of a family altered."""

    def change(old: Problem) -> dict[str, Any]:
        families: list[Family] = list(old.families)
        families[index] = replace(families[index], hygiene=hygiene)
        return {"families": tuple(families)}

    return problem(change)


def hold(index: int, **fields: Any) -> Checked:
    """The good plan with fields of a hold altered."""

    def change(old: Problem) -> dict[str, Any]:
        holds = list(old.holds)
        holds[index] = replace(holds[index], **fields)
        return {"holds": tuple(holds)}

    return problem(change)


def job(index: int, **fields: Any) -> Checked:
    """The good plan with fields of a job altered."""

    def change(old: Problem) -> dict[str, Any]:
        jobs = list(old.jobs)
        jobs[index] = replace(jobs[index], **fields)
        return {"jobs": tuple(jobs)}

    return problem(change)


def waits(*, without: tuple[int, int], new: Wait | None = None) -> Checked:
    """The good plan with a wait taken away or replaced."""
    more = () if new is None else (new,)
    return problem(
        lambda old: {
            "waits": (*(w for w in old.waits if (w.before, w.after) != without), *more),
        }
    )


def need(component: str, **fields: Any) -> Checked:
    """The good plan with fields of a component's need altered."""
    checked = good()
    needs = tuple(
        replace(each, **fields) if each.component == component else each
        for each in checked.plan.quantities.needs
    )
    quantities = replace(
        checked.plan.quantities, needs=needs, by_component={each.component: each for each in needs}
    )
    return replace(checked, plan=replace(checked.plan, quantities=quantities))


def pull(item: str, **fields: Any) -> Checked:
    """The good plan with fields of a pull line altered."""
    checked = good()
    pulls = tuple(
        replace(line, **fields) if line.ingredient == item else line
        for line in checked.plan.quantities.pulls
    )
    quantities = replace(checked.plan.quantities, pulls=pulls)
    return replace(checked, plan=replace(checked.plan, quantities=quantities))


def file(change: Callable[[dict[str, Any]], object]) -> Checked:
    """The good plan with another kitchen than it was made for."""
    checked = good()
    change(checked.file)
    return checked


def by_id(elements: list[dict[str, Any]], name: str) -> dict[str, Any]:
    """The element of a list of the kitchen file with that id."""
    return next(each for each in elements if each["id"] == name)


def by_item(elements: list[dict[str, Any]], item: str) -> dict[str, Any]:
    """The entry for an item."""
    return next(each for each in elements if each["item"] == item)


def steps_of(component: str) -> tuple[Any, ...]:
    return good().plan.quantities.by_component[component].steps
