"""Small kitchens at random, every one a valid file.

One to four ingredients, one to six components (cut from one food or made by recipe, nested), one
to four dishes, one or two services, one to three cooks; now and then stock, deliveries and
by-products.
"""

from typing import Any

from hypothesis import assume
from hypothesis import strategies as st

from tests.kitchen.reported import reported
from tests.kitchens.bench import (
    File,
    bench,
    cook,
    cut_from,
    day,
    delivery,
    dish,
    food,
    raw,
    recipe,
    service,
    stock,
)

Draw = st.DrawFn
ALLERGENS = ("milk", "egg", "wheat", "sesame")
SPECIES = ("poultry", "beef", "fish")
SKILLS = ("knife", "stove")


def maybe(draw: Draw, name: str, values: st.SearchStrategy[Any]) -> File:
    """The field, or (twice as often) nothing, so that its default holds."""
    return {name: draw(values)} if draw(st.integers(0, 2)) == 0 else {}


def grams(draw: Draw, least: int, most: int) -> str:
    """An amount by weight, in steps of the least."""
    return f"{draw(st.integers(1, most // least)) * least} g"


def _ingredient(draw: Draw, name: str) -> File:
    piece = [{"unit": "each", "weight": grams(draw, 20, 300)}]
    return food(
        name,
        **maybe(draw, "weights", st.just(piece)),
        **maybe(draw, "allergens", st.sampled_from(ALLERGENS).map(lambda a: [a])),
        **maybe(draw, "raw_animal", st.sampled_from(SPECIES)),
        **maybe(draw, "counted", st.just(False)),
    )


def _operation(
    draw: Draw, name: str, foods: list[str], by_products: list[str], yields: tuple[float, ...]
) -> File:
    fraction = draw(st.sampled_from(yields))
    entry: File = {"food": draw(st.sampled_from(foods)), "fraction": fraction}
    if by_products and fraction < 1:
        entry["trim"] = [{"item": draw(st.sampled_from(by_products)), "share": 0.7}]
    alone = draw(st.sampled_from((0, 0, 0, 20, 90, 700)))
    unattended: File = {}
    if alone:
        unattended = {
            "unattended_minutes": alone,
            **maybe(draw, "check_every_minutes", st.sampled_from((15, 60))),
            "finish_minutes": draw(st.sampled_from((0, 3))),
            **maybe(draw, "finish_within_minutes", st.sampled_from((5, 30))),
            **maybe(draw, "cooks_through", st.just(True)),
        }
    vessel = {"equipment": "pot", "max_units": draw(st.integers(1, 2))}
    return {
        "id": name,
        "name": name.capitalize(),
        "station": draw(st.sampled_from(("board", "range"))),
        "skill": draw(st.sampled_from(SKILLS)),
        "set_up_minutes": draw(st.integers(0, 4)),
        "minutes_per": draw(st.sampled_from((0.0, 2.0, 7.5))),
        "each_lot_minutes": draw(st.sampled_from((0.0, 1.5))),
        "per": draw(st.sampled_from(("kg", "kg", "lot"))),
        "yields": [entry],
        **unattended,
        **maybe(draw, "pausable", st.just(True)),
        **maybe(draw, "equipment", st.just([vessel])),
        **maybe(draw, "cautions", st.just(["hot surface"])),
        **maybe(draw, "lot_limit", st.sampled_from(("1500 g", "4 kg"))),
    }


def _step(draw: Draw, operations: list[File], *, last: bool) -> File:
    found = {
        "operation": draw(st.sampled_from(operations))["id"],
        **maybe(draw, "min_wait_minutes", st.sampled_from((5, 20))),
        **maybe(draw, "temperature_c", st.sampled_from((4, 21, 75))),
    }
    if not last:
        found |= maybe(draw, "max_wait_minutes", st.sampled_from((20, 45)))
        found |= maybe(draw, "hold", st.sampled_from(("cold", "ambient")))
    return found


