"""What the pages show of a morning, as values: no markup, no units chosen, no language.

Of a batch: ``planner/sheet/batch_types.py``.

Masses in grams, times in minutes after midnight of the planned day.
"""

import datetime as dt
from dataclasses import dataclass

from planner.money.types import DayCosts
from planner.rates.types import ServiceChance
from planner.sheet.batch_types import SheetBatch


@dataclass(frozen=True, slots=True)
class Away:
    """A stretch in which a cook does not prep: a break, the line, station set-up."""

    kind: str
    """``break``, ``on the line`` or ``station set-up``."""
    start: int
    """When it begins."""
    end: int
    """When it ends."""


@dataclass(frozen=True, slots=True)
class PullItem:
    """One line of a pull list."""

    ingredient: str
    """Id of the ingredient."""
    name: str
    """Name of the ingredient."""
    grams: float
    """Grams to pull, as purchased."""
    units: float
    """The same in the units it is pulled by."""
    unit: str
    """What such a unit is called."""
    packs: float
    """The same in packs as they are bought."""
    pack: str
    """What a pack is called."""
    left_over: float
    """Grams pulled that the plan does not use."""
    storage: str
    """Where it is pulled from."""
    note: str
    """A delivery time or a shortage, or empty."""
    uses: tuple[tuple[int, float], ...] = ()
    """(minute a batch or the line first needs it, grams), of food that must wait in the cold."""
    raw_animal: bool = False
    """Whether it is raw animal food, to be kept apart from food that is eaten as it is."""


@dataclass(frozen=True, slots=True)
class StraightItem:
    """Food that a dish takes off the shelf as it is: purchased, or prepared and finished before."""

    item: str
    """Id of the ingredient or component."""
    name: str
    """Its name."""
    grams: float
    """Grams that the dish takes: as purchased of an ingredient, finished of a component."""
    pieces: float | None
    """The same in pieces, where it is counted."""
    piece: str | None
    """What a piece is called."""
    dish: str
    """The dish with its service."""
    due: int
    """When it must be on the line."""
    storage: str
    """Where it is pulled from."""
    keeps_cold: bool
    """Whether it must wait in the cold."""
    prepared: bool = False
    """Whether it is prepared stock rather than food as purchased."""
    use_by: dt.date | None = None
    """Earliest use-by of prepared stock."""


@dataclass(frozen=True, slots=True)
class LeftOutItem:
    """Food that is wanted and not pulled: what it is for is not made or not served."""

    item: str
    """Id of the ingredient or component."""
    name: str
    """Its name."""
    grams: float
    """Grams that would have been taken: as purchased of an ingredient, finished of a component."""
    pieces: float | None
    """The same in pieces, where it is counted."""
    piece: str | None
    """What a piece is called."""
    wanted_for: tuple[str, ...]
    """Dishes with their services, or the kitchen's own component, that go without."""
    prepared: bool = False
    """Whether it is prepared stock rather than food as purchased."""


@dataclass(frozen=True, slots=True)
class CookSheet:
    """One cook's morning."""

    cook: str
    """Id of the cook."""
    name: str
    """Name of the cook."""
    initials: str
    """Initials for labels."""
    shift_start: int
    """When the shift begins."""
    shift_end: int
    """When it ends, without overtime."""
    away: tuple[Away, ...]
    """When the cook does not prep."""
    set_up: tuple[str, ...]
    """What to set up first, in words."""
    pulls: tuple[PullItem, ...]
    """What this cook pulls."""
    batches: tuple[SheetBatch, ...]
    """The work, in order."""
    hands_on: int
    """Hands-on minutes of all batches."""
    changeover: int
    """Minutes of all leads: set-up, changeover, hand-wash, clean."""
    finish: int | None
    """When the last batch ends; None: no batches."""
    beside: str = ""
    """Name of the trainee who works beside them; empty: nobody."""


