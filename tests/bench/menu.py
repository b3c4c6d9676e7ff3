"""Dishes, foods and the stages their components go through, drawn at random and pooled by food.

Washing, peeling and halving are pooled over the dishes of services that follow each other, cutting
over those of them that want the same cut, cooking and chilling over those of one service; packing
is each dish's own.
"""

import random
from dataclasses import dataclass, field

from planner.schedule.problem import Hygiene
from tests.bench.sizes import Size

ANIMALS = ("poultry", "fish", "beef", "shellfish")
ALLERGENS = ("milk", "wheat", "tree nuts", "egg")
CUTS = ("dice", "slice", "baton", "mince", "wedge", "shred")

StageKey = tuple[str | int | None, ...]


@dataclass(frozen=True, slots=True)
class Operation:
    """A movement: where, with what, and its minutes relative to the other operations."""

    name: str
    station: str
    minutes: tuple[int, int]
    equipment: str | None = None
    alone: bool = False
    """What may be left to itself and taken out later."""


OPERATIONS: dict[str, Operation] = {
    item.name: item
    for item in (
        Operation("wash", "sink", (4, 10)),
        Operation("peel", "board", (8, 24)),
        Operation("halve", "board", (4, 12)),
        Operation("cut", "board", (8, 30)),
        Operation("fry", "stove", (8, 24), "burner"),
        Operation("simmer", "stove", (5, 12), "burner", alone=True),
        Operation("roast", "stove", (4, 10), "oven", alone=True),
        Operation("blend", "bench", (5, 12), "blender"),
        Operation("chill", "bench", (3, 6), "chiller", alone=True),
        Operation("pack", "bench", (4, 12)),
    )
}
METHODS = ("fry", "simmer", "simmer", "roast", "roast", "blend")


def operation_table() -> str:
    """The operations as a Markdown table."""
    lines = [
        "| operation | station | equipment | minutes, before scaling | by itself |",
        "| --- | --- | --- | --- | --- |",
    ]
    for item in OPERATIONS.values():
        low, high = item.minutes
        lines.append(
            f"| {item.name} | {item.station} | {item.equipment or ''} | {low} to {high} "
            f"| {'some' if item.alone else ''} |"
        )
    return "\n".join(lines) + "\n"


@dataclass(frozen=True, slots=True)
class Food:
    """A food as it comes in: what it leaves on a board, what is done to it first, its cuts."""

    name: str
    hygiene: Hygiene
    early: tuple[str, ...]
    cuts: tuple[str, ...]
    release: int


@dataclass(frozen=True, slots=True)
class Dish:
    """Portions of a dish at one service; times are minutes after midnight."""

    service: int
    opens: int
    due: int
    portions: int
    weight: int


@dataclass(slots=True)
class Draft:
    """A lot before it has tasks; ``before`` are the lots it takes from."""

    operation: Operation
    food: Food
    label: str
    cooked: bool
    before: tuple[int, ...]
    raw_minutes: int
    dishes: set[int] = field(default_factory=set)
    """Dishes that take from it, directly or through other lots."""
    serves: list[tuple[int, str, int]] = field(default_factory=list)
    """(dish, component, portions)."""


@dataclass(slots=True)
class Menu:
    """Everything that is to be made."""

    dishes: list[Dish] = field(default_factory=list)
    drafts: list[Draft] = field(default_factory=list)
    stages: dict[StageKey, tuple[int, ...]] = field(default_factory=dict)


def draw_menu(rng: random.Random, size: Size, start: int) -> Menu:
    """Draw dishes until there are exactly ``size.lots`` lots."""
    foods = [_food(rng, size, number, start) for number in range(size.foods)]
    menu = Menu()
    while len(menu.drafts) < size.lots:
        lag = [
            share / (1 + sum(dish.service == number for dish in menu.dishes))
            for number, share in enumerate(size.service_shares)
        ]
        service = lag.index(max(lag))
        opens = size.services[service]
        menu.dishes.append(
            Dish(
                service,
                opens,
                opens - rng.randint(*size.due_before),
                rng.randint(*size.portions),
                rng.choice(size.weights),
            )
        )
        for number in range(rng.randint(*size.components)):
            if len(menu.drafts) < size.lots:
                _add_component(rng, size, menu, rng.choice(foods), number)
    return menu