def _component(
    draw: Draw, name: str, below: list[str], operations: list[File], by_products: list[str]
) -> File:
    steps = draw(st.integers(1, 3))
    route = [_step(draw, operations, last=n == steps - 1) for n in range(steps)]
    if draw(st.booleans()):
        made = cut_from(draw(st.sampled_from(below)), name, *route)
    else:
        items = draw(st.lists(st.sampled_from(below), min_size=1, max_size=3, unique=True))
        takes = {item: grams(draw, 50, 600) for item in items}
        weight = sum(int(amount.split()[0]) for amount in takes.values())
        makes = f"{round(weight * draw(st.sampled_from((0.7, 0.9, 1.0))))} g"
        made = recipe(name, makes, takes, *route)
        for entry in made["inputs"][1:]:
            entry["after_step"] = draw(st.integers(0, steps - 1))
        if steps > 1 and draw(st.booleans()):
            first = draw(st.sampled_from((0.5, 1.2)))
            made["route"][0]["fraction"] = {"fraction": first}
            assume(_leaves_something(made, first))
    if by_products:
        made["inputs"][0]["may_use"] = [draw(st.sampled_from(by_products))]
    keeps = draw(st.integers(1, 3))
    return {
        **made,
        "shelf_life_days": keeps,
        "weights": [{"unit": "each", "weight": grams(draw, 20, 60)}],
        "tcs": draw(st.booleans()),
        **maybe(draw, "par", st.sampled_from(("300 g", "2 kg"))),
        **maybe(draw, "batch_minimum", st.sampled_from(("500 g", "1 kg"))),
        **maybe(draw, "batch_multiple", st.sampled_from(("250 g", "400 g"))),
        **maybe(draw, "make_for_days", st.integers(1, keeps)),
        **maybe(draw, "days_ahead", st.integers(0, keeps - 1)),
        **maybe(draw, "fresh_hours", st.sampled_from((2, 5))),
    }


def _leaves_something(made: File, first: float) -> bool:
    """Whether what goes in after the first step leaves a share of the output to come from it."""
    inputs = [
        (entry.get("after_step", 0), int(entry["amount"].split()[0])) for entry in made["inputs"]
    ]
    later = sum(grams for step, grams in inputs if step)
    early = first * sum(grams for step, grams in inputs if not step)
    makes = int(made["makes"].split()[0])
    return makes > later * 1.1 and 0.06 < makes / (early + later) < 3.9


def _dish(draw: Draw, name: str, components: list[str], ingredients: list[str]) -> File:
    items = draw(st.lists(st.sampled_from(components), min_size=1, max_size=3, unique=True))
    if draw(st.integers(0, 3)) == 0:
        items.append(draw(st.sampled_from(ingredients)))
    return dish(
        name,
        {item: _portion(draw, made=item in components) for item in items},
        **maybe(draw, "weight", st.integers(1, 3)),
    )


def _portion(draw: Draw, *, made: bool) -> str:
    """By weight, or (a component) by the piece."""
    if made and draw(st.integers(0, 3)) == 0:
        return f"{draw(st.sampled_from((0.5, 1, 2)))} each"
    return grams(draw, 10, 120)


def _service(draw: Draw, name: str, dishes: list[str], at: tuple[str, str], ahead: int) -> File:
    shares = st.sampled_from((0.1, 0.4, 0.9))
    return service(
        name,
        {each: draw(shares) for each in dishes},
        covers=draw(st.integers(1, 40)),
        opens=at[0],
        closes=at[1],
        ahead=ahead,
        guaranteed=draw(st.booleans()),
        plating_set_up_minutes=draw(st.sampled_from((0, 30))),
        **maybe(draw, "weight", st.integers(1, 3)),
    )


def _cook(draw: Draw, name: str, *, skills: tuple[str, ...]) -> File:
    start = draw(st.sampled_from((8, 9, 12, 17)))
    hours = draw(st.integers(4, 9))
    rest = {
        "start": f"{start + 2:02d}:00",
        "minutes": draw(st.sampled_from((15, 30))),
        **maybe(draw, "latest", st.sampled_from((f"{start + 2:02d}:10", f"{start + 2:02d}:25"))),
    }
    line = {"start": f"{start + hours - 1:02d}:00", "end": f"{start + hours:02d}:00"}
    return cook(
        name,
        f"{start:02d}:00",
        f"{start + hours:02d}:00",
        skills=[{"skill": each, "pace": draw(st.sampled_from((0.8, 1.0, 1.3)))} for each in skills],
        shift={
            "overtime_minutes": draw(st.sampled_from((0, 45))),
            **maybe(draw, "breaks", st.just([rest])),
            **maybe(draw, "on_line", st.just([line])),
            **maybe(draw, "flexible", st.just(True)),
            **maybe(draw, "date", st.sampled_from((day(0), day(1)))),
        },
    )


