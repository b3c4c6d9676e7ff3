"""Lots: the smallest units the solver places, with what people need to know of them."""

from dataclasses import dataclass
from enum import StrEnum

from planner.lots.batching import BY_THE_RULE, Batching, StageLots
from planner.schedule.problem import Problem


class Part(StrEnum):
    """What a task of a lot is."""

    WORK = "work"
    CHECK = "check"
    FINISH = "finish"


@dataclass(frozen=True, slots=True)
class LotTask:
    """The hands-on task at ``task`` in the problem: its part of the lot and unpaced minutes."""

    task: int
    part: Part
    book_minutes: float


@dataclass(frozen=True, slots=True)
class LotShare:
    """Grams going out of a lot into one component (several where early work is pooled)."""

    component: str
    grams: float


@dataclass(frozen=True, slots=True)
class Lot:
    """One operation on one share of food, no larger than its vessel or half an hour of hands.

    ``food`` is what it is done on (ingredient or component id), ``component`` the first component
    it is for, ``step`` the index on that component's route. ``grams_in`` and ``grams_out`` follow
    the step's yield. ``unattended`` is the minutes between hands-on start and finish; ``tail`` says
    that nobody takes it out on this day. ``upstream`` are (lot index, grams) it takes from other
    lots; ``pulls`` are (ingredient, AP grams) it takes from the shelf; ``stock`` part-made or
    prepared stock (item, grams).
    """

    index: int
    id: str
    operation: str
    food: str
    component: str
    step: int
    cut: str | None
    grams_in: float
    grams_out: float
    shares: tuple[LotShare, ...]
    tasks: tuple[LotTask, ...]
    unattended: int
    due: int
    until: int
    release: int
    finishes: bool
    upstream: tuple[tuple[int, float], ...] = ()
    pulls: tuple[tuple[str, float], ...] = ()
    stock: tuple[tuple[str, float], ...] = ()
    trim: tuple[tuple[str, float], ...] = ()
    """(by-product item, grams); what is not listed of the loss is waste."""
    dishes: tuple[tuple[str, str, int], ...] = ()
    """(service, dish, portions) that go short without it."""
    dish_grams: tuple[tuple[str, str, float], ...] = ()
    """(service, dish, grams) of what comes out that is for it; the rest is for no dish."""
    allergens: frozenset[str] = frozenset()
    missed: bool = False


@dataclass(frozen=True, slots=True)
class Workload:
    """The lots of a day and the scheduling problem they make."""

    lots: tuple[Lot, ...]
    problem: Problem
    cooks: tuple[str, ...]
    """Cook ids by worker index."""
    stages: tuple[StageLots, ...] = ()
    """The lots by stage: what could be batched otherwise."""
    batching: Batching = BY_THE_RULE
    """How it is batched where not by the rule."""
