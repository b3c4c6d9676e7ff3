"""What the pages show, as values: no markup, no units chosen, no language.

Masses in grams, times in minutes after midnight of the planned day.
"""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SheetCut:
    """A named cut with its nominal sides in inches (empty: not squared)."""

    name: str
    inches: tuple[float, ...]
    note: str


@dataclass(frozen=True, slots=True)
class ContainerLabel:
    """What the container's label says. ``use_by`` counts the day of preparation as day 1."""

    component: str
    made: dt.date
    use_by: dt.date
    allergens: tuple[str, ...]
    initials: str
    container: str | None
    containers: int | None
    storage: str


@dataclass(frozen=True, slots=True)
class Trimming:
    """Where trim goes: to a by-product's container, or to waste (``to`` is None)."""

    to: str | None
    grams: float


@dataclass(frozen=True, slots=True)
class Taking:
    """What a batch starts from: pulled food, another batch's output, prepared stock."""

    name: str
    grams: float
    pieces: float | None
    piece: str | None
    kind: str
    """``pull``, ``batch`` or ``stock``."""


@dataclass(frozen=True, slots=True)
class BatchOutput:
    """What a batch gives one component at one cut, with the label of its container.

    ``label`` is None where the food is only part-way on its route and goes on today.
    """

    component: str
    name: str
    grams: float
    pieces: float | None
    piece: str | None
    cut: SheetCut | None
    label: ContainerLabel | None


@dataclass(frozen=True, slots=True)
class SheetTask:
    """One hands-on stretch inside a batch. ``part`` is work, check or finish."""

    task: int
    lot: str
    part: str
    start: int
    end: int
    grams_in: float
    grams_out: float


@dataclass(frozen=True, slots=True)
class SheetBatch:
    """A run of lots of one family by one cook, as one line of the sheet.

    ``start`` includes the lead (set-up, changeover, hand-wash, clean minutes are given apart);
    ``work_start`` is when the food is first touched. ``unattended_until`` is when the last lot of
    the batch is done by itself, where it runs unattended. ``outputs`` says what goes to which
    component at which cut; ``cut`` and ``pieces_out`` are set where they are the same for the
    whole batch, and ``label`` is the first of the outputs' labels. ``due`` is when the food must
    be ready, unattended minutes included, whichever part of its work this is. Every part of a lot
    (work, check, finish) shows what the whole lot takes in and gives.
    """

    number: int
    cook: str
    cook_name: str
    part: str
    operation: str
    operation_name: str
    food_name: str
    components: tuple[str, ...]
    station: str
    equipment: tuple[str, ...]
    place: str
    start: int
    work_start: int
    end: int
    set_up: int
    changeover: int
    hand_wash: int
    clean: int
    hands_on: int
    grams_in: float
    grams_out: float
    pieces_out: float | None
    piece_out: str | None
    cut: SheetCut | None
    temperature_c: float | None
    unattended: int
    unattended_until: int | None
    takings: tuple[Taking, ...]
    trimmings: tuple[Trimming, ...]
    label: ContainerLabel | None
    dishes: tuple[str, ...]
    due: int | None
    late: int
    cautions: tuple[str, ...]
    allergens: tuple[str, ...]
    guidance: str
    notes: tuple[str, ...]
    tasks: tuple[SheetTask, ...]
    outputs: tuple[BatchOutput, ...] = ()


@dataclass(frozen=True, slots=True)
class Away:
    """A stretch in which a cook does not prep: a break, the line, station set-up."""

    kind: str
    """``break``, ``on the line`` or ``station set-up``."""
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class PullItem:
    """One line of a pull list."""

    ingredient: str
    name: str
    grams: float
    units: float
    unit: str
    packs: float
    pack: str
    left_over: float
    storage: str
    note: str
    """A delivery time or a shortage, or empty."""


@dataclass(frozen=True, slots=True)
class CookSheet:
    """One cook's morning."""

    cook: str
    name: str
    initials: str
    shift_start: int
    shift_end: int
    away: tuple[Away, ...]
    set_up: tuple[str, ...]
    pulls: tuple[PullItem, ...]
    batches: tuple[SheetBatch, ...]
    hands_on: int
    changeover: int
    finish: int | None


@dataclass(frozen=True, slots=True)
class LaneBlock:
    """A coloured-or-hatched stretch on the wall chart's lane of a cook or of equipment.

    ``kind`` is ``lead``, ``work``, ``unattended``, ``break``, ``on the line``, ``station set-up``.
    """

    start: int
    end: int
    kind: str
    text: str
    batch: int | None
    late: bool


@dataclass(frozen=True, slots=True)
class Lane:
    """One row of the wall chart."""

    title: str
    kind: str
    """``cook`` or ``equipment``."""
    blocks: tuple[LaneBlock, ...]


@dataclass(frozen=True, slots=True)
class ServiceLine:
    """A service on the sheet's head: expected, buffer and total portions apart."""

    service: str
    name: str
    date: dt.date
    doors: int
    due: int
    covers: int
    dishes: tuple[tuple[str, float, int, int], ...]
    """(dish, expected, buffer, total)."""


@dataclass(frozen=True, slots=True)
class Objective:
    """One objective term for people: value, bound, what it means."""

    term: str
    value: int
    bound: int
    proven: bool
    gap: float
    relaxation: str


@dataclass(frozen=True, slots=True)
class KitchenSheet:
    """The whole morning, ready for the wall."""

    kitchen: str
    date: dt.date
    services: tuple[ServiceLine, ...]
    cooks: tuple[CookSheet, ...]
    lanes: tuple[Lane, ...]
    pulls: tuple[PullItem, ...]
    alerts: tuple[str, ...]
    troubles: tuple[str, ...]
    remedies: tuple[str, ...]
    ahead: tuple[str, ...]
    start: int
    end: int
    labor_minutes: int
    saved_minutes: int
    dish_by_dish_minutes: int
    labor: tuple[tuple[str, int, int, int, int, int, float], ...]
    """(cook, hands-on, set-up, changeover, waiting, paid minutes, wages)."""
    currency: str
    objective: tuple[Objective, ...]
    status: str
    comparable: bool = True
    """False: food is short, so the minutes saved compare unequal work."""
    short_portions: int = 0
    """Portions that cannot be made, each dish counted once."""
