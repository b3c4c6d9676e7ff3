"""The pull list: AP to take, in whole units of what is stored, and what nobody has."""

import math
from collections import defaultdict
from collections.abc import Sequence

from planner.clock import clock
from planner.kitchen.base import Amount
from planner.kitchen.day import DeliveryState
from planner.kitchen.foods import Ingredient
from planner.measures import AsPurchased
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.supply import Allotment, Draw, DrawKey, allot, supplies_of
from planner.quantities.types import Alert, PullLine, Supply
from planner.units import standard_unit
from planner.wording import grams_text, sentence

_GRAM = "g"


def pull_lines(
    kit: Kitchenry, draws: Sequence[Draw]
) -> tuple[tuple[PullLine, ...], tuple[Alert, ...]]:
    """One line per ingredient, and an alert for what comes late or not at all."""
    by_item: dict[str, list[Draw]] = defaultdict(list)
    for draw in draws:
        by_item[draw.ingredient].append(draw)
    supplies = {item: supplies_of(kit.catalog, kit.converter, item, kit.date) for item in by_item}
    allotted = allot(draws, supplies)
    lines = tuple(
        _line(kit, kit.catalog.ingredients[item], by_item[item], supplies[item])
        for item in sorted(by_item)
    )
    return lines, tuple(_alerts(kit, by_item, allotted))


def _line(
    kit: Kitchenry, ingredient: Ingredient, draws: Sequence[Draw], supplies: tuple[Supply, ...]
) -> PullLine:
    purchased = sum((draw.purchased for draw in draws), AsPurchased(0.0))
    need = purchased.grams
    unit, unit_grams = _pull_unit(kit, ingredient)
    units = float(math.ceil(need / unit_grams - 1e-6))
    pulled = units * unit_grams
    pack = kit.converter.grams_per(ingredient.id, ingredient.purchase.unit)
    wanted: dict[str, float] = defaultdict(float)
    for draw in draws:
        wanted[draw.consumer] += draw.purchased.grams
    have = sum(supply.grams for supply in supplies)
    return PullLine(
        ingredient=ingredient.id,
        name=ingredient.name,
        need=purchased,
        pulled=AsPurchased(pulled),
        units=units,
        pull_unit=unit,
        packs=pulled / pack,
        pack_unit=ingredient.purchase.unit,
        left_over=pulled - need,
        cost=ingredient.purchase.cost * pulled / pack,
        storage=ingredient.storage,
        on_hand=sum(s.grams for s in supplies if s.at == 0),
        supplies=supplies,
        short=max(0.0, need - have),
        wanted_by=tuple(sorted(wanted.items())),
        trace=sentence(
            "{amount} AP -> {n:g} x {unit} of {amount_2} = {pulled}",
            amount=f"{need:.0f} g",
            n=units,
            unit=unit,
            amount_2=f"{unit_grams:.0f} g",
            pulled=f"{pulled:.0f} g",
        ),
    )


def _pull_unit(kit: Kitchenry, ingredient: Ingredient) -> tuple[str, float]:
    """What is taken in whole numbers, and its grams: by weight to the gram where nothing is."""
    if ingredient.pull_unit is not None:
        return ingredient.pull_unit, kit.converter.grams_per(ingredient.id, ingredient.pull_unit)
    if ingredient.weights:
        piece = ingredient.weights[0].unit
        return piece, kit.converter.piece_grams(ingredient.id, piece)
    if standard_unit(ingredient.purchase.holds.unit) is not None:
        return _GRAM, 1.0
    unit = ingredient.purchase.holds.unit
    return unit, kit.converter.grams(ingredient.id, Amount(1.0, unit))


def _alerts(
    kit: Kitchenry,
    by_item: dict[str, list[Draw]],
    allotted: dict[DrawKey, list[Allotment]],
) -> list[Alert]:
    alerts: list[Alert] = []
    for item, draws in sorted(by_item.items()):
        name = kit.catalog.ingredients[item].name
        late: dict[int, list[str]] = defaultdict(list)
        missing = 0.0
        held: list[str] = []
        for draw in draws:
            for part in allotted.get(draw.key, ()):
                who = _consumer_name(kit, draw.consumer)
                if not part.supply.available:
                    missing += (part.end - part.begin) * draw.purchased.grams
                    held.append(who)
                elif part.supply.at > max(0, draw.due):
                    late[part.supply.at].append(who)
        for at, names in sorted(late.items()):
            text = sentence(
                "{name} comes at {at}, later than its work should start.", name=name, at=clock(at)
            )
            alerts.append(Alert("delivery", item, text, tuple(dict.fromkeys(names))))
        if missing > 1e-6:
            alerts.append(_missing(kit, item, name, missing, held))
    return alerts


def _missing(kit: Kitchenry, item: str, name: str, missing: float, held: list[str]) -> Alert:
    lost = any(
        d.item == item and d.date == kit.date and d.state is DeliveryState.MISSING
        for d in kit.catalog.kitchen.deliveries
    )
    why = (
        sentence("the delivery is missing") if lost else sentence("neither on hand nor on its way")
    )
    text = sentence("{amount} of {name}: {why}.", amount=grams_text(missing), name=name, why=why)
    return Alert("delivery" if lost else "missing", item, text, tuple(dict.fromkeys(held)))


def _consumer_name(kit: Kitchenry, consumer: str) -> str:
    component = kit.catalog.components.get(consumer)
    dish = kit.catalog.dishes.get(consumer)
    return component.name if component else dish.name if dish else consumer
