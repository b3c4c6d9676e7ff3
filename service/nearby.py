"""A day planned again beside what people have of it: the plan they work from, and what they hold.

Runs in the process that plans, as `service.planning` does.
"""

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from planner.kitchen.document import Kitchen
from planner.kitchen.reading import KitchenErrors, read_kitchen
from service.planning import Made, OnProgress, heard, made_of, plan_options, with_chances
from service.replanning import courses
from service.values import PlanChoices

if TYPE_CHECKING:
    from planner.replan.near import Earlier

OTHER_VERSION = (
    "The plan that cooks work from could not be read again (it was made by another version of the "
    "program): this one is not held near it."
)
NOT_READ = (
    "What was held by hand could not be read again (its plan was made by another version of the "
    "program): nothing is held now."
)


@dataclass(frozen=True, slots=True)
class StoredDay:
    """A plan of a day as it is stored: the kitchen file's bytes, plan file and course as texts."""

    kitchen: bytes
    document: str
    course: str | None = None


@dataclass(frozen=True, slots=True)
class NearOrder:
    """What a day is planned beside: the plan the floor works from, and the one with the pins."""

    released: StoredDay | None
    held: StoredDay | None


@dataclass(frozen=True, slots=True)
class Near:
    """The same, read; and what must be told of what could not be."""

    released: "Earlier | None"
    held: "Earlier | None"
    notes: tuple[str, ...]

    @property
    def empty(self) -> bool:
        """Whether there is nothing to plan beside."""
        return self.released is None and self.held is None


def read_near(order: NearOrder | None) -> Near:
    """Read what a day is planned beside; what cannot be read is left out, and said."""
    if order is None:
        return Near(None, None, ())
    notes: list[str] = []

    def read(day: StoredDay | None, note: str) -> "Earlier | None":
        if day is None:
            return None
        try:
            return _earlier(day)
        except (KitchenErrors, ValueError):
            notes.append(note)
            return None

    released = read(order.released, OTHER_VERSION)
    held = released if order.held == order.released else read(order.held, NOT_READ)
    return Near(released, held, tuple(notes))


def _earlier(day: StoredDay) -> "Earlier":
    from planner.plan_file.reading import read_plan  # noqa: PLC0415 - only where it plans
    from planner.replan.near import Earlier  # noqa: PLC0415

    course = None if day.course is None else courses().validate_json(day.course)
    if course is not None:
        return Earlier(course.workload, course.timetable, course.pins)
    plan = read_plan(read_kitchen(day.kitchen), day.document.encode())
    return Earlier(plan.workload, plan.solution.timetable, plan.pins)


def make_near(
    kitchen: Kitchen,
    date: dt.date,
    choices: PlanChoices,
    near: Near,
    on_progress: OnProgress | None = None,
) -> Made:
    """Plan one day beside what people have of it.

    Raises
    ------
    ValueError
        The kitchen cannot be planned on that day; says why.
    """
    from planner.replan.near import plan_near  # noqa: PLC0415 - only where it plans

    plan, told = plan_near(
        kitchen,
        date,
        near.released,
        near.held,
        plan_options(choices),
        heard(on_progress),
    )
    return with_notes(with_chances(kitchen, made_of(kitchen, plan)), told)


def with_notes(made: Made, notes: tuple[str, ...]) -> Made:
    """The same, with more that people must be told."""
    told = tuple(dict.fromkeys((*notes, *made.texts.told)))
    return replace(made, texts=replace(made.texts, told=told))
