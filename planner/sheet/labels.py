"""What the label on a container says: component, made, use-by, allergens, initials."""

import datetime as dt
from collections.abc import Iterator

from planner.kitchen import safety
from planner.kitchen.base import Amount
from planner.kitchen.conversion import ConversionError
from planner.kitchen.foods import Component
from planner.kitchen.route import held_after
from planner.lots.types import Lot, Part
from planner.sheet.batch_types import ContainerLabel
from planner.sheet.pieces import whole
from planner.sheet.view import PlanView
from planner.wording import sentence


def is_last_part(part: Part, lot: Lot) -> bool:
    """Food is packed when it is taken out, or right after the work where nobody takes it out."""
    if any(task.part is Part.FINISH for task in lot.tasks):
        return part is Part.FINISH
    return part is Part.WORK


def needs_label(view: PlanView, lot: Lot) -> bool:
    """Whether the lot's output goes to a shelf: it is finished, or no lot of today goes on."""
    return lot.finishes or not view.downstream.get(lot.index)


def container_label(
    view: PlanView, component: Component, lots: tuple[Lot, ...], grams: float, initials: str
) -> ContainerLabel:
    """Label for ``grams`` of a component that ``lots`` give.

    The day of preparation is day 1, so ``use_by`` = made + shelf life - 1 day; where prepared stock
    is in it, the earliest date of that stock stands. Source: FDA Food Code 3-501.17 (day 1; a
    combined food keeps the earliest date); the local food code governs.
    """
    last = len(component.route) - 1
    part_made = all(lot.step < last for lot in lots)
    allergens = frozenset[str]().union(*(lot.allergens for lot in lots))
    return ContainerLabel(
        component=_part_made_name(view, component, lots[0]) if part_made else component.name,
        made=view.plan.date,
        use_by=use_by(view, component, lots),
        allergens=tuple(sorted(allergens)),
        initials=initials,
        container=component.container,
        containers=containers(view, component, grams),
        storage=held_after(component, max(lot.step for lot in lots)).value,
    )


def use_by(view: PlanView, component: Component, lots: tuple[Lot, ...]) -> dt.date:
    """Last day the food may be used, the day of preparation being day 1.

    What is begun for a later day keeps until then: its shelf life starts when it is finished.
    """
    own = safety.use_by(view.plan.date, component.shelf_life_days)
    if all(lot.step < len(component.route) - 1 for lot in lots):
        wanted = [
            view.catalog.services[service].date
            for lot in lots
            for service, _, _ in lot.dishes
            if service in view.catalog.services
        ]
        own = max([own, *wanted])
    return min([own, *_stock_dates(view, lots)])


def containers(view: PlanView, component: Component, grams: float) -> int | None:
    """Containers that hold ``grams``: grams / (volume x density), rounded up; None if unknown."""
    if component.container is None:
        return None
    try:
        one = view.converter.grams(component.id, Amount(1.0, component.container))
    except ConversionError:
        return None
    return max(1, whole(grams / one)) if one > 0 else None


def stock_use_by(view: PlanView, item: str) -> dt.date | None:
    """Earliest use-by of the prepared stock of ``item`` that the plan takes, or None."""
    dates = [
        dt.date.fromisoformat(use.use_by)
        for need in view.plan.quantities.needs
        for use in need.stock
        if use.item == item
    ]
    return min(dates, default=None)


def _stock_dates(view: PlanView, lots: tuple[Lot, ...]) -> Iterator[dt.date]:
    # Everything that flows into these lots today, however far upstream.
    open_lots = [lot.index for lot in lots]
    seen: set[int] = set()
    while open_lots:
        index = open_lots.pop()
        if index in seen:
            continue
        seen.add(index)
        lot = view.lots[index]
        open_lots.extend(upstream for upstream, _grams in lot.upstream)
        for item, _grams in lot.stock:
            date = stock_use_by(view, item)
            if date is not None:
                yield date


def _part_made_name(view: PlanView, component: Component, lot: Lot) -> str:
    return sentence(
        "{component} (part-made: after {name})",
        component=component.name,
        name=view.operation(lot).name,
    )
