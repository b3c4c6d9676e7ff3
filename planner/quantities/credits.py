"""By-products that stand in for raw stock: what there is of them, and when."""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.foods import Component, Input
from planner.kitchen.own_yields import fraction_at_most
from planner.kitchen.route import food_yield, usual_fraction
from planner.quantities.effort import Efforts
from planner.quantities.order import Precedence, consumers_first, made_of
from planner.quantities.supply import Allotment, DrawKey, keeps_through
from planner.quantities.timing import Calendar
from planner.quantities.types import ComponentNeed, Credit, Making, StepNeed
from planner.wording import sentence

ON_HAND = sentence("on hand")
_SLACK = 60
"""Minutes between the earliest a trim can be there and when it is counted on."""

Allotted = Mapping[DrawKey, Sequence[Allotment]]


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

    def __init__(self, heaps: Iterable[_Heap] = (), precedence: Precedence | None = None) -> None:
        self._heaps = sorted(heaps, key=lambda heap: (heap.ready, heap.component, heap.step))
        self._precedence = precedence

    def take(self, consumer: str, wanted: Input, grams: float, by: int) -> tuple[Credit, ...]:
        """Credits for up to ``grams`` of an input that ``consumer`` needs at ``by`` (minutes).

        Trim of what is itself made with the consumer's help is not for it: each would have to be
        there before the other.
        """
        found: list[Credit] = []
        for heap in self._heaps:
            if grams <= 1e-6:
                break
            if heap.by_product not in wanted.may_use or heap.ready > by or heap.left <= 1e-6:
                continue
            if heap.component != ON_HAND and not self._comes_first(heap.component, consumer):
                continue
            taken = min(grams, heap.left)
            heap.left -= taken
            grams -= taken
            found.append(
                Credit(heap.by_product, heap.component, heap.step, taken, wanted.after_step)
            )
        return tuple(found)

    def _comes_first(self, source: str, consumer: str) -> bool:
        return self._precedence is None or self._precedence.put(source, consumer)


def trim_pool(
    catalog: Catalog,
    converter: Converter,
    efforts: Efforts,
    calendar: Calendar,
    date: dt.date,
    needs: Iterable[ComponentNeed],
    allotted: Allotted,
) -> TrimPool:
    """By-products on hand, and those today's work will leave.

    Components whose own quantity falls when a credit is given (they go into the input that the
    by-product replaces) are left out, so that no credit eats what it is made of. Trim of a step
    counts as there an hour after its bare minutes, with all before it on the route, have passed
    since its food is there, and not before food that must be fresh may be cut: raw stock is the
    better choice for a pot that would have to wait. Food that nobody has leaves no trim.
    """
    heaps = [
        _Heap(stock.item, ON_HAND, -1, -1_000_000, converter.grams(stock.item, stock.amount))
        for stock in catalog.kitchen.raw_stock
        if catalog.ingredients[stock.item].by_product and keeps_through(stock, date)
    ]
    hours = calendar.hours.get(0)
    if hours is not None:
        circular = _replaced(catalog)
        by_component = {need.component: need for need in needs}
        finished: dict[str, int] = {}
        for name in reversed(consumers_first(catalog)):
            need = by_component.get(name)
            if need is None or not need.steps:
                continue
            component = catalog.components[name]
            begin = max(
                hours.opens + catalog.kitchen.rules.station_set_up_minutes,
                *(finished.get(taken.item, 0) for taken in component.inputs),
            )
            supplied = [_supplied(m, i, name, allotted) for i, m in enumerate(need.makings)]
            minutes = 0
            for step in need.steps:
                minutes += efforts.of(component, step.index).quickest(step.grams_in)
                if name not in circular:
                    heaps += _heaps(catalog, need, step, supplied, (begin, minutes))
            finished[name] = max(begin, *(come for _, come in supplied)) + minutes
    return TrimPool(heaps, Precedence(catalog))


def _heaps(
    catalog: Catalog,
    need: ComponentNeed,
    step: StepNeed,
    supplied: Sequence[tuple[float, int]],
    pace: tuple[int, int],
) -> Iterator[_Heap]:
    """Trim of one step, making by making.

    ``pace`` is when work can begin and the bare minutes from there to the end of the step.
    """
    component = catalog.components[need.component]
    entry = food_yield(catalog, component, step.index)
    if entry is None or step.grams_in <= step.grams_out:
        return
    begin, minutes = pace
    fresh = _fresh_from(component, step.index, need)
    whole = sum(m.grams for m in need.makings if m.first_step <= step.index < m.last_step)
    for making, (there, come) in zip(need.makings, supplied, strict=True):
        if not making.first_step <= step.index < making.last_step or making.missed:
            continue  # what should have been begun before may not be there in time
        ready = max(max(begin, come) + minutes + _SLACK, fresh)
        loss = _surely_lost(catalog, component, step) * making.grams / whole * there
        for trim in entry.trim:
            yield _Heap(trim.item, need.component, step.index, ready, loss * trim.in_use)


def _surely_lost(catalog: Catalog, component: Component, step: StepNeed) -> float:
    """Grams taken off at a step that others may count on, by the kitchen's level of caution."""
    usual = usual_fraction(catalog, component, step.index)
    if usual is None or usual.own is None:
        return step.grams_in - step.grams_out
    richest = fraction_at_most(usual.own, catalog.kitchen.rules.pull_level)
    return max(0.0, min(step.grams_in, step.grams_out / richest) - step.grams_out)


def _supplied(making: Making, index: int, component: str, allotted: Allotted) -> tuple[float, int]:
    """What fraction of a making has its raw food, and when the last of that comes (minutes)."""
    there, at = 1.0, 0
    for draw in making.draws:
        for part in allotted.get((component, index, draw.item, draw.step), ()):
            if part.supply.available:
                at = max(at, part.supply.at)
            else:
                there = min(there, part.begin)
    return there, at


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
