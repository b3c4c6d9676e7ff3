"""Food that a dish takes as it is: no batch is made of it, so no cook's list has it."""

from collections import defaultdict
from collections.abc import Iterator

from planner.kitchen.foods import Ingredient
from planner.quantities.types import ComponentNeed, Reason, Want
from planner.quantities.wants import dish_wants
from planner.sheet.dishes import dish_name
from planner.sheet.first_use import keeps_cold
from planner.sheet.labels import stock_use_by
from planner.sheet.pieces import pieces
from planner.sheet.served import served_parts
from planner.sheet.types import StraightItem
from planner.sheet.view import PlanView

_LEAST_GRAMS = 0.5
"""A smaller rest is a float's last digits."""


def straight_to_the_line(
    view: PlanView,
) -> tuple[tuple[StraightItem, ...], tuple[StraightItem, ...]]:
    """What the planned day's dishes take from a shelf, with nothing prepared in between.

    That is food as purchased, and prepared stock that is finished. First what is for portions that
    are served, then what stays on the shelf as they are not; each ordered by when it is due on the
    line, then by name.
    """
    parts = served_parts(view)
    served, unserved = [], []
    for item, want, grams in (*_as_purchased(view), *_prepared(view)):
        share = want.shares[0]
        part = min(grams, want.grams * parts.get((share.service, share.dish), 1.0))
        if part >= _LEAST_GRAMS:
            served.append(_item(view, item, want, part))
        if grams - part >= _LEAST_GRAMS:
            unserved.append(_item(view, item, want, grams - part))
    return _in_order(served), _in_order(unserved)


def _in_order(found: list[StraightItem]) -> tuple[StraightItem, ...]:
    return tuple(sorted(found, key=lambda one: (one.due, one.name, one.dish)))


def _as_purchased(view: PlanView) -> Iterator[tuple[str, Want, float]]:
    wants = dish_wants(view.catalog, view.converter, view.plan.demands)
    for item, wanted in wants.items():
        if item in view.catalog.ingredients:
            for want in wanted:
                if want.day == 0:
                    yield item, want, want.grams


def _prepared(view: PlanView) -> Iterator[tuple[str, Want, float]]:
    """Finished stock that no lot takes, for what is due first, as stock is netted."""
    taken: dict[str, float] = defaultdict(float)
    for lot in view.lots:
        for item, grams in lot.stock:
            taken[item] += grams
    for need in view.plan.quantities.needs:
        left = _finished_stock(need) - taken[need.component]
        for want in sorted(need.wants, key=lambda want: want.due):
            grams = min(left, want.grams)
            if want.reason is not Reason.DISH or want.day != 0 or grams < _LEAST_GRAMS:
                continue
            left -= grams
            yield need.component, want, grams


def _finished_stock(need: ComponentNeed) -> float:
    return sum(use.grams for use in need.stock if use.after_step is None)


def _item(view: PlanView, item: str, want: Want, grams: float) -> StraightItem:
    food = view.catalog.food(item)
    raw = isinstance(food, Ingredient)
    storage = food.storage if isinstance(food, Ingredient) else food.storage.value
    number, piece = pieces(view, item, grams)
    return StraightItem(
        item=item,
        name=food.name,
        grams=grams,
        pieces=number,
        piece=piece,
        dish=dish_name(view, want.shares[0].service, want.consumer),
        due=want.due,
        storage=storage,
        keeps_cold=keeps_cold(view, item, storage),
        prepared=not raw,
        use_by=None if raw else stock_use_by(view, item),
    )
