"""Raw stock and deliveries against the day's draws: who gets what there is, and from when."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planner.kitchen.base import clock_minutes
from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.day import DeliveryState, RawStock
from planner.measures import AsPurchased
from planner.quantities.types import ComponentNeed, Supply
from planner.wording import sentence, short_date


@dataclass(frozen=True, slots=True)
class Draw:
    """What one making (or a dish, below 0) takes of an ingredient at ``due``, for a step."""

    ingredient: str
    consumer: str
    making: int
    step: int
    purchased: AsPurchased
    due: int
    missed: bool = False
    """An earlier day should have begun it: whoever can still be on time comes first."""
    steps_back: bool = False
    """It is for what lacks something else: whoever lacks nothing comes first."""
    span: tuple[float, float] = (0.0, 1.0)
    """Which part of the whole draw of its key it is, as fractions."""

    @property
    def key(self) -> "DrawKey":
        """What sets it apart from other draws."""
        return self.consumer, self.making, self.ingredient, self.step


DrawKey = tuple[str, int, str, int]
"""Consumer, making index, ingredient, and the step that it goes in at."""


@dataclass(frozen=True, slots=True)
class Allotment:
    """A part of a draw, from fraction ``begin`` to ``end`` of it, out of one supply."""

    begin: float
    end: float
    supply: Supply


def draws_of(catalog: Catalog, needs: Iterable[ComponentNeed]) -> list[Draw]:
    """Every draw on an ingredient that is counted, first wanted first."""
    found = [
        Draw(
            draw.item,
            need.component,
            index,
            draw.step,
            AsPurchased(draw.grams),
            draw.due,
            making.missed,
        )
        for need in needs
        for index, making in enumerate(need.makings)
        for draw in making.draws
        if draw.grams > 1e-9 and draw.item in catalog.ingredients
    ]
    return in_turn(found)


def in_turn(draws: Iterable[Draw]) -> list[Draw]:
    """Draws as they are served: first due first, then what is too late, then what steps back."""
    return sorted(draws, key=lambda d: (d.steps_back, d.missed, d.due, *d.key))


def supplies_of(
    catalog: Catalog, converter: Converter, ingredient: str, date: dt.date
) -> tuple[Supply, ...]:
    """Stock on hand that keeps through ``date``, then that day's expected deliveries by time."""
    kitchen = catalog.kitchen
    if not catalog.ingredients[ingredient].counted:
        return (Supply(float("inf"), 0, sentence("never counted")),)
    stock = sorted(
        (s for s in kitchen.raw_stock if s.item == ingredient),
        key=lambda s: (s.use_by or dt.date.max, s.received),
    )
    on_hand = [
        Supply(
            converter.grams(ingredient, s.amount),
            0,
            sentence("on hand since {date}", date=short_date(s.received)),
        )
        for s in stock
        if keeps_through(s, date)
    ]
    coming = [
        Supply(
            converter.grams(ingredient, d.amount),
            clock_minutes(d.at),
            sentence("delivery at {at} from {supplier}", at=d.at, supplier=d.supplier)
            if d.supplier
            else sentence("delivery at {at}", at=d.at),
        )
        for d in sorted(kitchen.deliveries, key=lambda d: d.at)
        if d.item == ingredient and d.date == date and d.state is DeliveryState.EXPECTED
    ]
    return (*on_hand, *coming)


def keeps_through(stock: RawStock, date: dt.date) -> bool:
    """Whether stock is there on ``date`` and not past its use-by."""
    return stock.received <= date and (stock.use_by is None or stock.use_by >= date)


def allot(
    draws: Iterable[Draw], supplies: dict[str, tuple[Supply, ...]]
) -> dict[DrawKey, list[Allotment]]:
    """Give each ingredient out, first wanted first served; what nobody has is not available."""
    left: dict[str, list[tuple[Supply, float]]] = {
        item: [(supply, supply.grams) for supply in found] for item, found in supplies.items()
    }
    found: dict[DrawKey, list[Allotment]] = defaultdict(list)
    for draw in draws:
        shelf = left[draw.ingredient]
        begin, end = draw.span
        whole = draw.purchased.grams / (end - begin) if end > begin else 1.0
        got = 0.0
        while got < draw.purchased.grams - 1e-6 and shelf:
            supply, rest = shelf[0]
            taken = min(rest, draw.purchased.grams - got)
            found[draw.key].append(
                Allotment(begin + got / whole, begin + (got + taken) / whole, supply)
            )
            got += taken
            if rest - taken <= 1e-6:
                shelf.pop(0)
            else:
                shelf[0] = (supply, rest - taken)
        if got < draw.purchased.grams - 1e-6:
            missing = Supply(
                draw.purchased.grams - got, 0, sentence("nobody has it"), available=False
            )
            found[draw.key].append(Allotment(begin + got / whole, end, missing))
    return found


def allotments_of(
    catalog: Catalog, converter: Converter, draws: Sequence[Draw], date: dt.date
) -> dict[DrawKey, list[Allotment]]:
    """Give out to ``draws`` what there is of each ingredient on ``date``."""
    items = {draw.ingredient for draw in draws}
    return allot(draws, {item: supplies_of(catalog, converter, item, date) for item in items})