def _food(rng: random.Random, size: Size, number: int, start: int) -> Food:
    # Every nth food rather than odds, so that small kitchens have their share as well.
    animal = _nth(number, size.raw_animal)
    allergic = _nth(number + 1, size.allergenic)
    hygiene = Hygiene(
        rng.choice(ANIMALS) if animal else None,
        frozenset({rng.choice(ALLERGENS)}) if allergic else frozenset(),
    )
    odds = (("wash", size.washed), ("peel", size.peeled), ("halve", size.halved))
    early = () if animal else tuple(name for name, chance in odds if rng.random() < chance)
    late = rng.random() < size.delivered
    release = start + (rng.randint(*size.delivery_after) if late else 0)
    return Food(f"food {number}", hygiene, early, tuple(rng.sample(CUTS, size.cuts)), release)


def _nth(number: int, share: float) -> bool:
    return int((number + 1) * share) > int(number * share)


def _add_component(rng: random.Random, size: Size, menu: Menu, food: Food, number: int) -> None:
    dish = len(menu.dishes) - 1
    route = _route(rng, size, menu, food, number)
    room = size.lots - len(menu.drafts)
    missing = [key for key, _ in route if key not in menu.stages]
    # The last component of all has as many stages as there is room for: it comes half prepared.
    dropped = set(missing[: max(0, len(missing) - room)])
    kept = [stage for stage in route if stage[0] not in dropped]
    room -= len(missing) - len(dropped)
    cooked = False
    before: tuple[int, ...] = ()
    for key, operation in kept:
        cooked = cooked or operation.name in METHODS
        if key not in menu.stages:
            count = 2 if room > 0 and rng.random() < size.split else 1
            room -= count - 1
            menu.stages[key] = _new_lots(rng, menu, food, (key, operation), cooked, before, count)
        before = menu.stages[key]
        for lot in before:
            menu.drafts[lot].dishes.add(dish)
    for place, lot in enumerate(before):
        portions = menu.dishes[dish].portions
        share = portions * (place + 1) // len(before) - portions * place // len(before)
        menu.drafts[lot].serves.append((dish, f"component {number}", share))


def _route(
    rng: random.Random, size: Size, menu: Menu, food: Food, number: int
) -> list[tuple[StageKey, Operation]]:
    """Draw the stages of a component, each with what it is pooled by."""
    dish = len(menu.dishes) - 1
    service = menu.dishes[dish].service
    pool = service // size.pooled_services
    animal = food.hygiene.raw_animal is not None
    cut = rng.choice(food.cuts) if animal or rng.random() < size.cut else None
    method = rng.choice(METHODS) if animal or rng.random() < size.cooked else None
    chilled = method is not None and rng.random() < size.chilled
    packed = rng.random() < size.packed or (cut is None and method is None)
    route: list[tuple[StageKey, Operation]] = [
        ((food.name, None, name, pool), OPERATIONS[name]) for name in food.early
    ]
    if cut is not None:
        route.append(((food.name, cut, "cut", pool), OPERATIONS["cut"]))
    if method is not None:
        route.append(((food.name, cut, method, service), OPERATIONS[method]))
    if chilled:
        route.append(((food.name, cut, method, service, "chill"), OPERATIONS["chill"]))
    if packed:
        route.append(((food.name, cut, "pack", dish, number), OPERATIONS["pack"]))
    return route


def _new_lots(
    rng: random.Random,
    menu: Menu,
    food: Food,
    stage: tuple[StageKey, Operation],
    cooked: bool,
    before: tuple[int, ...],
    count: int,
) -> tuple[int, ...]:
    """Add the lots of a stage; two after two go side by side."""
    (_, cut, *_), operation = stage
    label = food.name if cut is None else f"{food.name}/{cut}"
    minutes = rng.randint(*operation.minutes)
    first = len(menu.drafts)
    for place in range(count):
        own = (before[place],) if len(before) == count else before
        menu.drafts.append(Draft(operation, food, label, cooked, own, minutes))
    return tuple(range(first, first + count))