@dataclass(frozen=True, slots=True)
class LaneBlock:
    """A coloured-or-hatched stretch on the wall chart's lane of a cook or of equipment."""

    start: int
    """When it begins."""
    end: int
    """When it ends."""
    kind: str
    """lead, work, unattended, break, on the line or station set-up."""
    text: str
    """What stands on it."""
    batch: int | None
    """Number of the batch, where it is one."""
    late: bool
    """Whether the batch is late."""


@dataclass(frozen=True, slots=True)
class Lane:
    """One row of the wall chart."""

    title: str
    """Name of the cook or the equipment."""
    kind: str
    """``cook`` or ``equipment``."""
    blocks: tuple[LaneBlock, ...]
    """Stretches in order."""


@dataclass(frozen=True, slots=True)
class ServiceLine:
    """A service on the sheet's head: expected, buffer and total portions apart."""

    service: str
    """Id of the service."""
    name: str
    """Name of the service."""
    date: dt.date
    """Its day."""
    doors: int
    """When guests come."""
    due: int
    """When food must be ready: doors less plating set-up."""
    covers: int
    """Covers expected, or guaranteed."""
    dishes: tuple[tuple[str, float, int, int], ...]
    """(dish, expected, buffer, total)."""


@dataclass(frozen=True, slots=True)
class Objective:
    """One objective term for people: value, bound, what it means."""

    term: str
    """Name of the term."""
    value: int
    """Value of the plan."""
    bound: int
    """No plan that is as good in every earlier term has less."""
    proven: bool
    """Whether the value is the least, as far as earlier terms allow."""
    gap: float
    """(value - bound) / value; the value itself where the bound is 0."""
    relaxation: str
    """What the bound leaves out of account, in words."""


@dataclass(frozen=True, slots=True)
class KitchenSheet:
    """The whole morning, ready for the wall."""

    kitchen: str
    """Name of the kitchen."""
    date: dt.date
    """The planned day."""
    services: tuple[ServiceLine, ...]
    """Services the work is for."""
    cooks: tuple[CookSheet, ...]
    """A sheet per cook."""
    lanes: tuple[Lane, ...]
    """Rows of the wall chart."""
    pulls: tuple[PullItem, ...]
    """What the whole kitchen pulls, for what is made and served."""
    alerts: tuple[str, ...]
    """What the sous chef must know first."""
    troubles: tuple[str, ...]
    """What is short or late, and why."""
    remedies: tuple[str, ...]
    """Changes that were tried and found to help."""
    ahead: tuple[str, ...]
    """What must start today for later days."""
    start: int
    """First minute that the wall chart shows."""
    end: int
    """Last minute that the wall chart shows."""
    labor_minutes: int
    """Hands-on, set-up and changeover minutes of the plan."""
    saved_minutes: int
    """Minutes fewer than dish by dish."""
    dish_by_dish_minutes: int
    """Minutes of the same food made dish by dish."""
    labor: tuple[tuple[str, int, int, int, int, int, float], ...]
    """(cook, hands-on, set-up, changeover, waiting, paid minutes, wages)."""
    currency: str
    """ISO 4217 code of wages."""
    objective: tuple[Objective, ...]
    """Terms in their strict order."""
    status: str
    """How far the search came, in a word."""
    comparable: bool = True
    """False: food is short, so the minutes saved compare unequal work."""
    cleans: int = 0
    """Surfaces and tools cleaned and sanitised, between foods and by the clock."""
    clean_minutes: int = 0
    """Minutes of that, within changeover."""
    short_portions: int = 0
    """Portions short as guests count them: unweighted, each dish and service once."""
    straight: tuple[StraightItem, ...] = ()
    """What dishes take off the shelf as it is, for the portions that are served."""
    left_out: tuple[LeftOutItem, ...] = ()
    """What is wanted and not pulled."""
    chances: tuple[ServiceChance, ...] = ()
    """How likely each service of the day is ready on time."""
    costs: DayCosts | None = None
    """What the day's dishes and components cost; None of a sheet that was made before there was."""
