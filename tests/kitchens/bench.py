"""Kitchens of one test each: one cook, one board, and whatever the test is about.

Everything a test does not mention is out of its way: no set-up, no changeovers, no margins, raw
stock without end, and covers that are guaranteed, so that portions are covers x portions per cover.
"""

import datetime as dt
import json
from typing import Any

from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from planner.lots.build import workload_of
from planner.lots.types import Lot, Workload
from planner.quantities.compute import kitchenry, quantities_of
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import ComponentNeed, Making, Quantities

File = dict[str, Any]
DATE = dt.date(2025, 3, 4)
PLENTY = "1000 kg"
NO_CHANGEOVERS = {
    "another_food": 0,
    "another_operation": 0,
    "another_station": 0,
    "hand_wash": 0,
    "clean": 0,
}


def day(ahead: int) -> str:
    """ISO date so many days after the planned one."""
    return (DATE + dt.timedelta(days=ahead)).isoformat()


def food(name: str, **fields: Any) -> File:
    """An ingredient, bought by the kilo."""
    purchase = {"unit": "bag", "holds": "1 kg", "cost": 2}
    return {"id": name, "name": name.capitalize(), "purchase": purchase, **fields}


def work(name: str, **fields: Any) -> File:
    """An operation at the board: ten minutes a kilo."""
    return {
        "id": name,
        "name": name.capitalize(),
        "station": "board",
        "skill": "hands",
        "minutes_per": 10,
        **fields,
    }


def cut_from(item: str, name: str, *route: str | File, **fields: Any) -> File:
    """A component with one input, whose quantity follows the yields of its route."""
    return {
        "id": name,
        "name": name.capitalize(),
        "inputs": [{"item": item}],
        "route": [{"operation": s} if isinstance(s, str) else s for s in route],
        "shelf_life_days": 3,
        "tcs": False,
        **fields,
    }


def recipe(name: str, makes: str, takes: dict[str, str], *route: str | File, **fields: Any) -> File:
    """A component with a measured output; ``takes`` gives the amount of each input of a batch."""
    inputs = [{"item": item, "amount": amount} for item, amount in takes.items()]
    return {**cut_from("", name, *route), "inputs": inputs, "makes": makes, **fields}


def dish(name: str, takes: dict[str, str], **fields: Any) -> File:
    """A dish and what one portion of it takes."""
    portions = [{"item": item, "amount": amount} for item, amount in takes.items()]
    return {"id": name, "name": name.capitalize(), "components": portions, **fields}


def service(name: str, per_cover: dict[str, float], covers: int = 10, **fields: Any) -> File:
    """Dinner at 18:00 today for guaranteed covers; ``ahead`` moves it so many days on."""
    ahead = fields.pop("ahead", 0)
    return {
        "id": name,
        "name": name.capitalize(),
        "date": day(ahead),
        "opens": "18:00",
        "closes": "22:00",
        "covers": covers,
        "guaranteed": True,
        "mix": [{"dish": dish, "per_cover": share} for dish, share in per_cover.items()],
        **fields,
    }


def cook(name: str, start: str = "08:00", end: str = "17:00", **fields: Any) -> File:
    """A cook who can do everything at book pace, in from ``start`` to ``end`` every day."""
    shift = {"start": start, "end": end, "overtime_minutes": 0, **fields.pop("shift", {})}
    return {
        "id": name,
        "name": name.capitalize(),
        "initials": name[:2].upper(),
        "wage_per_hour": 20,
        "skills": [{"skill": "hands"}],
        "shifts": [shift],
        **fields,
    }


def stock(item: str, amount: str, **fields: Any) -> File:
    """Prepared today, good for a week."""
    return {"item": item, "amount": amount, "made": day(0), "use_by": day(6), **fields}


def raw(item: str, amount: str, **fields: Any) -> File:
    """An ingredient that came today and keeps."""
    return {"item": item, "amount": amount, "received": day(0), **fields}


def delivery(item: str, amount: str, at: str, **fields: Any) -> File:
    """An ingredient that comes today at ``at``."""
    return {"item": item, "amount": amount, "date": day(0), "at": at, **fields}


def bench(*, rules: File | None = None, **parts: Any) -> File:
    """A kitchen file; ``parts`` are its lists, of which those left out are filled in.

    Without services there is a dinner today with one portion of each dish a cover.
    """
    bought = [item for item in parts["ingredients"] if not item.get("by_product")]
    defaults = {
        "format": "prepwright-kitchen",
        "version": 1,
        "name": "Test bench",
        "as_of": DATE.isoformat(),
        "rules": {
            "plating_set_up_minutes": 0,
            "station_set_up_minutes": 0,
            "day_margin_minutes": 0,
            "lookahead_days": 0,
            "changeovers": NO_CHANGEOVERS,
            **(rules or {}),
        },
        "services": [service("dinner", {each["id"]: 1.0 for each in parts["dishes"]})],
        "stations": [{"id": "board", "name": "Board", "places": 9, "food_contact": False}],
        "cooks": [cook("ana")],
        "raw_stock": [raw(item["id"], PLENTY) for item in bought],
    }
    return {**defaults, **parts}


def read(file: File) -> Kitchen:
    """The kitchen, read and checked as any file is."""
    return read_kitchen(json.dumps(file).encode())


def kit_of(file: File) -> Kitchenry:
    """Look-ups of the kitchen on its day."""
    return kitchenry(read(file), DATE)


def needs_of(file: File) -> Quantities:
    """Quantities of the kitchen's day."""
    return quantities_of(kit_of(file))[1]


def need_of(file: File, component: str) -> ComponentNeed:
    """The need of one component."""
    return needs_of(file).by_component[component]


def making_of(file: File, component: str) -> Making:
    """The one making of a component on the day."""
    (making,) = need_of(file, component).makings
    return making


def workload(file: File, *, pooled: bool = True) -> Workload:
    """Lots and problem of the kitchen's day."""
    kit = kit_of(file)
    demands, quantities = quantities_of(kit)
    return workload_of(kit, demands, quantities, pooled=pooled)


def lots_of(work: Workload, operation: str) -> list[Lot]:
    """Lots of one operation, in their order."""
    return [lot for lot in work.lots if lot.operation == operation]
