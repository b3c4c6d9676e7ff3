"""The invented kitchen that every season begins with: one lunch a day, ten components, three cooks.

All of it is invented, of the size such figures have. What the file says of yields, rates, guests
and mix is what a kitchen believes on its first day; what is true is drawn about it in ``truth``.
"""

import datetime as dt
import json
from typing import Any

from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen

FIRST_DAY = dt.date(2026, 3, 2)
"""A Monday."""
SERVICE = "lunch"
FLAT = 0.10
"""The habit: a tenth on top of what is expected."""
COVERS = (110, 115, 120, 130, 160, 175, 140)
"""What the kitchen believes, Monday to Sunday."""
MIX = {
    "chicken_plate": 0.22,
    "soup_bowl": 0.25,
    "leaf_salad": 0.30,
    "slaw_side": 0.20,
    "rice_bowl": 0.18,
    "mushroom_ragout": 0.15,
    "wedges_side": 0.15,
}
STARTS = ("08:00", "07:00", "06:00")
"""When the cooks come, and when they come where the plan has too little time for that."""
_BOUGHT: dict[str, tuple[str, float]] = {
    # grams of a piece; 0: weighed out to the gram
    "onion": ("dry store", 120),
    "carrot": ("walk-in", 70),
    "potato": ("dry store", 180),
    "green_bean": ("walk-in", 0),
    "romaine": ("walk-in", 450),
    "cabbage": ("walk-in", 900),
    "mushroom": ("walk-in", 0),
    "chicken": ("walk-in", 0),
    "rice": ("dry store", 0),
}
_OPERATIONS: tuple[tuple[str, str, str, int, float, dict[str, float], dict[str, float]], ...] = (
    # id, station, skill, set-up, minutes per kg, yields by food, rates by food
    ("peel", "board", "knife", 3, 4.0, {"onion": 0.90, "carrot": 0.86, "potato": 0.80}, {}),
    (
        "trim",
        "board",
        "knife",
        3,
        4.5,
        {"green_bean": 0.88, "romaine": 0.78, "cabbage": 0.80, "mushroom": 0.94, "chicken": 0.90},
        {"cabbage": 2.5, "romaine": 3.5},
    ),
    ("cut", "board", "knife", 3, 5.5, {"onion": 0.96, "carrot": 0.95}, {"potato": 3.0}),
    ("shred", "bench", "cold", 4, 4.0, {"cabbage": 0.97}, {}),
    ("wash", "sink", "cold", 2, 3.0, {}, {}),
    ("roast", "range", "stove", 4, 1.5, {"potato": 0.82, "chicken": 0.72}, {}),
    ("boil", "range", "stove", 3, 2.0, {"rice": 2.70, "green_bean": 0.98}, {}),
    ("sweat", "range", "stove", 3, 3.0, {"mushroom": 0.70}, {}),
    ("simmer", "range", "stove", 3, 1.0, {}, {}),
)
_ALONE = {"roast": 35, "boil": 18, "simmer": 40}
_HEATED = frozenset({"roast", "boil", "sweat", "simmer"})
_COMPONENTS: tuple[tuple[str, str, tuple[str, ...], int, str], ...] = (
    # id, input, route, days it keeps (the first is the day it is made), storage
    ("onion_cut", "onion", ("peel", "cut"), 2, "cold"),
    ("carrot_cut", "carrot", ("peel", "cut"), 2, "cold"),
    ("wedges", "potato", ("peel", "cut", "roast"), 1, "hot"),
    ("beans", "green_bean", ("trim", "boil"), 1, "hot"),
    ("leaves", "romaine", ("trim", "wash"), 2, "cold"),
    ("slaw", "cabbage", ("trim", "shred"), 2, "cold"),
    ("mushrooms", "mushroom", ("trim", "sweat"), 1, "hot"),
    ("chicken_roast", "chicken", ("trim", "roast"), 1, "hot"),
    ("rice_boiled", "rice", ("boil",), 1, "hot"),
)
_DISHES: dict[str, dict[str, int]] = {
    "chicken_plate": {"chicken_roast": 150, "wedges": 160, "beans": 80},
    "soup_bowl": {"soup": 300},
    "leaf_salad": {"leaves": 90, "carrot_cut": 20},
    "slaw_side": {"slaw": 110},
    "rice_bowl": {"rice_boiled": 180, "carrot_cut": 70, "beans": 60},
    "mushroom_ragout": {"mushrooms": 110, "rice_boiled": 140, "onion_cut": 40},
    "wedges_side": {"wedges": 150},
}


def house() -> Kitchen:
    """The kitchen file of the first day, read and checked as any file is."""
    return read_kitchen(json.dumps(_document()).encode())


