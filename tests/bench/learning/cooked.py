"""A planned day's food as it comes out: true yields on what was pulled. Grams."""

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from graphlib import TopologicalSorter

from planner.kitchen.catalog import Catalog
from planner.lots.types import Lot
from planner.quantities.types import PullLine
from planner.yields.keys import key_of
from tests.bench.learning.shelf import Held, Shelf
from tests.bench.learning.truth import Truth


@dataclass(frozen=True, slots=True)
class Cooked:
    """What a day's work came to, in grams.

    Attributes
    ----------
    grams_in, grams_out
        Of every lot, as it was, by its index.
    pulled
        Raw food by ingredient.
    planned, finished
        By component: what was to be finished, and what was.
    """

    grams_in: Mapping[int, float]
    grams_out: Mapping[int, float]
    pulled: Mapping[str, float]
    planned: Mapping[str, float]
    finished: Mapping[str, float]


def cook(
    catalog: Catalog,
    truth: Truth,
    day: int,
    lots: Sequence[Lot],
    pulls: Sequence[PullLine],
    shelf: Shelf,
    today: dt.date,
) -> Cooked:
    """Work all lots and put what is finished on the shelf.

    What is pulled is worked on, whole pieces and all. Where less comes out than planned, everybody
    who takes from it gets less in proportion: nobody goes back to the walk-in.
    """
    bought = {
        line.ingredient: line for line in pulls if catalog.ingredients[line.ingredient].counted
    }
    more = {
        item: line.pulled.grams / line.need.grams
        for item, line in bought.items()
        if line.need.grams
    }
    turn: dict[tuple[str, int], int] = defaultdict(int)
    went_in: dict[int, float] = {}
    came_out: dict[int, float] = {}
    raw: dict[int, float] = {}
    given: dict[int, float] = defaultdict(float)
    for lot in lots:
        for upstream, grams in lot.upstream:
            given[upstream] += grams
    for index in _in_order(lots):
        lot = lots[index]
        which = turn[lot.component, lot.step]
        turn[lot.component, lot.step] += 1
        into = content = 0.0
        for item, grams in lot.pulls:
            into += grams * more.get(item, 1.0)
            content += grams * more.get(item, 0.0)
        for upstream, grams in lot.upstream:
            part = grams / lots[upstream].grams_out
            into += part * came_out[upstream]
            content += part * raw[upstream]
        for item, grams in lot.stock:
            taken, of_it = shelf.take(item, grams)
            into, content = into + taken, content + of_it
        component = catalog.components[lot.component]
        key = key_of(catalog, component, lot.step)
        yields = (
            lot.grams_out / lot.grams_in
            if key is None
            else truth.load_yield(day, key, into, f"{lot.component} {which}")
        )
        went_in[index], came_out[index], raw[index] = into, into * yields, content
    planned: dict[str, float] = defaultdict(float)
    finished: dict[str, float] = defaultdict(float)
    for lot in lots:
        left = 1 - given[lot.index] / lot.grams_out
        if not lot.finishes or left <= 0:
            continue
        for share in lot.shares:
            part = left * share.grams / sum(one.grams for one in lot.shares)
            grams = came_out[lot.index] * part
            component = catalog.components[share.component]
            planned[share.component] += lot.grams_out * part
            finished[share.component] += grams
            keeps = dt.timedelta(component.shelf_life_days - 1)
            shelf.put(
                Held(
                    share.component,
                    grams,
                    today,
                    today + keeps,
                    raw[lot.index] / came_out[lot.index],
                )
            )
    pulled = {item: line.pulled.grams for item, line in bought.items()}
    return Cooked(went_in, came_out, pulled, dict(planned), dict(finished))


def _in_order(lots: Sequence[Lot]) -> list[int]:
    sorter: TopologicalSorter[int] = TopologicalSorter()
    for lot in lots:
        sorter.add(lot.index, *(index for index, _ in lot.upstream))
    return list(sorter.static_order())


def needed(
    catalog: Catalog,
    truth: Truth,
    day: int,
    wanted: Mapping[str, float],
    there: Mapping[str, float],
) -> dict[str, float]:
    """Raw food that would just have been enough for what guests ``wanted`` of each component.

    What was ``there`` in the morning is off; yields are the day's true ones.
    """
    found: dict[str, float] = defaultdict(float)
    stock = dict(there)

    def add(item: str, grams: float) -> None:
        if item in catalog.ingredients:
            if catalog.ingredients[item].counted:
                found[item] += grams
            return
        from_stock = min(stock.get(item, 0.0), grams)
        stock[item] = stock.get(item, 0.0) - from_stock
        grams -= from_stock
        component = catalog.components[item]
        if component.makes is not None:
            for taken in component.inputs:
                amount = 0.0 if taken.amount is None else taken.amount.number
                add(taken.item, grams * amount / component.makes.number)
            return
        for index in reversed(range(len(component.route))):
            key = key_of(catalog, component, index)
            grams /= 1.0 if key is None else truth.usual_yield(day, key)
        add(component.inputs[0].item, grams)

    for item, grams in wanted.items():
        add(item, grams)
    return dict(found)
