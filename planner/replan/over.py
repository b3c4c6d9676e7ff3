"""Services that are over: nothing more is made for them."""

from collections.abc import Iterator
from dataclasses import replace

from planner.demand.types import DishDemand
from planner.lots.types import Workload
from planner.replan.course import Course
from planner.replan.events import CoversChanged, Event
from planner.wording import sentence


def over(demands: tuple[DishDemand, ...], now: int) -> frozenset[str]:
    """Ids of services after whose close nothing is of use any more."""
    return frozenset(demand.service for demand in demands if demand.until <= now)


def strike(new: Workload, demands: tuple[DishDemand, ...], now: int) -> Workload:
    """``new`` without what its lots promise to services that are over."""
    gone = over(demands, now)
    promises = new.problem.promises
    jobs = tuple(
        replace(
            job,
            serves=tuple(
                serving
                for serving in job.serves
                if promises[serving.promise].id.partition(":")[0] not in gone
            ),
        )
        for job in new.problem.jobs
    )
    return replace(new, problem=replace(new.problem, jobs=jobs))


def in_time(course: Course, now: int, events: tuple[Event, ...]) -> tuple[Event, ...]:
    """``events`` but for covers of services that are over."""
    gone = over(course.plan.demands, now)
    return tuple(
        event
        for event in events
        if not (isinstance(event, CoversChanged) and event.service in gone)
    )


def too_late_for(course: Course, now: int, events: tuple[Event, ...]) -> Iterator[str]:
    """Say where covers were changed of a service that is over."""
    gone = over(course.plan.demands, now)
    names = {service.id: service.name for service in course.kitchen.services}
    for event in events:
        if isinstance(event, CoversChanged) and event.service in gone:
            yield sentence(
                "{names} is over: its covers change nothing any more.", names=names[event.service]
            )
