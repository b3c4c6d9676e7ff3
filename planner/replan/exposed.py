"""Minutes that food was out of temperature control before a replan count on after it."""

from dataclasses import replace

from planner.kitchen.catalog import Catalog
from planner.kitchen.safety import LOCAL_CODE
from planner.lots.exposed import exposures_of
from planner.lots.types import Part, Workload
from planner.replan.begun import Standing
from planner.replan.course import Course
from planner.replan.joined import whole_day
from planner.replan.links import Link
from planner.replan.residual import Residual
from planner.schedule.exposed import minutes_out
from planner.schedule.problem import Exposure
from planner.schedule.timetable import Timetable
from planner.wording import sentence

_ANY = 1 << 20
"""Minutes: what is under way is there, however long it has been out."""


def whole_exposed(catalog: Catalog, whole: Workload) -> Workload:
    """The joined day with the exposures of its lots."""
    every = exposures_of(catalog, whole.lots, whole.problem)
    return replace(whole, problem=replace(whole.problem, exposures=every))


def with_exposures(
    catalog: Catalog, before: Course, day: Standing, links: tuple[Link, ...], rest: Residual
) -> Residual:
    """``rest`` with the exposures of the whole day, as far as they are still to come.

    What has begun counts as it went: as minutes ``spent``, or ``since`` when.
    """
    whole = whole_day(before, day, rest, links)
    every = exposures_of(catalog, whole.workload.lots, whole.workload.problem)
    began = {item.task: item.start for item in before.timetable.assignments}
    facts = {
        at: (began[task], day.ended[task])
        for task, at in whole.task_at.items()
        if task in day.ended and task in began
    }
    here = {at: task for task, at in (*whole.new_task_at.items(), *whole.carried_at.items())}
    spent: dict[int, int] = {}
    number: dict[int, int] = {}
    found: list[Exposure] = []
    for index, exposure in enumerate(every):
        known = max((spent[other] for other in exposure.after if other in spent), default=0)
        begun = exposure.first in facts
        if exposure.last in facts:
            if begun:
                minutes = facts[exposure.last][1] - facts[exposure.first][0]
                spent[index] = known + minutes
            continue
        last = here.get(exposure.last)
        first = last if begun else here.get(exposure.first)
        if first is None or last is None:
            continue
        number[index] = len(found)
        found.append(
            Exposure(
                first=first,
                last=last,
                limit=_ANY if exposure.last in whole.carried_at.values() else exposure.limit,
                after=tuple(number[other] for other in exposure.after if other in number),
                spent=known,
                since=facts[exposure.first][0] if begun else None,
            )
        )
    problem = replace(rest.workload.problem, exposures=tuple(found))
    return replace(rest, workload=replace(rest.workload, problem=problem))


def out_too_long(catalog: Catalog, rest: Residual, timetable: Timetable) -> tuple[str, ...]:
    """Say what is under way and will have been out for too long when somebody takes it out."""
    limit = catalog.kitchen.rules.out_of_control_minutes
    problem = rest.workload.problem
    spans = {item.task: (item.start, item.end) for item in timetable.assignments}
    worst: dict[int, int] = {}
    for index, minutes in minutes_out(problem.exposures, spans).items():
        exposure = problem.exposures[index]
        if exposure.limit == _ANY and minutes > limit:
            lot = problem.tasks[exposure.last].lot
            worst[lot] = max(worst.get(lot, 0), minutes)
    return tuple(
        sentence(
            "{food} is out of temperature control for {n} min when it is taken out, {n_2} are "
            "allowed: discard it; {local_code}.",
            food=catalog.name(rest.workload.lots[lot].food),
            n=minutes,
            n_2=limit,
            local_code=LOCAL_CODE,
        )
        for lot, minutes in sorted(worst.items())
    )


def worn_out(rest: Residual, now: int) -> frozenset[int]:
    """New lots whose food has been out for too long already to be worked on."""
    problem, lots = rest.workload.problem, rest.workload.lots[: rest.new_lots]
    mine = {item.task: lot.index for lot in lots for item in lot.tasks if item.part is Part.WORK}
    found: set[int] = set()
    for exposure in problem.exposures:
        if exposure.first in mine:
            least = min(problem.tasks[exposure.first].minutes.values(), default=0)
            out = 0 if exposure.since is None else now - exposure.since
            if exposure.spent + out + least > exposure.limit:
                found.add(mine[exposure.first])
    return frozenset(found)
