"""How hands, boards and equipment stand when the new plan begins."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from planner.lots.promises import OWN
from planner.replan.begun import Standing, Use, uses_of
from planner.replan.board import CLEAN, Board
from planner.replan.course import Course
from planner.replan.events import EquipmentDown, Event
from planner.schedule.leads import needs_clean
from planner.schedule.problem import Hold, Hygiene, Job
from planner.schedule.timetable import Assignment

_ALWAYS = 1000
"""Weight of a job that says how things are: it is never left out."""


@dataclass(frozen=True, slots=True)
class _Taken:
    """``units`` of a resource that are taken from now to ``until``, and its old unit, if any."""

    resource: int
    units: int
    until: int
    hygiene: Hygiene
    unit: int | None = None
    since: int | None = None
    """Of a surface: since when it has been in use without a clean."""


def stand(
    board: Board, before: Course, day: Standing, events: tuple[Event, ...]
) -> dict[int, tuple[str, int]]:
    """Put marks on the board, each a job that is always done.

    Returns which unit (resource id, number) a hold of a mark had in the old plan.
    """
    for worker, item in sorted(_last_of(before, day).items()):
        here = board.workers[worker]
        if here.start < here.latest_end:
            problem = before.workload.problem
            family = problem.families[problem.tasks[item.task].family]
            job = len(board.jobs)
            _always(board, board.mark_hands(job, family, worker))
    old_unit: dict[int, tuple[str, int]] = {}
    taken = [*_places(board, before, day), *_down(board, day, events)]
    for one in taken:
        resource = board.resources[one.resource]
        for _ in range(one.units if resource.contact else 1):
            job = len(board.jobs)
            mark = board.mark(job, one.hygiene)
            units = 1 if resource.contact else one.units
            tail = one.until - board.now
            board.holds.append(Hold(one.resource, mark, mark, units, tail, one.since))
            if one.unit is not None:
                old_unit[len(board.holds) - 1] = resource.id, one.unit
            _always(board, mark)
    return old_unit


def named_units(before: Course) -> dict[int, int]:
    """Unit by hold, where the old plan names it."""
    return dict(pair for item in before.timetable.assignments for pair in item.units)


def _always(board: Board, mark: int) -> None:
    name = f"as it stands {mark}"
    board.jobs.append(Job(name, (mark,), serves=(board.must(f"{OWN}:{name}", _ALWAYS),)))


def _last_of(before: Course, day: Standing) -> dict[int, Assignment]:
    """What each cook was at last: it may go on without a set-up, or must be washed off."""
    last: dict[int, Assignment] = {}
    for item in before.timetable.assignments:
        if item.task in day.ended and item.start >= last.get(item.worker, item).start:
            last[item.worker] = item
    return last


def _places(board: Board, before: Course, day: Standing) -> Iterator[_Taken]:
    """Places and equipment that are taken, and surfaces that somebody has left unclean.

    Of each surface only its last user counts; what is left of a lot under way holds its own.
    """
    problem = before.workload.problem
    units = named_units(before)
    since = in_use_since(before, day)
    every = problem.changeovers.clean_every
    leaves = max((worker.latest_end for worker in board.workers), default=day.now)
    last: dict[tuple[int, int], tuple[int, Use]] = {}
    for use in uses_of(problem, day):
        if problem.resources[use.hold.resource].contact:
            key = (use.hold.resource, units.get(use.index, 0))
            begun = day.ended[use.hold.first]
            if key not in last or begun >= last[key][0]:
                last[key] = begun, use
        elif use.until is not None and use.until > day.now:
            resource = board.resource(problem.resources[use.hold.resource])
            yield _Taken(resource, use.hold.units, use.until, CLEAN)
    for (index, unit), (_, use) in sorted(last.items(), key=lambda entry: entry[0]):
        hygiene = problem.families[problem.tasks[use.hold.first].family].hygiene
        used = since.get(use.index)
        due = used is not None and every is not None and used + every < leaves
        if use.until is None or (use.until <= day.now and hygiene == CLEAN and not due):
            continue
        resource = board.resource(problem.resources[index])
        # The marks themselves are at the same minute, so no two of them are the same surface.
        yield _Taken(resource, 1, max(use.until, day.now), hygiene, unit, used)


def in_use_since(before: Course, day: Standing) -> dict[int, int]:
    """Since when the unit of each hold that begun lots took has been in use without a clean.

    By hold of the old plan; empty where surfaces are not cleaned by the clock.
    """
    problem = before.workload.problem
    if problem.changeovers.clean_every is None:
        return {}
    by_task = {item.task: item for item in before.timetable.assignments}
    lines: dict[tuple[int, int], list[tuple[int, int, Hold]]] = defaultdict(list)
    units = named_units(before)
    for use in uses_of(problem, day):
        item = by_task.get(use.hold.first)
        if item is not None and use.index in units:
            begin = item.start - item.lead.total
            lines[use.hold.resource, units[use.index]].append((begin, use.index, use.hold))
    found: dict[int, int] = {}
    for line in lines.values():
        left: Hygiene | None = None
        since = 0
        for begin, index, hold in sorted(line, key=lambda one: one[:2]):
            mine = problem.families[problem.tasks[hold.first].family].hygiene
            cleaned = by_task[hold.first].cleaned
            unclean = left is not None and needs_clean(left, mine)
            if left is None or index in cleaned or unclean:
                since = begin
            left, found[index] = mine, since
    return found


def _down(board: Board, day: Standing, events: tuple[Event, ...]) -> Iterator[_Taken]:
    """Equipment that is down; of one that is not used any more today nothing need be said."""
    room = {resource.id: resource.capacity for resource in board.resources}
    by_id = {resource.id: index for index, resource in enumerate(board.resources)}
    last = max([day.now + 1, *(worker.latest_end for worker in board.workers)])
    for event in events:
        if not isinstance(event, EquipmentDown):
            continue
        name = f"equipment:{event.equipment}"
        until = last if event.until is None else event.until
        units = min(event.units, room.get(name, 0))
        if units > 0 and until > day.now:
            room[name] -= units
            yield _Taken(by_id[name], units, until, CLEAN)
