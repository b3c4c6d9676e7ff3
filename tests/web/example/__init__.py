"""A morning made by hand to design and test the pages with: five cooks, three services.

Nothing here is planned: times follow from the minutes written beside each batch, one after the
other, around breaks and the line. People, dishes and amounts are invented.
"""

import datetime as dt
import re
from dataclasses import replace

from planner.sheet.batch_types import SheetBatch, Taking
from planner.sheet.types import (
    Away,
    CookSheet,
    KitchenSheet,
    Lane,
    LaneBlock,
    Objective,
    PullItem,
    ServiceLine,
)
from tests.web.example.book import DATE, Book, C, at
from tests.web.example.fish import FISH
from tests.web.example.hot import HOT
from tests.web.example.larder import LARDER
from tests.web.example.pastry import PASTRY
from tests.web.example.vegetables import VEGETABLES

SET_UP = (
    "Board on a damp towel or a non-slip mat: it must not move.",
    "Knives clean, honed evenly on both sides, laid on a towel, edges away from you.",
    "Three containers at hand: raw food, finished food, waste.",
    "Scale on, tared with the empty container on it.",
    "Sanitiser bucket and probe thermometer within reach; hands washed.",
)


def example_sheet() -> KitchenSheet:
    """The example morning."""
    book = Book()
    cooks = (
        _cook(book, "ines", "Ines Marlo", "IM", ("06:00", "14:30"), _DAY, VEGETABLES),
        _cook(book, "tomas", "Tomas Brenk", "TB", ("06:00", "15:00"), _DAY, HOT),
        _cook(book, "nadia", "Nadia Rehm", "NR", ("06:30", "15:00"), _DAY, FISH),
        _cook(
            book,
            "mariaalessandra",
            "Maria-Alessandra van den Oosterveld",
            "MAO",
            ("07:00", "15:30"),
            _LATE_DAY,
            LARDER,
        ),
        _cook(book, "yuri", "Yuri Tallam", "YT", ("14:00", "26:00"), _EVENING, PASTRY),
    )
    batches = _numbered(cooks)
    cooks = tuple(
        replace(cook, batches=tuple(one for one in batches if one.cook == cook.cook))
        for cook in cooks
    )
    labor = tuple(_labor(cook) for cook in cooks)
    minutes = sum(line[1] + line[2] + line[3] for line in labor)
    return KitchenSheet(
        kitchen="The Copper Ladle & Sons",
        date=DATE,
        services=SERVICES,
        cooks=cooks,
        lanes=(*(_cook_lane(cook) for cook in cooks), *_equipment_lanes(batches)),
        pulls=tuple(pull for cook in cooks for pull in cook.pulls),
        alerts=(
            "Delivery at 08:15: 12 kg cod loin. It holds up portioning (batch in Nadia Rehm's "
            "sheet).",
            "Salsify is not on hand and no delivery is expected: 1.8 kg short for Winter "
            "vegetable plate.",
            "Chicken stock 2 l is used by its use-by, Tue 9 Mar: use it first.",
        ),
        troubles=(
            "Lemon tart (Banquet) is late by 25 min: the deck oven binds, all four racks are held "
            "from 16:10 to 18:20.",
            "Winter vegetable plate (Dinner) is short by 14 portions: salsify is missing.",
        ),
        remedies=(
            "Start the tart shells at 14:00 before the choux: nothing is late.",
            "Take parsnip for salsify: 14 portions more.",
        ),
        ahead=(
            "Wed 10 Mar: Duck legs, cured; Onion soup base; Washed leaves.",
            "Thu 11 Mar: Tart shells.",
        ),
        start=at("06:00"),
        end=max(one.unattended_until or one.end for one in batches),
        labor_minutes=minutes,
        saved_minutes=254,
        dish_by_dish_minutes=minutes + 254,
        labor=labor,
        currency="USD",
        objective=(
            Objective("short", 14, 14, True, 0.0, "salsify is missing"),
            Objective("tardiness", 25, 10, False, 0.6, "the oven's own work"),
            Objective("labor", minutes, minutes - 61, False, 61 / minutes, "one set-up a family"),
            Objective("freshness", 310, 0, False, 310.0, "none"),
            Objective("finish", 1100, 1100, True, 0.0, "longest chain of work"),
        ),
        status="feasible",
    )


_DAY = (
    Away("station set-up", at("06:00"), at("06:10")),
    Away("break", at("09:00"), at("09:20")),
    Away("on the line", at("11:15"), at("13:30")),
)
_LATE_DAY = (
    Away("station set-up", at("07:00"), at("07:10")),
    Away("break", at("10:00"), at("10:20")),
    Away("on the line", at("11:15"), at("13:30")),
)
_EVENING = (
    Away("station set-up", at("14:00"), at("14:10")),
    Away("break", at("16:00"), at("16:15")),
    Away("on the line", at("18:40"), at("22:00")),
)

