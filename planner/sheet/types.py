"""What the pages show, as values: no markup, no units chosen, no language.

Masses in grams, times in minutes after midnight of the planned day.
"""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SheetCut:
    """A named cut."""

    name: str
    """Name of the cut."""
    inches: tuple[float, ...]
    """Nominal sides, inches; empty: not squared."""
    note: str
    """One line on how it is cut, or empty."""


@dataclass(frozen=True, slots=True)
class ContainerLabel:
    """What the container's label says."""

    component: str
    """Name of the food."""
    made: dt.date
    """Day of preparation."""
    use_by: dt.date
    """Last day of use; the day of preparation is day 1."""
    allergens: tuple[str, ...]
    """Names of the allergens it contains."""
    initials: str
    """Initials of the cook who makes it."""
    container: str | None
    """Kind of container, where the kitchen names one."""
    containers: int | None
    """How many of them it fills."""
    storage: str
    """Where it is kept: cold, hot, ambient, frozen."""


@dataclass(frozen=True, slots=True)
class Trimming:
    """Where trim goes: to a by-product's container, or to waste; what mixing leaves in the bowl."""

    to: str | None
    """Name of the by-product; None: waste."""
    grams: float
    """Grams of trim."""
    in_bowl: bool = False
    """Whether it is no trim: what several foods that are mixed leave in bowl or blender."""


@dataclass(frozen=True, slots=True)
class Taking:
    """What a batch starts from: pulled food, another batch's output, prepared stock."""

    name: str
    """Name of the food; another batch's output with its number, stock with its use-by."""
    grams: float
    """Grams taken."""
    pieces: float | None
    """The same in pieces, where it is counted."""
    piece: str | None
    """What a piece is called: each, bunch."""
    kind: str
    """``pull``, ``batch`` or ``stock``."""


@dataclass(frozen=True, slots=True)
class BatchOutput:
    """What a batch gives one component at one cut, with the label of its container."""

    component: str
    """Id of the component."""
    name: str
    """Name of the component."""
    grams: float
    """Grams given."""
    pieces: float | None
    """The same in pieces, where it is counted."""
    piece: str | None
    """What a piece is called."""
    cut: SheetCut | None
    """How it is cut, where it is."""
    label: ContainerLabel | None
    """None where the food is only part-way on its route and goes on today."""


@dataclass(frozen=True, slots=True)
class SheetTask:
    """One hands-on stretch inside a batch."""

    task: int
    """Index of the task in the timetable."""
    lot: str
    """Id of the lot it works on."""
    part: str
    """work, check or finish."""
    start: int
    """When the hands-on work begins."""
    end: int
    """When it ends."""
    grams_in: float
    """Grams that go into the whole lot."""
    grams_out: float
    """Grams that come out of it."""
    due: int | None = None
    """When the food of the lot must be ready, unattended minutes included."""
    id: str = ""
    """Id of the task, by which the floor speaks of it; empty on sheets of before there was one."""
    unattended: int = 0
    """Minutes that the lot then runs by itself, of its work."""


@dataclass(frozen=True, slots=True)
class SheetBatch:
    """A run of lots of one family by one cook, up to a break, the line or an idle stretch.

    Every part of a lot (work, check, finish) shows what the whole lot takes in and gives.
    """

    number: int
    """Number on the cook's sheet, from 1."""
    cook: str
    """Id of the cook."""
    cook_name: str
    """Name of the cook."""
    part: str
    """work, check or finish."""
    operation: str
    """Id of the operation."""
    operation_name: str
    """The verb on the sheet."""
    food_name: str
    """Name of the food that is worked on; after its first step, of the one component it is for."""
    components: tuple[str, ...]
    """Names of the components it is for."""
    station: str
    """Name of the station."""
    equipment: tuple[str, ...]
    """What it occupies: one unit as ``Blender 2``, several as ``3 x Oven tray``."""
    place: str
    """Which of the station's places, where they are told apart; else empty."""
    start: int
    """When the batch begins, lead included."""
    work_start: int
    """When the food is first touched."""
    end: int
    """When the hands-on work ends."""
    set_up: int
    """Minutes of setting up, in the lead."""
    changeover: int
    """Minutes of changing over, in the lead."""
    hand_wash: int
    """Minutes of hand-washing, in the lead."""
    clean: int
    """Minutes of cleaning, in the lead."""
    hands_on: int
    """Hands-on minutes, without the lead."""
    grams_in: float
    """Grams that go in."""
    grams_out: float
    """Grams that come out."""
    pieces_out: float | None
    """Pieces that come out, where they are the same for the whole batch."""
    piece_out: str | None
    """What a piece is called."""
    cut: SheetCut | None
    """How it is cut, where that is the same for the whole batch."""
    temperature_c: float | None
    """Temperature to hit, degrees Celsius."""
    unattended: int
    """Most minutes that one of its lots then runs by itself."""
    unattended_until: int | None
    """When the last lot of the batch is done by itself, where it runs unattended."""
    takings: tuple[Taking, ...]
    """What it starts from."""
    trimmings: tuple[Trimming, ...]
    """Where its trim goes."""
    label: ContainerLabel | None
    """The first of the outputs' labels."""
    dishes: tuple[str, ...]
    """Dishes it is for, each with its service."""
    due: int | None
    """When the food must be ready, unattended minutes included, whatever part this is."""
    late: int
    """Most minutes that a part of it ends after its own due time; 0: on time."""
    cautions: tuple[str, ...]
    """Hazards of the work, in words."""
    allergens: tuple[str, ...]
    """Names of the allergens in it."""
    guidance: str
    """One line on how it is done, or empty."""
    notes: tuple[str, ...]
    """What else to know."""
    tasks: tuple[SheetTask, ...]
    """Its hands-on stretches in order."""
    outputs: tuple[BatchOutput, ...] = ()
    """What goes to which component at which cut."""
    goes_on: bool = False
    """Whether it goes on with the cook's batch before a break, the line or a stretch without work,
    with no set-up."""


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
    short_portions: int = 0
    """Portions short as guests count them: unweighted, each dish and service once."""
    straight: tuple[StraightItem, ...] = ()
    """What dishes take off the shelf as it is, for the portions that are served."""
    left_out: tuple[LeftOutItem, ...] = ()
    """What is wanted and not pulled."""
