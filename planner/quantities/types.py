"""The answer to 'how much', with the trace that explains every number. Masses in grams.

Times are minutes after midnight of the planned day; a later day's run past 1440.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from planner.measures import AsPurchased


class Reason(StrEnum):
    """Why a quantity is wanted."""

    DISH = "dish"
    COMPONENT = "component"
    PAR = "par"
    BATCH = "batch"
    """Rounding up to a batch minimum or multiple."""
    DAYS = "days"
    """Made with today's batch for a later day."""


@dataclass(frozen=True, slots=True)
class Share:
    """The part of a want that one dish at one service takes: what goes short without it."""

    service: str
    dish: str
    portions: int
    grams: float


@dataclass(frozen=True, slots=True)
class Want:
    """Finished grams of a component (or AP grams of an ingredient) wanted by one consumer.

    ``expected`` and ``buffer`` add up to ``grams`` where a dish wants it; elsewhere buffer is 0,
    since the one buffer is already inside. ``due`` and ``until`` are the earliest of the
    consumer's; ``doors`` is the opening it is for. ``shares`` says which dishes go short.
    """

    reason: Reason
    consumer: str
    consumer_name: str
    grams: float
    expected: float
    buffer: float
    due: int
    until: int
    doors: int
    day: int
    """Day it is wanted, counted from the planned day (0)."""
    lateness_weight: int = 1
    shares: tuple[Share, ...] = ()


@dataclass(frozen=True, slots=True)
class StockUse:
    """Counted stock that covers part of the wants."""

    item: str
    grams: float
    use_by: str
    after_step: int | None = None
    """None: finished; else so many steps of the route were already done."""


@dataclass(frozen=True, slots=True)
class Credit:
    """A by-product that stands in for an input, in time; ``into_step`` is where that goes in."""

    by_product: str
    from_component: str
    from_step: int
    grams: float
    into_step: int = 0


@dataclass(frozen=True, slots=True)
class InputDraw:
    """Grams of one input that go in at ``step`` of the route, wanted at ``due`` (minutes).

    AP of an ingredient, finished of a component; what by-products stand in for is off already.
    """

    item: str
    grams: float
    step: int
    due: int


@dataclass(frozen=True, slots=True)
class StepNeed:
    """One step of a component's route on the planned day.

    ``grams_in`` is what the step before gives and what goes in here; out = in x fraction.
    ``from_stock`` enters after the step (part-made stock).
    """

    index: int
    operation: str
    grams_in: float
    grams_out: float
    fraction: float
    source: str
    from_stock: float = 0.0


@dataclass(frozen=True, slots=True)
class InputNeed:
    """What one component takes of one input."""

    item: str
    grams: float
    """Grams of the input (AP of an ingredient, finished of a component) after credits."""
    credits: tuple[Credit, ...] = ()
    step: int = 0
    """Index of the step it goes in at."""


@dataclass(frozen=True, slots=True)
class Making:
    """Finished grams of one want that are made on the planned day, or part-made.

    ``first_step`` to ``last_step`` (exclusive) are done on the planned day; ``finishes`` tells
    whether the last step is among them. ``due`` is the time by which ``last_step - 1`` must be
    done; ``missed`` says that an earlier day should have started it.
    """

    want: Want
    grams: float
    first_step: int
    last_step: int
    due: int
    until: int
    finishes: bool
    missed: bool = False
    starts: tuple[int, ...] = ()
    """Latest start of every step of the route, by bare minutes."""
    draws: tuple[InputDraw, ...] = ()
    """What goes in at the planned day's steps."""
    credits: tuple[Credit, ...] = ()
    """By-products that stand in for part of an input of this making."""

    @property
    def start(self) -> int:
        """Latest start of the first step of the planned day."""
        return self.starts[self.first_step] if self.starts else 0


@dataclass(frozen=True, slots=True)
class ComponentNeed:
    """All about one component on the planned day."""

    component: str
    name: str
    wants: tuple[Want, ...]
    stock: tuple[StockUse, ...]
    to_make: float
    """Finished grams made on, or started on, the planned day."""
    makings: tuple[Making, ...]
    steps: tuple[StepNeed, ...]
    inputs: tuple[InputNeed, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Supply:
    """AP grams of an ingredient that can be used from ``at`` (minutes; 0 = on hand).

    ``available`` is False for what nobody has: work on it cannot be done. Of a component that
    cannot be made, ``lacks`` names the raw food that it lacks itself.
    """

    grams: float
    at: int
    source: str
    available: bool = True
    lacks: tuple[str, ...] = ()
    late: bool = False
    """Of a component: an earlier day should have begun it."""


@dataclass(frozen=True, slots=True)
class PullLine:
    """What to take of one ingredient, in the unit it is stored or bought in.

    ``need`` is exact; ``pulled`` is rounded up to whole ``pull_unit``; ``left_over`` is the
    difference in grams. ``supplies`` come in the order they are used.
    """

    ingredient: str
    name: str
    need: AsPurchased
    pulled: AsPurchased
    units: float
    pull_unit: str
    packs: float
    pack_unit: str
    left_over: float
    cost: float
    storage: str
    on_hand: float
    supplies: tuple[Supply, ...]
    short: float
    wanted_by: tuple[tuple[str, float], ...]
    """(component, AP grams)."""
    trace: str


@dataclass(frozen=True, slots=True)
class Trace:
    """Why a number is what it is: one line, and the lines it follows from."""

    text: str
    grams: float
    sources: tuple[str, ...] = ()
    children: tuple["Trace", ...] = ()


@dataclass(frozen=True, slots=True)
class Alert:
    """Something the sous chef must know before the morning starts.

    ``kind`` is ``no service``, ``delivery``, ``missing``, ``missed start`` or ``use-by``; ``item``
    is empty for the first. ``dishes`` are (service, dish) whose own food missed its start.
    """

    kind: str
    item: str
    text: str
    holds_up: tuple[str, ...] = ()
    dishes: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Quantities:
    """Everything there is to pull and make on the planned day."""

    needs: tuple[ComponentNeed, ...]
    pulls: tuple[PullLine, ...]
    alerts: tuple[Alert, ...]
    ahead: tuple[str, ...]
    """What later days will need that does not start today."""
    by_component: dict[str, ComponentNeed] = field(default_factory=dict, compare=False)