SERVICES = (
    ServiceLine(
        "lunch",
        "Lunch",
        DATE,
        at("11:30"),
        at("11:00"),
        90,
        (
            ("Onion soup with cheese toast", 31.5, 5, 37),
            ("Chicken salad, herb mayonnaise", 22.5, 5, 28),
            ("Fish of the day, brown butter", 18.0, 4, 22),
            ("Winter vegetable plate", 13.5, 4, 18),
        ),
    ),
    ServiceLine(
        "dinner",
        "Dinner",
        DATE,
        at("17:30"),
        at("17:00"),
        140,
        (
            ("Onion soup with cheese toast", 28.0, 6, 34),
            ("Braised beef, root vegetables", 49.0, 8, 57),
            ("Cod loin, fennel, saffron", 42.0, 7, 49),
            ("Winter vegetable plate", 21.0, 5, 26),
            ("Lemon tart", 35.0, 7, 42),
        ),
    ),
    ServiceLine(
        "banquet",
        "Banquet",
        DATE,
        at("19:00"),
        at("18:15"),
        60,
        (
            ("Smoked fish, pickled cucumber", 60.0, 3, 63),
            ("Braised beef, root vegetables", 60.0, 3, 63),
            ("Lemon tart", 60.0, 3, 63),
        ),
    ),
)


def _cook(
    book: Book,
    cook: str,
    name: str,
    initials: str,
    shift: tuple[str, str],
    away: tuple[Away, ...],
    day: tuple[tuple[C, ...], tuple[PullItem, ...]],
) -> CookSheet:
    work, pulls = day
    batches = book.day(cook, name, initials, at(shift[0]), away, work)
    return CookSheet(
        cook=cook,
        name=name,
        initials=initials,
        shift_start=at(shift[0]),
        shift_end=at(shift[1]),
        away=away,
        set_up=SET_UP,
        pulls=pulls,
        batches=batches,
        hands_on=sum(one.hands_on for one in batches),
        changeover=sum(one.changeover + one.hand_wash + one.clean for one in batches),
        finish=batches[-1].end,
    )


def _numbered(cooks: tuple[CookSheet, ...]) -> tuple[SheetBatch, ...]:
    initials = {cook.cook: cook.initials for cook in cooks}
    batches = sorted(
        (one for cook in cooks for one in cook.batches), key=lambda one: (one.start, one.cook)
    )
    numbered = [replace(one, number=number) for number, one in enumerate(batches, start=1)]
    sources = {
        f"{one.operation_name} {one.food_name}": f"(batch {one.number}, {initials[one.cook]})"
        for one in numbered
        if one.part == "work"
    }
    return tuple(
        replace(one, takings=tuple(_resolved(taking, sources) for taking in one.takings))
        for one in numbered
    )


def _resolved(taking: Taking, sources: dict[str, str]) -> Taking:
    """``{Peel Carrots}`` becomes the number and cook of that batch."""
    name = re.sub(r"\{(.+?)\}", lambda found: sources[found[1]], taking.name)
    return replace(taking, name=name)


def _labor(cook: CookSheet) -> tuple[str, int, int, int, int, int, float]:
    set_up = sum(one.set_up for one in cook.batches)
    away = sum(one.end - one.start for one in cook.away)
    span = cook.batches[-1].end - cook.shift_start
    waiting = span - away - cook.hands_on - set_up - cook.changeover
    paid = cook.shift_end - cook.shift_start
    return cook.name, cook.hands_on, set_up, cook.changeover, waiting, paid, paid / 60 * 19.5


def _cook_lane(cook: CookSheet) -> Lane:
    blocks = [LaneBlock(a.start, a.end, a.kind, a.kind, None, late=False) for a in cook.away]
    for one in cook.batches:
        text = f"{one.operation_name} {one.food_name}"
        if one.work_start > one.start:
            blocks.append(
                LaneBlock(one.start, one.work_start, "lead", "set-up", one.number, late=False)
            )
        blocks.append(
            LaneBlock(one.work_start, one.end, "work", text, one.number, late=one.late > 0)
        )
    return Lane(cook.name, "cook", tuple(sorted(blocks, key=lambda block: block.start)))


def _equipment_lanes(batches: tuple[SheetBatch, ...]) -> tuple[Lane, ...]:
    names = dict.fromkeys(_kind(name) for one in batches for name in one.equipment)
    lanes = []
    for name in names:
        blocks: list[LaneBlock] = []
        for one in batches:
            if name not in map(_kind, one.equipment) or one.part == "check":
                continue
            text = f"{one.operation_name} {one.food_name}"
            blocks.append(LaneBlock(one.start, one.end, "work", text, one.number, late=False))
            if one.unattended_until:
                blocks.append(
                    LaneBlock(
                        one.end, one.unattended_until, "unattended", text, one.number, late=False
                    )
                )
        lanes.append(Lane(name, "equipment", tuple(blocks)))
    return tuple(lanes)


def _kind(equipment: str) -> str:
    return equipment.rsplit(" x ", maxsplit=1)[-1]


def one_cook_sheet() -> KitchenSheet:
    """The least there can be: one cook, one batch, no trouble, nothing pulled."""
    sheet = example_sheet()
    cook = sheet.cooks[0]
    cook = replace(cook, batches=cook.batches[:1], pulls=(), away=(), set_up=(), finish=None)
    return replace(
        sheet,
        services=(),
        cooks=(cook,),
        lanes=(),
        pulls=(),
        alerts=(),
        troubles=(),
        remedies=(),
        ahead=(),
        labor=(),
        objective=(),
        saved_minutes=0,
        dish_by_dish_minutes=0,
        date=dt.date(2027, 1, 1),
    )
