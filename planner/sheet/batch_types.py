"""What the pages show of one batch, as values: no markup, no units chosen, no language.

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
    item: str = ""
    """Id of the by-product; empty: waste."""


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
class HeldByHand:
    """What of a batch people hold where it is."""

    cook: bool
    """Whether it is to stay with its cook."""
    begin: int | None
    """When its work is to begin, or None."""
    exactly: bool
    """Whether at that minute; else not before it."""


@dataclass(frozen=True, slots=True)
class DishShare:
    """The part of a batch that one dish at one service takes."""

    dish: str
    """Name of the dish; empty: the kitchen's own stock."""
    shown: str
    """The dish with its service, as in the batch's ``dishes``."""
    grams: float
    """Grams that come out for it."""


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
class OwnFigure:
    """A yield of the kitchen's own that quantities of the batch were worked out with."""

    usual: float
    """The usual figure, mass out / mass in."""
    own: float
    """The kitchen's own, as it is expected."""
    used: float
    """What was worked with: less than expected where the kitchen is cautious."""
    tests: int
    """Tests it was learned from; 0: entered by hand."""


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
    held: HeldByHand | None = None
    """What of it is held by hand, of any of its lots; None: nothing."""
    yields: tuple[OwnFigure, ...] = ()
    """The kitchen's own yields it was worked out with; empty: the usual ones."""
    dish_shares: tuple[DishShare, ...] = ()
    """What each dish takes of it; empty on sheets of before that was kept."""
