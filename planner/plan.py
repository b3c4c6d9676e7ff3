"""The whole answer for one morning, ready for the sheet, the file and the database."""

import datetime as dt
from dataclasses import dataclass

from planner.demand.types import DishDemand
from planner.lots.types import Workload
from planner.pins.types import Pin
from planner.quantities.types import Quantities
from planner.schedule.timetable import Solution


@dataclass(frozen=True, slots=True)
class Remedy:
    """A change that was re-planned and found to help.

    ``late_minutes``, ``short_portions`` and ``short_kilos`` (of the kitchen's own pars and batches)
    are what would be left, unweighted; the fields ``..._before`` what there is without it.
    """

    text: str
    late_minutes: int
    short_portions: int
    solves: bool
    short_kilos: int = 0
    late_minutes_before: int = 0
    short_portions_before: int = 0
    short_kilos_before: int = 0


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A component that is not made, wholly or in part, because something else is short."""

    item: str
    name: str


@dataclass(frozen=True, slots=True)
class Trouble:
    """One thing that is late or short; of a dish at a service there is one that says it is short.

    ``kind`` is ``late`` or ``short``; ``minutes`` late, or minutes missing, of what ``lacks`` says:
    ``hands`` (hands-on minutes not worked), ``route`` (so much longer than the time there is),
    ``resource`` (unit-minutes of it: one unit for a minute), ``skill`` or ``food`` (hands-on
    minutes of what could be made but for hands); ``portions`` at stake, counted in ``unit``;
    ``binding`` names what binds and how that was read from the plan.
    """

    kind: str
    item: str
    text: str
    minutes: int
    portions: int
    binding: str
    lacks: str = "hands"
    unit: str = "portions"
    """``portions``, or ``kg`` of the kitchen's own par or batch."""
    service: str = ""
    dish: str = ""
    """What is short of it; empty where it is the kitchen's own, and where it is late."""
    lacks_too: tuple[str, ...] = ()
    """Ids of what it lacks besides ``item``."""
    resource: str = ""
    """Id in the scheduling problem of the resource that binds, or empty."""
    left_out: tuple[LeftOut, ...] = ()
    """What is not made for it either, though it could be."""
    task: int | None = None
    """The latest of the tasks that are late, by its index in the problem."""


@dataclass(frozen=True, slots=True)
class CookMinutes:
    """Minutes of one cook on the planned day; ``waiting`` is idle time between first and last.

    ``set_up`` and ``changeover`` (hand-washing and cleaning included) are apart from ``hands_on``.
    ``paid`` follows the shift, or first to last work where the shift is flexible, and overtime.
    """

    cook: str
    name: str
    hands_on: int
    set_up: int
    changeover: int
    waiting: int
    breaks: int
    on_line: int
    overtime: int
    paid: int
    wages: float
    station_set_up: int = 0
    """At the start of the shift; not part of ``set_up``, which is paid per batch."""
    beside: str = ""
    """Of a trainee: id of the cook they work beside, whose minutes are those of both."""


@dataclass(frozen=True, slots=True)
class Labor:
    """Where the minutes go, and what batching saved.

    ``total`` is hands-on, set-up and changeover minutes of the plan. ``dish_by_dish`` is the same
    of the same food done one dish after the other, earliest due first, by the next free able cook:
    measured by scheduling it, with as many hours as that takes, not estimated. How late it would be
    (minutes, over all that is due) is ``dish_by_dish_late``; portions it could not make at all,
    ``dish_by_dish_short``. Where the plan itself leaves food short, the two are not of the same
    food: ``comparable`` is then False. ``cleans`` counts surfaces and tools cleaned in the day,
    in ``clean_minutes`` of the changeover.
    """

    cooks: tuple[CookMinutes, ...]
    total: int
    dish_by_dish: int
    dish_by_dish_late: int
    dish_by_dish_short: int
    comparable: bool = True
    cleans: int = 0
    clean_minutes: int = 0

    @property
    def saved(self) -> int:
        """Minutes saved against dish by dish; negative where batching cost more."""
        return self.dish_by_dish - self.total


@dataclass(frozen=True, slots=True)
class Plan:
    """One planned morning.

    ``pins`` are what people hold by hand. They are kept by the timetable and are no part of the
    workload's problem: taken off, the day is as it was.
    """

    kitchen: str
    date: dt.date
    demands: tuple[DishDemand, ...]
    quantities: Quantities
    workload: Workload
    solution: Solution
    labor: Labor
    troubles: tuple[Trouble, ...]
    remedies: tuple[Remedy, ...]
    pins: tuple[Pin, ...] = ()

    @property
    def short_portions(self) -> int:
        """Portions of guests' dishes that are short, unweighted."""
        return sum(one.portions for one in self.short if one.unit == "portions")

    @property
    def short_kilos(self) -> int:
        """Kilos of the kitchen's own pars and batches that are short."""
        return sum(one.portions for one in self.short if one.unit == "kg")

    @property
    def late(self) -> tuple[Trouble, ...]:
        """What is done after it is due."""
        return tuple(trouble for trouble in self.troubles if trouble.kind == "late")

    @property
    def short(self) -> tuple[Trouble, ...]:
        """What cannot be made."""
        return tuple(trouble for trouble in self.troubles if trouble.kind == "short")