def on(kitchen: Kitchen, date: dt.date) -> Kitchen:
    """The file with the service of ``date``: as many guests as the kitchen believes."""
    (service,) = kitchen.services
    today = service.model_copy(update={"date": date, "covers": COVERS[date.weekday()]})
    return kitchen.model_copy(update={"services": (today,)})


def _document() -> dict[str, Any]:
    return {
        "format": "prepwright-kitchen",
        "version": 1,
        "name": "House of the bench (invented)",
        "as_of": FIRST_DAY.isoformat(),
        "rules": {"station_set_up_minutes": 5, "lookahead_days": 0, "clean_every_minutes": None},
        "ingredients": [*map(_ingredient, _BOUGHT), _water()],
        "operations": [_operation(*line) for line in _OPERATIONS],
        "components": [*(_component(*line) for line in _COMPONENTS), _soup()],
        "dishes": [
            {
                "id": dish,
                "name": _name(dish),
                "components": [{"item": i, "amount": f"{g} g"} for i, g in takes.items()],
            }
            for dish, takes in _DISHES.items()
        ],
        "services": [_service(FIRST_DAY)],
        "stations": [
            {"id": "board", "name": "Boards", "places": 3},
            {"id": "bench", "name": "Cold bench", "places": 2},
            {"id": "sink", "name": "Sink", "places": 1},
            {"id": "range", "name": "Range", "places": 3},
        ],
        "cooks": [_cook(n) for n in range(3)],
        "raw_stock": [
            {"item": item, "amount": "500 kg", "received": FIRST_DAY.isoformat()}
            for item in _BOUGHT
        ],
    }


def _name(of: str) -> str:
    return of.replace("_", " ").capitalize()


def _ingredient(item: str) -> dict[str, Any]:
    storage, piece = _BOUGHT[item]
    made: dict[str, Any] = {
        "id": item,
        "name": _name(item),
        "purchase": {"unit": "crate", "holds": "10 kg", "cost": 20.0},
        "storage": storage,
    }
    if piece:
        made["weights"] = [{"unit": "each", "weight": f"{piece:g} g"}]
    if item == "chicken":
        made |= {"raw_animal": "poultry", "tcs": True}
    return made


def _water() -> dict[str, Any]:
    return {
        "id": "water",
        "name": "Water",
        "purchase": {"unit": "tap", "holds": "1000 kg"},
        "counted": False,
    }


def _operation(
    name: str,
    station: str,
    skill: str,
    set_up: int,
    minutes_per: float,
    yields: dict[str, float],
    rates: dict[str, float],
) -> dict[str, Any]:
    return {
        "id": name,
        "name": _name(name),
        "station": station,
        "skill": skill,
        "set_up_minutes": set_up,
        "minutes_per": minutes_per,
        "unattended_minutes": _ALONE.get(name, 0),
        "yields": [{"food": food, "fraction": value} for food, value in yields.items()],
        "rates": [{"food": food, "minutes_per": value} for food, value in rates.items()],
        "cooks_through": name in _HEATED,
        "cautions": ["hot surface"] if name in _HEATED else ["knife"] if skill == "knife" else [],
    }


def _component(
    name: str, item: str, route: tuple[str, ...], keeps: int, storage: str
) -> dict[str, Any]:
    return {
        "id": name,
        "name": _name(name),
        "inputs": [{"item": item}],
        "route": [{"operation": operation} for operation in route],
        "shelf_life_days": keeps,
        "tcs": name == "chicken_roast",
        "storage": storage,
    }


def _soup() -> dict[str, Any]:
    """A recipe: what it makes is measured, so it has no yield to learn."""
    return {
        "id": "soup",
        "name": "Soup",
        "makes": "10 kg",
        "inputs": [
            {"item": "onion_cut", "amount": "2 kg"},
            {"item": "carrot_cut", "amount": "3 kg"},
            {"item": "water", "amount": "6 kg"},
        ],
        "route": [{"operation": "simmer"}],
        "shelf_life_days": 1,
        "tcs": False,
        "storage": "hot",
    }


def _service(date: dt.date) -> dict[str, Any]:
    return {
        "id": SERVICE,
        "name": "Lunch",
        "date": date.isoformat(),
        "opens": "12:00",
        "closes": "15:00",
        "covers": COVERS[date.weekday()],
        "buffer_fraction": FLAT,
        "mix": [{"dish": dish, "per_cover": share} for dish, share in MIX.items()],
    }


def _cook(number: int) -> dict[str, Any]:
    return {
        "id": f"cook{number}",
        "name": f"Cook {'ABC'[number]}",
        "initials": "ABC"[number],
        "wage_per_hour": 20.0,
        "skills": [{"skill": skill} for skill in ("knife", "cold", "stove")],
        "shifts": [{"start": STARTS[0], "end": "16:00"}],
    }
