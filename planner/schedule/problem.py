"""The scheduling problem, as passive values. Times are whole minutes after midnight of the day.

Everything the solver, the constructive rules and the checker know stands here; indexes point into
the tuples of ``Problem``. The same types hold a kitchen's morning and a published job shop.
"""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Hygiene:
    """What a batch leaves on a surface.

    ``raw_animal`` is the species of raw animal food, or None; ``allergens`` are those present.
    """

    raw_animal: str | None = None
    allergens: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Family:
    """Tasks done in one run without a changeover: one movement on one food at one station."""

    operation: str
    food: str
    station: str
    hygiene: Hygiene
    set_up: int
    """Minutes, charged once where a cook opens a batch of this family."""


@dataclass(frozen=True, slots=True)
class Walk:
    """Minutes between two stations, either way."""

    station: str
    other: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Changeovers:
    """Minutes between two batches of one cook, by what changes; ``clean`` is per surface.

    ``walks`` are pairs of stations with minutes of their own in place of ``another_station``.
    After ``clean_every`` minutes of use a surface is cleaned (None: only when food asks for it).
    """

    another_food: int = 0
    another_operation: int = 0
    another_station: int = 0
    hand_wash: int = 0
    clean: int = 0
    walks: tuple[Walk, ...] = ()
    clean_every: int | None = None


@dataclass(frozen=True, slots=True)
class Rest:
    """A break of so many ``minutes`` that starts within ``earliest`` to ``latest``."""

    minutes: int
    earliest: int
    latest: int

    @property
    def movable(self) -> bool:
        """Whether the plan says when it is."""
        return self.earliest < self.latest


@dataclass(frozen=True, slots=True)
class Worker:
    """A cook on this day.

    ``blocked`` are the station set-up and service blocks, half-open [start, end); ``rests`` the
    breaks. Work may run past ``end`` up to ``latest_end`` as overtime. ``flexible``: paid from
    first to last minute of work, at least ``min_paid``; else the whole shift is paid.
    """

    id: str
    start: int
    end: int
    latest_end: int
    blocked: tuple[tuple[int, int], ...] = ()
    wage_per_hour: float = 0.0
    flexible: bool = False
    min_paid: int = 0
    rests: tuple[Rest, ...] = ()


@dataclass(frozen=True, slots=True)
class Resource:
    """A station's places or a kind of equipment.

    Where ``contact`` holds, each unit keeps its own hygiene state and a hold names its unit.
    """

    id: str
    capacity: int
    contact: bool = False


@dataclass(frozen=True, slots=True)
class Task:
    """Attended work by one cook, without interruption unless it is ``pausable``.

    Attributes
    ----------
    minutes
        Whole minutes by worker index; a worker not in it cannot do the task.
    release
        Earliest start.
    start_by
        Latest start, or None: where people hold it at a time.
    earliest_end
        Freshness: finished no earlier than this, or None.
    due, until
        Late after ``due`` (``due_weight`` a minute); must not end after ``until``: then the lot is
        short instead. None: nothing is due.
    fresh_weight
        Cost of each minute between its end and ``due``.
    pausable
        It may be put down over a rest of its cook and taken up again: it begins before the rest
        and ends after it, and takes so much longer.
    """

    id: str
    lot: int
    family: int
    minutes: dict[int, int]
    release: int
    earliest_end: int | None = None
    due: int | None = None
    due_weight: int = 1
    until: int | None = None
    fresh_weight: int = 0
    pausable: bool = False
    start_by: int | None = None


@dataclass(frozen=True, slots=True)
class Wait:
    """``minimum <= start[after] - end[before] <= maximum`` (None: no limit)."""

    before: int
    after: int
    minimum: int = 0
    maximum: int | None = None


@dataclass(frozen=True, slots=True)
class Hold:
    """``units`` of a resource held from the lead of ``first`` to the end of ``last`` + ``tail``.

    A hold on a ``contact`` resource has one unit, named in the timetable, and takes the hygiene
    class of ``first``'s family. With ``since`` the unit has been in use since that minute, before
    the day's plan, and has not been cleaned.
    """

    resource: int
    first: int
    last: int
    units: int = 1
    tail: int = 0
    since: int | None = None


@dataclass(frozen=True, slots=True)
class Exposure:
    """Minutes out of temperature control, from the start of ``first`` to the end of ``last``.

    Added up they are at most ``limit``: its own, and the most of ``spent`` (known beforehand) and
    of the sums of those exposures in ``after`` (indexes below its own) whose tasks are done. With
    ``since`` they count from that minute, for food that is out already.
    """

    first: int
    last: int
    limit: int
    after: tuple[int, ...] = ()
    spent: int = 0
    since: int | None = None


@dataclass(frozen=True, slots=True)
class Promise:
    """Portions of a dish at a service (or a par) that lots serve."""

    id: str
    portions: int
    weight: int = 1


@dataclass(frozen=True, slots=True)
class Serving:
    """``portions`` of ``promise`` that want this lot's share of ``component``."""

    promise: int
    component: str
    portions: int


@dataclass(frozen=True, slots=True)
class Job:
    """The tasks of one lot: all done or none.

    ``needs`` are lots that must be made if this one is. What ``serves`` names goes short if it is
    not made; a promise is as short as its shortest component. ``impossible`` says why a lot cannot
    be made at all (raw stock missing), or is empty.
    """

    id: str
    tasks: tuple[int, ...]
    needs: tuple[int, ...] = ()
    serves: tuple[Serving, ...] = ()
    impossible: str = ""


@dataclass(frozen=True, slots=True)
class Problem:
    """One day to schedule, between ``start`` and ``horizon`` (minutes)."""

    start: int
    horizon: int
    workers: tuple[Worker, ...]
    resources: tuple[Resource, ...]
    families: tuple[Family, ...]
    tasks: tuple[Task, ...]
    jobs: tuple[Job, ...]
    waits: tuple[Wait, ...] = ()
    holds: tuple[Hold, ...] = ()
    promises: tuple[Promise, ...] = ()
    changeovers: Changeovers = field(default_factory=Changeovers)
    exposures: tuple[Exposure, ...] = ()
