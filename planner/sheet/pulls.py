"""Pull lists: the kitchen's, which governs, and each cook's share of it for one trip."""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from planner.clock import clock
from planner.kitchen.foods import Ingredient
from planner.kitchen.route import held_after
from planner.lots.types import Lot, Part
from planner.quantities.types import PullLine
from planner.sheet.labels import stock_use_by
from planner.sheet.pieces import whole
from planner.sheet.types import PullItem
from planner.sheet.view import PlanView, is_part_made
from planner.wording import short_date

_GRAM = "g"
_LEAST_GRAMS = 0.5
"""A smaller rest is a float's last digits."""


def kitchen_pulls(view: PlanView) -> tuple[PullItem, ...]:
    """The whole kitchen's pull list, as the quantities give it."""
    return _by_shelf(
        PullItem(
            ingredient=line.ingredient,
            name=line.name,
            grams=line.need.grams,
            units=line.units,
            unit=line.pull_unit,
            packs=line.packs,
            pack=line.pack_unit,
            left_over=line.left_over,
            storage=line.storage,
            note=_note(line),
        )
        for line in view.plan.quantities.pulls
    )


def cook_pulls(view: PlanView) -> Mapping[int, tuple[PullItem, ...]]:
    """Pull list by worker index, for one trip before the first batch.

    A worker pulls for the lots whose first task is theirs. Whole units are shared out by largest
    remainder, so that the cooks' units never add up to more than the kitchen's; where a cook's
    units hold less than the cook needs, the note says that the rest comes from the others'.
    """
    exact: dict[str, dict[int, float]] = defaultdict(lambda: defaultdict(float))
    stock: dict[int, dict[tuple[str, str, str], float]] = defaultdict(lambda: defaultdict(float))
    for lot in view.lots:
        first = next((task.task for task in lot.tasks if task.part is Part.WORK), None)
        assignment = None if first is None else view.assignments.get(first)
        if assignment is None:
            continue
        for item, grams in lot.pulls:
            exact[item][assignment.worker] += grams
        for item, grams in lot.stock:
            if view.trim_sources(lot, item):
                continue  # it comes from a board, not from a shelf
            key = (item, view.stock_name(lot, item), _shelf(view, lot, item))
            stock[assignment.worker][key] += grams
    items: dict[int, list[PullItem]] = defaultdict(list)
    for line in view.plan.quantities.pulls:
        for worker, share in _shared_out(line, exact.get(line.ingredient, {})).items():
            items[worker].append(share)
    for worker, taken in stock.items():
        items[worker].extend(
            _stock_item(view, item, name, storage, grams)
            for (item, name, storage), grams in taken.items()
        )
    return {worker: _by_shelf(mine) for worker, mine in items.items()}


def share_units(wanted: Mapping[int, float], most: int) -> dict[int, int]:
    """Whole units by worker for exact ``wanted`` units, by largest remainder.

    They add up to the sum of ``wanted`` rounded up, and to no more than ``most``.
    """
    total = min(whole(sum(wanted.values())), most)
    units = {worker: min(int(number + 1e-6), total) for worker, number in wanted.items()}
    by_remainder = sorted(wanted, key=lambda worker: (units[worker] - wanted[worker], worker))
    spare = total - sum(units.values())
    for worker in by_remainder[: max(0, spare)]:
        units[worker] += 1
    return units


def _shared_out(line: PullLine, exact: Mapping[int, float]) -> dict[int, PullItem]:
    if line.units <= 0 or not exact:
        return {}
    one = line.pulled.grams / line.units
    units = share_units({worker: grams / one for worker, grams in exact.items()}, whole(line.units))
    return {
        worker: PullItem(
            ingredient=line.ingredient,
            name=line.name,
            grams=grams,
            units=float(units[worker]),
            unit=line.pull_unit,
            packs=line.packs * units[worker] / line.units,
            pack=line.pack_unit,
            left_over=max(0.0, units[worker] * one - grams),
            storage=line.storage,
            note=_joined(_note(line), _short_of(units[worker] * one, grams, one)),
        )
        for worker, grams in exact.items()
    }


def _short_of(taken: float, needed: float, one: float) -> str:
    # A last piece is shared between cooks: the kitchen pulls no second one for it.
    return "rest from another cook's pull" if needed - taken > 0.01 * one else ""


def _shelf(view: PlanView, lot: Lot, item: str) -> str:
    """Where stock waits: finished, as its component is kept; part-made, as its last step says."""
    food = view.catalog.food(item)
    if isinstance(food, Ingredient):
        return food.storage
    if not is_part_made(lot, item):
        return food.storage.value
    return held_after(food, lot.step - 1).value


def _stock_item(view: PlanView, item: str, name: str, storage: str, grams: float) -> PullItem:
    date = stock_use_by(view, item)
    note = f"prepared stock, use by {short_date(date)}" if date else "prepared stock"
    return PullItem(item, name, grams, float(whole(grams)), _GRAM, 0.0, "", 0.0, storage, note)


def _note(line: PullLine) -> str:
    """When deliveries come that are counted on, and whether there is enough."""
    parts = []
    left = line.need.grams
    for supply in line.supplies:
        if left > _LEAST_GRAMS and supply.at and supply.available:
            parts.append(f"delivery {clock(supply.at)}")
        left -= supply.grams
    if line.short > _LEAST_GRAMS:
        parts.append("not enough: see alerts")
    return _joined(*dict.fromkeys(parts))


def _joined(*parts: str) -> str:
    return "; ".join(part for part in parts if part)


def _by_shelf(items: Iterable[PullItem]) -> tuple[PullItem, ...]:
    return tuple(sorted(items, key=lambda item: (item.storage, item.name, item.ingredient)))
