"""What there is to enter for a day, line by line, each with what the kitchen file says now.

The keys name the lines, in a form and in errors. They hold for one version of the file.
"""

import datetime as dt
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.entry.units import CountUnits
from planner.kitchen.base import Amount
from planner.kitchen.catalog import Catalog
from planner.kitchen.day import Delivery, DeliveryState, PreparedStock, RawStock, Service
from planner.kitchen.document import Kitchen
from planner.kitchen.hours import shift_of
from planner.kitchen.work import Cook


@dataclass(frozen=True, slots=True)
class MixEntry:
    """How often covers of a service order a dish; ``index`` is its place in the file's mix."""

    key: str
    dish: str
    name: str
    index: int
    per_cover: float


@dataclass(frozen=True, slots=True)
class ServiceEntry:
    """A service of the day; ``index`` is its place in the file.

    ``spread`` is the standard deviation of its covers / covers, the kitchen's where it has none of
    its own.
    ``dish_key`` and ``portions_key`` name the entry of one more dish, of ``others`` (id, name).
    """

    key: str
    id: str
    name: str
    index: int
    opens: str
    closes: str
    covers: int
    spread_key: str
    spread: float
    guaranteed: bool
    mix: tuple[MixEntry, ...]
    dish_key: str
    portions_key: str
    others: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class CookEntry:
    """A cook and the hours of the day, ``HH:MM``; empty where no shift holds on it.

    ``breaks`` are (start, minutes), ``on_line`` (start, end).
    """

    key: str
    start_key: str
    end_key: str
    id: str
    name: str
    index: int
    is_in: bool
    start: str
    end: str
    breaks: tuple[tuple[str, int], ...] = ()
    on_line: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class CountEntry:
    """One line of the count: food on hand, or food of which the file knows none.

    Attributes
    ----------
    part
        The file's list: ``prepared`` or ``raw_stock``; ``index`` its place there, or None.
    storage
        Where it is looked for.
    since
        The day it was made or received, where there is some.
    done
        Name of the step it is part-made after, or empty.
    units
        What it may be counted in, the likeliest first.
    """

    key: str
    unit_key: str
    made_key: str
    part: str
    index: int | None
    item: str
    name: str
    storage: str
    amount: Amount | None
    since: dt.date | None
    use_by: dt.date | None
    done: str
    units: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DayEntries:
    """Everything there is to enter for a day; ``coming`` is on its way and not to be counted."""

    kitchen: str
    date: dt.date
    as_of: dt.date
    services: tuple[ServiceEntry, ...]
    cooks: tuple[CookEntry, ...]
    counts: tuple[CountEntry, ...]
    coming: tuple[tuple[str, Delivery], ...]


def entries_of(kitchen: Kitchen, date: dt.date) -> DayEntries:
    """The lines of one day of a kitchen."""
    catalog = Catalog(kitchen)
    return DayEntries(
        kitchen=kitchen.name,
        date=date,
        as_of=kitchen.as_of,
        services=tuple(
            _service(catalog, index, service)
            for index, service in enumerate(kitchen.services)
            if service.date == date
        ),
        cooks=tuple(_cook(index, cook, date) for index, cook in enumerate(kitchen.cooks)),
        counts=tuple(_told_apart(_counts(catalog))),
        coming=tuple(
            (catalog.name(one.item), one)
            for one in sorted(kitchen.deliveries, key=lambda one: one.at)
            if one.date == date and one.state is DeliveryState.EXPECTED
        ),
    )


