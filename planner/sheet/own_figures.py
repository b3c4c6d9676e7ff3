"""Which of the kitchen's own yields a batch was worked out with."""

from planner.kitchen.own_yields import own_fraction
from planner.kitchen.route import usual_fraction
from planner.lots.types import Lot
from planner.sheet.batch_types import OwnFigure
from planner.sheet.view import PlanView


def own_figures(view: PlanView, lots: tuple[Lot, ...]) -> tuple[OwnFigure, ...]:
    """Those of all components that the lots are shared by, each once."""
    found: dict[OwnFigure, None] = {}
    level = view.catalog.kitchen.rules.pull_level
    for lot in lots:
        for share in lot.shares:
            usual = usual_fraction(view.catalog, view.catalog.components[share.component], lot.step)
            if usual is None or usual.own is None:
                continue
            used = own_fraction(usual.own, level)
            figure = OwnFigure(usual.fraction, usual.own.fraction, used, usual.own.tests)
            found[figure] = None
    return tuple(found)
