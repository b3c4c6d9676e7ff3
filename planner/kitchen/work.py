"""How work is done and by whom: operations, stations, equipment, cooks."""

import datetime as dt
from enum import StrEnum

from pydantic import Field

from planner.kitchen.base import (
    STARTING_GUESS,
    Amount,
    ClockTime,
    FileModel,
    Id,
    Minutes,
    Name,
    Source,
    WholeMinutes,
)
from planner.kitchen.foods import FoodRate, FoodYield


class Per(StrEnum):
    """What a rate is counted by."""

    KG = "kg"
    LITRE = "l"
    EACH = "each"
    LOT = "lot"


class Caution(StrEnum):
    """Hazards the sheet warns of."""

    KNIFE = "knife"
    MACHINE = "machine"
    HOT_FAT = "hot fat"
    STEAM = "steam"
    HOT_SURFACE = "hot surface"
    LIFTING = "lifting"


class EquipmentUse(FileModel):
    """Equipment an operation holds from its start until it is taken off."""

    equipment: Id = Field(description="A kind of equipment.")
    holds: Amount | None = Field(
        default=None,
        description="What one unit takes of this work: '2.5 kg' a rack. Bounds the lot. "
        "Default: the equipment's own.",
    )
    max_units: int = Field(default=1, ge=1, le=100, description="Most units one lot spreads over.")


class Operation(FileModel):
    """One movement or process: peel, dice, simmer."""

    id: Id
    name: Name = Field(description="The verb on the sheet: Peel, Dice, Simmer.")
    station: Id = Field(description="The station it is done at.")
    skill: Id = Field(description="The skill a cook must have; also the key of the cook's pace.")
    set_up_minutes: WholeMinutes = Field(default=0, description="Once per batch.")
    each_lot_minutes: Minutes = Field(default=0.0, description="Hands-on, once per lot.")
    minutes_per: Minutes = Field(default=0.0, description="Hands-on per unit of ``per``.")
    per: Per = Field(default=Per.KG, description="What ``minutes_per`` counts: what goes in.")
    rate_source: Source = STARTING_GUESS
    rates: tuple[FoodRate, ...] = Field(
        default=(), description="Foods that take longer or shorter than ``minutes_per``."
    )
    yields: tuple[FoodYield, ...] = Field(
        default=(), description="Foods that lose or gain by it; others keep their mass."
    )
    equipment: tuple[EquipmentUse, ...] = Field(default=(), description="What it occupies.")
    unattended_minutes: WholeMinutes = Field(default=0, description="After the hands-on start.")
    finish_minutes: WholeMinutes = Field(default=0, description="Hands-on at the end: take out.")
    finish_within_minutes: WholeMinutes | None = Field(
        default=None, description="Taken out within so long of being done; default: any time."
    )
    check_every_minutes: WholeMinutes | None = Field(
        default=None, ge=5, description="Looked at so often while unattended; default: never."
    )
    check_minutes: WholeMinutes = Field(default=1, description="Hands-on per check.")
    lot_limit: Amount | None = Field(default=None, description="Largest lot, whatever the vessel.")
    cooks_through: bool = Field(default=False, description="A kill step: raw animal food is safe.")
    cautions: frozenset[Caution] = Field(
        default=frozenset(), description="Hazards the sheet warns of."
    )
    guidance: str = Field(default="", description="One line for the sheet.")
    pausable: bool = Field(
        default=False,
        description="Its hands-on work may be put down over a break and taken up again, "
        "but not on food that needs temperature control.",
    )


class Station(FileModel):
    """A place to work, with room for so many at once."""

    id: Id
    name: Name
    places: int = Field(ge=1, le=100, description="Cooks or boards at once.")
    food_contact: bool = Field(
        default=True, description="Each place is a surface that keeps its hygiene state."
    )