def _service(catalog: Catalog, index: int, service: Service) -> ServiceEntry:
    on_menu = {line.dish for line in service.mix}
    return ServiceEntry(
        key=f"covers.{service.id}",
        id=service.id,
        name=service.name,
        index=index,
        opens=service.opens,
        closes=service.closes,
        covers=service.covers,
        spread_key=f"spread.{service.id}",
        spread=(
            catalog.kitchen.rules.covers_spread
            if service.covers_spread is None
            else service.covers_spread
        ),
        guaranteed=service.guaranteed,
        mix=tuple(
            MixEntry(
                f"mix.{service.id}.{line.dish}",
                line.dish,
                catalog.dishes[line.dish].name,
                place,
                line.per_cover,
            )
            for place, line in enumerate(service.mix)
        ),
        dish_key=f"dish.{service.id}",
        portions_key=f"portions.{service.id}",
        others=tuple(
            (dish.id, dish.name) for dish in catalog.kitchen.dishes if dish.id not in on_menu
        ),
    )


def _cook(index: int, cook: Cook, date: dt.date) -> CookEntry:
    shift = shift_of(cook, date)
    # Whoever is out has hours all the same, for the day the sous chef calls them in.
    usual = shift or shift_of(cook.model_copy(update={"days_off": ()}), date)
    return CookEntry(
        key=f"in.{cook.id}",
        start_key=f"start.{cook.id}",
        end_key=f"end.{cook.id}",
        id=cook.id,
        name=cook.name,
        index=index,
        is_in=shift is not None,
        start=usual.start if usual else "",
        end=usual.end if usual else "",
        breaks=tuple((rest.start, rest.minutes) for rest in usual.breaks) if usual else (),
        on_line=tuple((block.start, block.end) for block in usual.on_line) if usual else (),
    )


def _counts(catalog: Catalog) -> Iterator[CountEntry]:
    kitchen = catalog.kitchen
    units = CountUnits(kitchen)
    for index, stock in enumerate(kitchen.prepared):
        yield _prepared(catalog, units, stock.item, index, stock)
    for component in kitchen.components:
        if all(stock.item != component.id for stock in kitchen.prepared):
            yield _prepared(catalog, units, component.id, None, None)
    for index, raw in enumerate(kitchen.raw_stock):
        yield _raw(catalog, units, raw.item, index, raw)
    for ingredient in kitchen.ingredients:
        known = any(raw.item == ingredient.id for raw in kitchen.raw_stock)
        if ingredient.counted and not known:
            yield _raw(catalog, units, ingredient.id, None, None)


def _prepared(
    catalog: Catalog, units: CountUnits, item: str, index: int | None, stock: PreparedStock | None
) -> CountEntry:
    component = catalog.components[item]
    amount = stock.amount if stock else None
    done = ""
    if stock and stock.after_step and stock.after_step < len(component.route):
        done = catalog.operations[component.route[stock.after_step - 1].operation].name
    known_as = f"{item}.{stock.made}" if stock else item
    return CountEntry(
        key=f"prepared.{known_as}",
        unit_key="",
        made_key="",
        part="prepared",
        index=index,
        item=item,
        name=component.name,
        storage=component.storage.value,
        amount=amount,
        since=stock.made if stock else None,
        use_by=stock.use_by if stock else None,
        done=done,
        units=units.of(item, amount.unit if amount else component.container),
    )


def _raw(
    catalog: Catalog, units: CountUnits, item: str, index: int | None, stock: RawStock | None
) -> CountEntry:
    ingredient = catalog.ingredients[item]
    amount = stock.amount if stock else None
    known_as = f"{item}.{stock.received}" if stock else item
    return CountEntry(
        key=f"raw.{known_as}",
        unit_key="",
        made_key="",
        part="raw_stock",
        index=index,
        item=item,
        name=ingredient.name,
        storage=ingredient.storage,
        amount=amount,
        since=stock.received if stock else None,
        use_by=stock.use_by if stock else None,
        done="",
        units=units.of(item, amount.unit if amount else ingredient.pull_unit),
    )


def _told_apart(found: Iterator[CountEntry]) -> Iterator[CountEntry]:
    """Two lines of one food and day get keys of their own."""
    seen: Counter[str] = Counter()
    for line in found:
        seen[line.key] += 1
        key = line.key if seen[line.key] == 1 else f"{line.key}.{seen[line.key]}"
        yield replace(line, key=key, unit_key=f"unit.{key}", made_key=f"made.{key}")
