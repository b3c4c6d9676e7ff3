"""Food that a dish takes as it is: no batch is made of it, so no cook's list has it."""

from planner.quantities.types import Want
from planner.quantities.wants import dish_wants
from planner.sheet.dishes import dish_name
from planner.sheet.pieces import pieces
from planner.sheet.types import StraightItem
from planner.sheet.view import PlanView


def straight_to_the_line(view: PlanView) -> tuple[StraightItem, ...]:
    """What the planned day's dishes take off the shelf, with nothing prepared in between.

    Ordered by when it is due on the line, then by name.
    """
    wants = dish_wants(view.catalog, view.converter, view.plan.demands)
    found = [
        _item(view, item, want)
        for item, wanted in wants.items()
        if item in view.catalog.ingredients
        for want in wanted
        if want.day == 0
    ]
    return tuple(sorted(found, key=lambda one: (one.due, one.name, one.dish)))


def _item(view: PlanView, item: str, want: Want) -> StraightItem:
    food = view.catalog.ingredients[item]
    service = want.shares[0].service
    number, piece = pieces(view, item, want.grams)
    return StraightItem(
        ingredient=item,
        name=food.name,
        grams=want.grams,
        pieces=number,
        piece=piece,
        dish=dish_name(view, service, want.consumer),
        due=want.due,
        storage=food.storage,
        keeps_cold=food.tcs,
    )
