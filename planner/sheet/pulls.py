"""Pull lists: the kitchen's, which governs, and each cook's share of it."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from planner.clock import clock
from planner.kitchen.foods import Ingredient
from planner.kitchen.route import held_after
from planner.lots.types import Lot
from planner.quantities.types import PullLine
from planner.sheet.first_use import Uses, is_raw_animal, keeps_cold, lot_uses
from planner.sheet.labels import stock_use_by
from planner.sheet.pieces import whole
from planner.sheet.runs import Run
from planner.sheet.taken import Taken, puller
from planner.sheet.types import PullItem, StraightItem
from planner.sheet.view import PlanView, is_part_made
from planner.wording import sentence, short_date

ALERTS = sentence("Know before you start")
"""Heading of the alerts on the kitchen's page, which notes send people to."""

NOT_ENOUGH = sentence("not enough for all: see '{alerts}' on the kitchen's page", alerts=ALERTS)

_GRAM = "g"
_LEAST_GRAMS = 0.5
"""A smaller rest is a float's last digits."""


@dataclass(frozen=True, slots=True)
class _Stock:
    """Prepared stock as one line of a list."""

    item: str
    name: str
    storage: str
    raw_animal: bool


def kitchen_pulls(
    view: PlanView,
    taken_of: Iterable[Taken],
    run_of_task: Mapping[int, Run],
    straight: Iterable[StraightItem],
) -> tuple[PullItem, ...]:
    """The whole kitchen's pull list, for what is made and served.

    ``taken_of`` are its lines; ``straight`` is what dishes take of it as it is.
    """
    taken: dict[str, list[tuple[Lot, float]]] = defaultdict(list)
    for lot in view.lots:
        for item, grams in lot.pulls if puller(view, lot) is not None else ():
            taken[item].append((lot, grams))
    to_line: dict[str, list[tuple[int, float]]] = defaultdict(list)
    for one in straight:
        if one.keeps_cold and not one.prepared:
            to_line[one.item].append((one.due, one.grams))

    def uses(line: PullLine) -> Uses:
        item = line.ingredient
        by_lots = _uses(view, run_of_task, item, line.storage, taken[item])
        return tuple(sorted((*by_lots, *to_line[item])))

    return _by_shelf(
        PullItem(
            ingredient=one.line.ingredient,
            name=one.line.name,
            grams=one.grams,
            units=float(one.units),
            unit=one.line.pull_unit,
            packs=one.packs,
            pack=one.line.pack_unit,
            left_over=one.left_over,
            storage=one.line.storage,
            note=_note(one),
            uses=uses(one.line),
            raw_animal=is_raw_animal(view, one.line.ingredient),
        )
        for one in taken_of
    )


def cook_pulls(
    view: PlanView, taken_of: Iterable[Taken], run_of_task: Mapping[int, Run]
) -> Mapping[int, tuple[PullItem, ...]]:
    """Pull list by worker index; ``taken_of`` are the whole kitchen's lines.

    What keeps at room temperature is for one trip before the first batch; what must stay cold comes
    with the times of the batches that take it. A worker pulls for the lots whose first task is
    theirs. Whole units are shared out by largest remainder, so that the cooks' units never add up
    to more than the kitchen's; where a cook's units hold less than the cook needs, the note says
    that the rest comes from the others'.
    """
    taken: dict[int, dict[str, list[tuple[Lot, float]]]] = defaultdict(lambda: defaultdict(list))
    stock: dict[int, dict[_Stock, list[tuple[Lot, float]]]] = defaultdict(lambda: defaultdict(list))
    for lot in view.lots:
        worker = puller(view, lot)
        if worker is None:
            continue
        for item, grams in lot.pulls:
            taken[worker][item].append((lot, grams))
        for item, grams in lot.stock:
            if view.trim_sources(lot, item):
                continue  # it comes from a board, not from a shelf
            raw = is_raw_animal(view, item, lot)
            key = _Stock(item, view.stock_name(lot, item), _shelf(view, lot, item), raw)
            stock[worker][key].append((lot, grams))
    items: dict[int, list[PullItem]] = defaultdict(list)
    for one in taken_of:
        line = one.line
        exact = {
            worker: sum(grams for _lot, grams in mine[line.ingredient])
            for worker, mine in taken.items()
            if line.ingredient in mine
        }
        raw = is_raw_animal(view, line.ingredient)
        for worker, share in _shared_out(one, exact).items():
            uses = _uses(
                view, run_of_task, line.ingredient, line.storage, taken[worker][line.ingredient]
            )
            items[worker].append(replace(share, uses=uses, raw_animal=raw))
    for worker, kept in stock.items():
        for key, lots in kept.items():
            grams = sum(share for _lot, share in lots)
            uses = _uses(view, run_of_task, key.item, key.storage, lots)
            items[worker].append(_stock_item(view, key, grams, uses))
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


