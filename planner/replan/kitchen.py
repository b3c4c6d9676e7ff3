"""The kitchen file as it would be counted now: what is left on the shelves, and what is new."""

import datetime as dt
from collections import defaultdict

from planner.clock import clock
from planner.kitchen.base import Amount, clock_minutes
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.day import Delivery, DeliveryState, PreparedStock, RawStock
from planner.kitchen.document import Kitchen
from planner.kitchen.hours import DAY
from planner.quantities.supply import keeps_through
from planner.replan.events import CoversChanged, DeliveryLate, Event
from planner.replan.stock import Left, Source

_LEAST_GRAMS = 0.5
_LAST_CLOCK = 24 * 60 - 1


def counted_now(
    kitchen: Kitchen, date: dt.date, now: int, left: Left, events: tuple[Event, ...]
) -> Kitchen:
    """``kitchen`` with its stock as ``left`` has it, deliveries and covers as ``events`` say.

    Deliveries that were expected before ``now`` have come, unless an event says otherwise.
    """
    catalog = Catalog(kitchen)
    converter = Converter(kitchen)
    late = {event.item: event.at for event in events if isinstance(event, DeliveryLate)}
    covers = {event.service: event.covers for event in events if isinstance(event, CoversChanged)}
    arrived, coming = _deliveries(kitchen, date, now, late)
    raw = [*kitchen.raw_stock, *arrived, *_trim(left, date)]
    return kitchen.model_copy(
        update={
            "services": tuple(
                service.model_copy(update={"covers": covers[service.id]})
                if service.id in covers
                else service
                for service in kitchen.services
            ),
            "prepared": (
                *_prepared(kitchen, converter, date, left),
                *(_made(kitchen, catalog, date, source) for source in left.sources),
            ),
            "raw_stock": _less(converter, raw, date, left.pulled),
            "deliveries": coming,
        }
    )


def on_hand(
    kitchen: Kitchen, date: dt.date, now: int, events: tuple[Event, ...]
) -> dict[str, float]:
    """Grams there have been until now of every ingredient whose delivery was late."""
    converter = Converter(kitchen)
    late = {event.item: event.at for event in events if isinstance(event, DeliveryLate)}
    arrived, _ = _deliveries(kitchen, date, now, late)
    there = dict.fromkeys(late, 0.0)
    for entry in (*kitchen.raw_stock, *arrived):
        if entry.item in there:
            there[entry.item] += converter.grams(entry.item, entry.amount)
    return there


def _deliveries(
    kitchen: Kitchen, date: dt.date, now: int, late: dict[str, int | None]
) -> tuple[list[RawStock], tuple[Delivery, ...]]:
    """What has come, as stock, and what is still to come."""
    arrived: list[RawStock] = []
    coming: list[Delivery] = []
    for entry in kitchen.deliveries:
        today = entry.date == date and entry.state is DeliveryState.EXPECTED
        at = late.get(entry.item, clock_minutes(entry.at)) if today else None
        if today and at is None:
            coming.append(entry.model_copy(update={"state": DeliveryState.MISSING}))
        elif at is not None and at > now:
            coming.append(entry.model_copy(update={"at": _clock(at)}))
        elif today:
            arrived.append(RawStock(item=entry.item, amount=entry.amount, received=date))
        else:
            coming.append(entry)
    return arrived, tuple(coming)


def _clock(minutes: int) -> str:
    return clock(min(max(0, minutes), _LAST_CLOCK))


def _trim(left: Left, date: dt.date) -> list[RawStock]:
    return [
        RawStock(item=item, amount=_grams(grams), received=date)
        for item, grams in sorted(left.trim.items())
    ]


def _prepared(
    kitchen: Kitchen, converter: Converter, date: dt.date, left: Left
) -> list[PreparedStock]:
    """Prepared stock less what was used of it, first to go off first.

    What was used for a day had a use-by on that day or later: what is past it is still there.
    """
    order = sorted(kitchen.prepared, key=lambda one: one.use_by)
    whole = [converter.grams(stock.item, stock.amount) for stock in order]
    there = list(whole)
    # What was for the last day had the least choice.
    for (item, after, day), used in sorted(left.prepared.items(), key=lambda one: -one[0][2]):
        missing = used
        for index, stock in enumerate(order):
            keeps = stock.use_by >= date + dt.timedelta(days=day)
            if (stock.item, stock.after_step) == (item, after) and keeps:
                taken = min(missing, there[index])
                there[index] -= taken
                missing -= taken
    return [
        stock if grams == before else stock.model_copy(update={"amount": _grams(grams)})
        for stock, before, grams in zip(order, whole, there, strict=True)
        if grams > _LEAST_GRAMS or grams == before
    ]


def _made(kitchen: Kitchen, catalog: Catalog, date: dt.date, source: Source) -> PreparedStock:
    """What a begun lot leaves; part-made food keeps for as long as the kitchen looks ahead."""
    item, after_step = source.key
    # It was made for the day it is wanted on.
    days = max(catalog.components[item].shelf_life_days - 1, source.begun.lot.until // DAY)
    if after_step is not None:
        days = max(days, kitchen.rules.lookahead_days)
    return PreparedStock(
        item=item,
        amount=_grams(source.grams),
        made=date,
        use_by=date + dt.timedelta(days=days),
        after_step=after_step,
    )


def _less(
    converter: Converter, stock: list[RawStock], date: dt.date, pulled: dict[str, float]
) -> tuple[RawStock, ...]:
    """Raw stock less what was pulled, first to go off first, but for what is past its use-by."""
    used: dict[str, float] = defaultdict(float, pulled)
    found: list[RawStock] = []
    for entry in sorted(stock, key=lambda one: (one.use_by or dt.date.max, one.received)):
        grams = converter.grams(entry.item, entry.amount)
        taken = min(grams, used[entry.item]) if keeps_through(entry, date) else 0.0
        used[entry.item] -= taken
        if taken <= _LEAST_GRAMS:
            found.append(entry)
        elif grams - taken > _LEAST_GRAMS:
            found.append(entry.model_copy(update={"amount": _grams(grams - taken)}))
    return tuple(found)


def _grams(grams: float) -> Amount:
    return Amount(grams, "g")
