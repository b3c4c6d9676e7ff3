"""When food that must stay cold is first touched, and what of it is raw: for the pull lists."""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from planner.kitchen.cautions import raw_animals_at, raw_animals_in
from planner.kitchen.foods import Holding, Ingredient
from planner.lots.types import Lot, Part
from planner.sheet.runs import Run
from planner.sheet.view import PlanView, is_part_made

Uses = tuple[tuple[int, float], ...]
"""(minute the batch first touches it, grams), by time."""


def lot_uses(
    view: PlanView, run_of_task: Mapping[int, Run], taken: Iterable[tuple[Lot, float]]
) -> Uses:
    """Batch by batch, when the ``taken`` grams of lots are first worked on, and how many."""
    starts: dict[int, int] = {}
    grams: dict[int, float] = defaultdict(float)
    for lot, share in taken:
        task = first_task(lot)
        if task is None or task not in run_of_task:
            continue
        number = run_of_task[task].number
        start = view.assignments[task].start
        starts[number] = min(start, starts.get(number, start))
        grams[number] += share
    return tuple(sorted((start, grams[number]) for number, start in starts.items()))


def first_task(lot: Lot) -> int | None:
    """The task that touches the lot's food first."""
    return next((task.task for task in lot.tasks if task.part is Part.WORK), None)


def keeps_cold(view: PlanView, item: str, storage: str) -> bool:
    """Whether a food must wait in the cold until its batch; what is held hot is not meant."""
    return view.catalog.food(item).tcs and storage != Holding.HOT.value


def is_raw_animal(view: PlanView, item: str, lot: Lot | None = None) -> bool:
    """Whether it is raw animal food; ``lot`` is what takes part-made stock of its own component."""
    food = view.catalog.food(item)
    if isinstance(food, Ingredient):
        return food.raw_animal is not None
    if lot is not None and is_part_made(lot, item):
        return bool(raw_animals_at(food, view.catalog, lot.step - 1, after=True))
    return bool(raw_animals_in(item, view.catalog))