def _uses(
    view: PlanView,
    run_of_task: Mapping[int, Run],
    item: str,
    storage: str,
    taken: Iterable[tuple[Lot, float]],
) -> Uses:
    return lot_uses(view, run_of_task, taken) if keeps_cold(view, item, storage) else ()


def _shared_out(taken: Taken, exact: Mapping[int, float]) -> dict[int, PullItem]:
    line, one = taken.line, taken.one
    wanted = {worker: grams / one for worker, grams in exact.items()}
    units = share_units(wanted, taken.units)
    return {
        worker: PullItem(
            ingredient=line.ingredient,
            name=line.name,
            grams=grams,
            units=float(units[worker]),
            unit=line.pull_unit,
            packs=line.packs * units[worker] / line.units,
            pack=line.pack_unit,
            left_over=max(0.0, min(units[worker] * one, taken.have) - grams),
            storage=line.storage,
            note=_joined(_note(taken), _short_of(units[worker] * one, grams, one)),
        )
        for worker, grams in exact.items()
    }


def _short_of(taken: float, needed: float, one: float) -> str:
    # A last piece is shared between cooks: the kitchen pulls no second one for it.
    return sentence("rest from another cook's pull") if needed - taken > 0.01 * one else ""


def _shelf(view: PlanView, lot: Lot, item: str) -> str:
    """Where stock waits: finished, as its component is kept; part-made, as its last step says."""
    food = view.catalog.food(item)
    if isinstance(food, Ingredient):
        return food.storage
    if not is_part_made(lot, item):
        return food.storage.value
    return held_after(food, lot.step - 1).value


def _stock_item(view: PlanView, stock: _Stock, grams: float, uses: Uses) -> PullItem:
    date = stock_use_by(view, stock.item)
    note = (
        sentence("prepared stock, use by {date}", date=short_date(date))
        if date
        else sentence("prepared stock")
    )
    return PullItem(
        ingredient=stock.item,
        name=stock.name,
        grams=grams,
        units=float(whole(grams)),
        unit=_GRAM,
        packs=0.0,
        pack="",
        left_over=0.0,
        storage=stock.storage,
        note=note,
        uses=uses,
        raw_animal=stock.raw_animal,
    )


def _note(taken: Taken) -> str:
    """When deliveries come that are counted on, and whether there is enough for all."""
    parts = []
    left = taken.grams
    for supply in taken.line.supplies:
        if left > _LEAST_GRAMS and supply.at and supply.available:
            parts.append(sentence("delivery {at}", at=clock(supply.at)))
        left -= supply.grams
    if taken.line.short > _LEAST_GRAMS:
        parts.append(NOT_ENOUGH)
    return _joined(*dict.fromkeys(parts))


def _joined(*parts: str) -> str:
    return "; ".join(part for part in parts if part)


def _by_shelf(items: Iterable[PullItem]) -> tuple[PullItem, ...]:
    """By place, raw animal food apart; what is fetched later after the rest, in order of time."""
    return tuple(
        sorted(
            items,
            key=lambda item: (
                item.storage,
                item.raw_animal,
                item.uses[0][0] if item.uses else 0,
                item.name,
                item.ingredient,
            ),
        )
    )