class Equipment(FileModel):
    """Vessels and machines, counted."""

    id: Id
    name: Name
    count: int = Field(ge=1, le=1000, description="How many there are.")
    holds: Amount | None = Field(default=None, description="What one unit takes.")
    food_contact: bool = Field(
        default=False, description="Cleaned between foods as a board is: a blender, a slicer."
    )


class Break(FileModel):
    """A rest: at a fixed time, or when the plan has it within a window."""

    start: ClockTime
    latest: ClockTime | None = Field(
        default=None,
        description="May start as late as this, where that suits the work; default: fixed at "
        "``start``.",
    )
    minutes: int = Field(ge=5, le=180, description="How long it is.")


class OnLine(FileModel):
    """A service block: the cook is on the line, not at prep."""

    start: ClockTime
    end: ClockTime


class Shift(FileModel):
    """When a cook is in. Without ``date`` it holds for every day that has no shift of its own."""

    date: dt.date | None = Field(
        default=None, description="The day; default: every day without one of its own."
    )
    start: ClockTime
    end: ClockTime
    flexible: bool = Field(
        default=False, description="May start later or leave earlier; paid from first to last."
    )
    min_paid_minutes: WholeMinutes = Field(
        default=0, description="Paid at least, where the shift is flexible."
    )
    overtime_minutes: WholeMinutes = Field(
        default=60, description="Most that law and contract allow after the end."
    )
    breaks: tuple[Break, ...] = Field(
        default=(), description="Default: as many as the kitchen's rest rules ask for."
    )
    on_line: tuple[OnLine, ...] = ()


class Skill(FileModel):
    """A skill and the pace at it."""

    skill: Id = Field(description="As operations name it; a skill is on no list of its own.")
    pace: float = Field(default=1.0, ge=0.2, le=3.0, description="1 = book rate; 1.2 is faster.")


class Cook(FileModel):
    """A person who preps."""

    id: Id
    name: Name
    initials: str = Field(min_length=1, max_length=4, description="On labels.")
    wage_per_hour: float = Field(default=0.0, ge=0, le=1000, description="Money per hour.")
    skills: tuple[Skill, ...] = Field(min_length=1)
    stations: tuple[Id, ...] | None = Field(default=None, description="Default: all.")
    learns_from: Id | None = Field(
        default=None,
        description="A trainee works beside this cook, on that cook's batches, and has none alone.",
    )
    pair_pace: float = Field(
        default=1.1,
        ge=0.2,
        le=3.0,
        description="Of a trainee: pace of the two together / pace of the other cook alone.",
    )
    shifts: tuple[Shift, ...] = Field(min_length=1)
    days_off: tuple[dt.date, ...] = Field(
        default=(), description="Dates on which the cook is out, whatever the shifts say."
    )


class RestRule(FileModel):
    """How long a cook may work without a rest. The local law governs."""

    after_hours: float = Field(
        ge=1, le=24, description="A rest starts so many hours after the shift or the last one."
    )
    minutes: int = Field(ge=5, le=180, description="A rest that counts is at least so long.")


class Walk(FileModel):
    """What it takes from one station to another, either way, where that is not as usual."""

    station: Id = Field(description="A station.")
    other: Id = Field(description="Another one.")
    minutes: WholeMinutes = Field(description="There, with what is carried; 0 for neighbours.")


class Changeovers(FileModel):
    """Minutes lost between two batches of one cook, by what changes."""

    another_food: WholeMinutes = Field(default=1, description="Another food at the same operation.")
    another_operation: WholeMinutes = Field(
        default=2, description="Another operation at the same station."
    )
    another_station: WholeMinutes = Field(default=3, description="Another station.")
    walks: tuple[Walk, ...] = Field(
        default=(), description="Pairs of stations that are nearer or farther than most."
    )
    hand_wash: WholeMinutes = Field(default=1, description="On leaving raw food or an allergen.")
    clean: WholeMinutes = Field(default=5, description="Clean and sanitise a surface or tool.")
