"""Food of begun lots that is lost, and whether anybody was to go on with it."""

from planner.replan.begun import Standing, work_of
from planner.replan.course import Course
from planner.replan.stock import Left

Food = tuple[str, str]
"""Lot id and component; the component is empty where a part of the lot's work was not done."""


def lost(day: Standing, left: Left) -> frozenset[Food]:
    """Food that is discarded, and work that stopped in the midst of a lot."""
    discarded = {(source.begun.lot.id, source.key[0]) for source in left.discarded}
    return frozenset(discarded | {(one.lot.id, "") for one in day.begun if one.share < 1})


def counted_on(course: Course, day: Standing, left: Left) -> frozenset[Food]:
    """What of the lost food the rest of the plan is built on.

    Food that waited too long is not where nobody was to go on with it: the plan leaves its takers
    out, and what it has to say of that it has said.
    """
    planned = {item.task for item in course.timetable.assignments}
    used: set[int] = set()
    for lot in course.workload.lots:
        if lot.index not in day.lots and work_of(lot) in planned:
            used |= {index for index, _ in lot.upstream}
            used |= set(course.workload.problem.jobs[lot.index].needs)
    idle = {
        (source.begun.lot.id, source.key[0])
        for source in left.discarded
        if source.begun.lot.index not in used and not source.begun.spoiled
    }
    return lost(day, left) - idle