def _stock(draw: Draw, components: list[File]) -> list[File]:
    found = []
    for component in draw(st.lists(st.sampled_from(components), max_size=2)):
        entry = stock(
            component["id"],
            grams(draw, 50, 2000),
            made=day(-2),
            use_by=day(draw(st.integers(-1, 2))),
        )
        steps = len(component["route"])
        if steps > 1 and draw(st.booleans()):
            entry["after_step"] = draw(st.integers(1, steps - 1))
        found.append(entry)
    return found


def _supply(draw: Draw, bought: list[str]) -> dict[str, list[File]]:
    """Plenty on hand as a rule; else a little, and what a van brings."""
    on_hand, vans = [], []
    for item in bought:
        if draw(st.integers(0, 2)):
            on_hand.append(raw(item, "500 kg"))
            continue
        on_hand.append(raw(item, grams(draw, 250, 3000)))
        at = draw(st.sampled_from(("08:30", "11:00")))
        state = draw(st.sampled_from(("expected", "expected", "missing")))
        vans.append(delivery(item, grams(draw, 500, 20000), at, state=state))
    return {"raw_stock": on_hand, "deliveries": vans}


@st.composite
def kitchens(
    draw: Draw, *, by_products: bool = True, swells: bool = True, most_ahead: int = 2
) -> File:
    """A small kitchen file for ``DATE``.

    Without ``by_products`` nothing is credited; unless food ``swells`` no yield is above 1;
    ``most_ahead`` bounds the days looked ahead.
    """
    bought = [f"food{n}" for n in range(draw(st.integers(1, 4)))]
    ends = ["ends"] if by_products and draw(st.booleans()) else []
    ingredients = [_ingredient(draw, name) for name in bought]
    ingredients += [food(name, by_product=True) for name in ends]
    yields = (0.7, 0.8, 0.9, 1.0, *((1.7,) if swells else ()))
    operations = [
        _operation(draw, f"op{n}", bought, ends, yields) for n in range(draw(st.integers(1, 4)))
    ]
    components: list[File] = []
    for n in range(draw(st.integers(1, 6))):
        below = [*bought, *(each["id"] for each in components)]
        components.append(_component(draw, f"part{n}", below, operations, ends))
    made = [each["id"] for each in components]
    dishes = [_dish(draw, f"dish{n}", made, bought) for n in range(draw(st.integers(1, 4)))]
    menu = [each["id"] for each in dishes]
    services = [_service(draw, "lunch", menu, ("12:00", "15:00"), draw(st.integers(0, 1)))]
    if draw(st.booleans()):
        services.append(_service(draw, "dinner", menu, ("18:00", "22:00"), 0))
    cooks = [_cook(draw, "ana", skills=SKILLS)]
    for n in range(draw(st.integers(0, 2))):
        cooks.append(_cook(draw, f"cook{n}", skills=SKILLS[: draw(st.integers(1, 2))]))
    supply = _supply(draw, bought)
    if ends and draw(st.booleans()):
        supply["raw_stock"].append(raw("ends", grams(draw, 100, 1000)))
    file = bench(
        ingredients=ingredients,
        operations=operations,
        components=components,
        dishes=dishes,
        services=services,
        stations=[
            {"id": "board", "name": "Board", "places": draw(st.integers(1, 2))},
            {"id": "range", "name": "Range", "places": 1, "food_contact": False},
        ],
        equipment=[{"id": "pot", "name": "Pot", "count": 2, "holds": grams(draw, 2000, 6000)}],
        cooks=cooks,
        prepared=_stock(draw, components),
        rules={
            "out_of_control_minutes": draw(st.sampled_from((60, 120, 240))),
            "lookahead_days": draw(st.integers(0, most_ahead)),
            "station_set_up_minutes": draw(st.sampled_from((0, 5))),
            "day_margin_minutes": draw(st.sampled_from((0, 60))),
            **maybe(draw, "rest_rules", st.just([{"after_hours": 7, "minutes": 15}])),
            "clean_every_minutes": draw(st.sampled_from((30, 60, 240, None))),
            "changeovers": draw(st.sampled_from(({}, {"clean": 0, "another_food": 0}))),
        },
        **supply,
    )
    _controlled_as_far_as_can_be(file)
    return file


def _controlled_as_far_as_can_be(file: File) -> None:
    """Food that its own route leaves warm for too long is none that needs control after all."""
    told = (
        error
        for error in reported(file)
        if "out of temperature control" in error.message or "after the heat" in error.message
    )
    for error in told:
        number = int(error.path.removeprefix("components[").partition("]")[0])
        file["components"][number]["tcs"] = False
