"""A day planned anew from where the floor stands: what is stored of it, and how it is made.

Runs in the process that plans, as `service.planning` does.
"""

from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from pydantic import ConfigDict, TypeAdapter

from planner.floor.state import floor_of
from planner.floor.ticks import Tick
from planner.kitchen.document import Kitchen
from planner.pins.types import Pin, PinError
from planner.rates.types import SkillRates
from planner.replan.events import Event
from service.planning import Made, made_of, with_chances
from service.values import PlanChoices

if TYPE_CHECKING:
    from planner.plan import Plan
    from planner.replan.course import Course
    from planner.replan.replan import Replan


@dataclass(frozen=True, slots=True)
class RestOrder:
    """What is known of a day that is to be planned anew at ``now`` (minutes).

    ``course`` is its whole day so far, JSON, where it was planned anew before; else ``document``
    is its plan file. With ``pins`` these batches are held by hand and no others; None: those that
    were.
    """

    document: str
    course: str | None
    ticks: tuple[Tick, ...]
    events: tuple[Event, ...]
    now: int
    pins: tuple[Pin, ...] | None = None


@cache
def courses() -> "TypeAdapter[Course | None]":
    """A day as it has gone so far, as JSON."""
    from planner.replan.course import Course  # noqa: PLC0415 - loads the solver

    # Of staples nobody counts there is no end: JSON has no number for that.
    return TypeAdapter(Course | None, config=ConfigDict(ser_json_inf_nan="constants"))


@cache
def event_texts() -> TypeAdapter[tuple[Event, ...]]:
    """What has happened, as JSON."""
    return TypeAdapter(tuple[Event, ...])


def make_rest(
    kitchen: Kitchen,
    rest: RestOrder,
    choices: PlanChoices,
    learned: tuple[SkillRates, ...] = (),
) -> Made:
    """Plan the rest of a day; with no seconds, the first repaired plan.

    ``learned`` is what ticks have taught of rates: how sure the day's services are follows from it.

    Raises
    ------
    ValueError
        An event names what the kitchen or the plan does not have; says what it may name.
    """
    from planner.plan_file.reading import read_plan  # noqa: PLC0415 - loads the solver
    from planner.replan.course import course_of  # noqa: PLC0415
    from planner.replan.from_floor import progress_of_floor  # noqa: PLC0415
    from planner.replan.moved import moved  # noqa: PLC0415
    from planner.replan.replan import replan  # noqa: PLC0415
    from planner.replan.under_way import under_way_of  # noqa: PLC0415
    from planner.schedule.search import SearchOptions  # noqa: PLC0415

    options = SearchOptions(
        choices.seconds, choices.deterministic_limit, choices.seed, choices.workers
    )
    course = None if rest.course is None else courses().validate_json(rest.course)
    if course is None:
        plan = read_plan(kitchen, rest.document.encode())
        if rest.pins is not None and not rest.ticks and rest.now <= plan.workload.problem.start:
            whole = made_of(kitchen, moved(kitchen, plan, rest.pins, options))
            return with_chances(kitchen, whole, learned)
        course = course_of(kitchen, plan)
    told = progress_of_floor(course, floor_of(rest.ticks), rest.now)
    found = replan(kitchen, course, rest.now, rest.events, options, progress=told, pins=rest.pins)
    made = made_of(found.course.counted, _whole(found))
    made = with_chances(found.course.counted, made, learned, under_way_of(found))
    course_text = courses().dump_json(found.course).decode()
    return replace(made, texts=replace(made.texts, course=course_text, told=found.notes))


def _whole(found: "Replan") -> "Plan":
    """The whole day as a plan: what has begun as it was, the rest as it is planned now."""
    from planner.labor.minutes import cook_minutes  # noqa: PLC0415
    from planner.plan import Labor  # noqa: PLC0415
    from planner.quantities.compute import kitchenry  # noqa: PLC0415

    course = found.course
    kit = kitchenry(course.counted, course.plan.date)
    cooks = cook_minutes(kit, course.workload.problem, course.timetable)
    total = sum(cook.hands_on + cook.set_up + cook.changeover for cook in cooks)
    return replace(
        course.plan,
        workload=course.workload,
        pins=course.pins,
        solution=replace(found.solution, timetable=course.timetable),
        # What dish by dish would have taken is not asked of a day under way.
        labor=Labor(cooks, total, 0, 0, 0, comparable=False),
        troubles=found.troubles,
        remedies=(),
    )


@cache
def pin_texts() -> TypeAdapter[tuple[Pin, ...]]:
    """What is held by hand, as JSON."""
    return TypeAdapter(tuple[Pin, ...])


def wrong_wish(kitchen: Kitchen, rest: RestOrder) -> PinError | None:
    """The first of an order's pins that no plan could keep, found without any search.

    Raises
    ------
    ValueError
        The plan cannot be read again.
    """
    from planner.kitchen.catalog import Catalog  # noqa: PLC0415 - only where it is asked for
    from planner.pins.checking import wrong_wishes  # noqa: PLC0415
    from planner.plan_file.reading import read_workload  # noqa: PLC0415

    course = None if rest.course is None else courses().validate_json(rest.course)
    if course is not None:
        kitchen, workload = course.counted, course.workload
    else:
        workload = read_workload(kitchen, rest.document.encode())
    return next(wrong_wishes(Catalog(kitchen), workload, rest.pins or ()), None)
