"""What the food of a batch is called: as purchased until it is worked, then as its component."""

from collections.abc import Iterable

from planner.lots.types import Lot, Part
from planner.sheet.view import PlanView
from planner.wording import sentence


def food_name(view: PlanView, lots: Iterable[Lot], part: Part) -> str:
    """Name of the food that one part of these lots is done on.

    At the first work it still is what was pulled. From then on it is called by the component it is
    for; while several components share it, by the food they have in common.
    """
    lots = tuple(lots)
    components = {share.component for lot in lots for share in lot.shares}
    untouched = part is Part.WORK and any(lot.step == 0 for lot in lots)
    if untouched or len(components) != 1:
        return view.catalog.name(lots[0].food)
    return view.catalog.name(components.pop())


def handed_over(view: PlanView, lot: Lot) -> str:
    """Name of the food with the step that a lot leaves it after: ``Carrot after Peel``."""
    taken_out = any(task.part is Part.FINISH for task in lot.tasks)
    name = food_name(view, (lot,), Part.FINISH if taken_out else Part.WORK)
    return sentence("{name} after {step}", name=name, step=view.operation(lot).name)
