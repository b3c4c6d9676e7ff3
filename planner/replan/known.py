"""Whether events name what the kitchen and its day have."""

from collections.abc import Iterable

from planner.kitchen.catalog import Catalog
from planner.replan.course import Course
from planner.replan.events import (
    CookGone,
    CookLate,
    CoversChanged,
    DeliveryLate,
    EquipmentDown,
    Event,
    Overran,
    Progress,
    Spoiled,
    UnknownEventError,
)
from planner.wording import sentence


def check_events(course: Course, events: Iterable[Event], progress: Iterable[Progress]) -> None:
    """Raise UnknownEventError for the first event that names something unknown."""
    catalog = Catalog(course.kitchen)
    lots = {lot.id for lot in course.workload.lots}
    for event in events:
        match event:
            case CookGone() | CookLate():
                _check("cook", event.cook, course.workload.cooks, sentence("is not in on that day"))
            case Overran() | Spoiled():
                _check("batch", event.lot, lots, sentence("is not a batch of the plan"))
            case EquipmentDown():
                _check(
                    "equipment", event.equipment, catalog.equipment, sentence("is not in the file")
                )
                if event.units < 1:
                    raise UnknownEventError(
                        "units",
                        str(event.units),
                        sentence("cannot be down"),
                        sentence("Name 1 or more."),
                    )
            case CoversChanged():
                _check("service", event.service, catalog.services, sentence("is not in the file"))
                if event.covers < 0:
                    raise UnknownEventError(
                        "covers",
                        str(event.covers),
                        sentence("cannot come"),
                        sentence("Name 0 or more."),
                    )
            case DeliveryLate():
                _check(
                    "ingredient", event.item, catalog.ingredients, sentence("is not in the file")
                )
    tasks = len(course.workload.problem.tasks)
    for told in progress:
        _check("cook", told.cook, course.workload.cooks, sentence("is not in on that day"))
        if not 0 <= told.task < tasks:
            raise UnknownEventError(
                "task",
                str(told.task),
                sentence("is not a task of the plan"),
                sentence("Name 0 to {tasks}.", tasks=tasks - 1),
            )
        if told.end is not None and told.end < told.start:
            raise UnknownEventError(
                "end",
                str(told.end),
                sentence("is before the start"),
                sentence("Name a later minute."),
            )


def _check(field: str, value: str, known: Iterable[str], message: str) -> None:
    names = sorted(known)
    if value not in names:
        shown = ", ".join(names[:_MOST_NAMED]) + (", ..." if len(names) > _MOST_NAMED else "")
        raise UnknownEventError(
            field, value, message, sentence("Name one of: {what}.", what=shown or "there is none")
        )


_MOST_NAMED = 40
