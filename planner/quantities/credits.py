"""By-products that stand in for raw stock: what there is of them, and when."""

from collections.abc import Iterable
from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.foods import Component, Input
from planner.kitchen.route import food_yield
from planner.quantities.effort import Efforts
from planner.quantities.order import made_of
from planner.quantities.timing import Calendar
from planner.quantities.types import ComponentNeed, Credit

ON_HAND = "on hand"
_SLACK = 60
"""Minutes between the earliest a trim can be there and when it is counted on."""


@dataclass(slots=True)
class _Heap:
    """Grams of a by-product from one place, there at ``ready`` (minutes)."""

    by_product: str
    component: str
    step: int
    ready: int
    left: float


class TrimPool:
    """By-products of the day, each gram given out once, in time or not at all."""

    def __init__(self, heaps: Iterable[_Heap] = ()) -> None:
        self._heaps = sorted(heaps, key=lambda heap: (heap.ready, heap.component, heap.step))

    def take(self, wanted: Input, grams: float, by: int) -> tuple[Credit, ...]:
        """Credits for up to ``grams`` of an input that is needed at ``by`` (minutes)."""
        found: list[Credit] = []
        for heap in self._heaps:
            if grams <= 1e-6:
                break
            if heap.by_product in wanted.may_use and heap.ready <= by and heap.left > 1e-6:
                taken = min(grams, heap.left)
                heap.left -= taken
                grams -= taken
                found.append(Credit(heap.by_product, heap.component, heap.step, taken))
        return tuple(found)


def trim_pool(
    catalog: Catalog,
    converter: Converter,
    efforts: Efforts,
    calendar: Calendar,
    needs: Iterable[ComponentNeed],
) -> TrimPool:
    """By-products on hand, and those today's work will leave.

    Components whose own quantity falls when a credit is given (they go into the input that the
    by-product replaces) are left out, so that no credit eats what it is made of. Trim of a step
    counts as there an hour after its bare minutes, with all before it on the route, have passed,
    and not before food that must be fresh may be cut: raw stock is the better choice for a pot that
    would have to wait.
    """
    heaps = [
        _Heap(stock.item, ON_HAND, -1, -1_000_000, converter.grams(stock.item, stock.amount))
        for stock in catalog.kitchen.raw_stock
        if catalog.ingredients[stock.item].by_product
    ]
    circular = _replaced(catalog)
    hours = calendar.hours.get(0)
    if hours is None:
        return TrimPool(heaps)
    opens = hours.opens + catalog.kitchen.rules.station_set_up_minutes
    for need in needs:
        if need.component in circular:
            continue
        component = catalog.components[need.component]
        ready = opens
        for step in need.steps:
            ready += efforts.of(component, step.index).quickest(step.grams_in)
            entry = food_yield(catalog, component, step.index)
            if entry is None or component.makes is not None or step.grams_in <= step.grams_out:
                continue
            loss = step.grams_in - step.grams_out
            there = max(ready + _SLACK, _fresh_from(component, step.index, need))
            heaps += [
                _Heap(trim.item, need.component, step.index, there, loss * trim.share)
                for trim in entry.trim
            ]
    return TrimPool(heaps)


def _fresh_from(component: Component, step: int, need: ComponentNeed) -> int:
    """Earliest end of a last step that must be done late; 0 for any other."""
    if component.fresh_hours is None or step < len(component.route) - 1:
        return 0
    doors = max((making.want.doors for making in need.makings), default=0)
    return doors - round(component.fresh_hours * 60)


def _replaced(catalog: Catalog) -> frozenset[str]:
    """Components that go into an input for which a by-product may stand in."""
    found: set[str] = set()
    for component in catalog.kitchen.components:
        for taken in component.inputs:
            if taken.may_use and taken.item in catalog.components:
                found |= made_of(catalog, taken.item)
    return frozenset(found)
