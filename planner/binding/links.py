"""What holds a task where it is, and the chain of such holds back to the start of the day.

Read from the plan alone: a constraint that is tight at the task's start is a hold, one with slack
is none. Moving a held task one minute earlier, all else as it is, would break that constraint.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from planner.schedule.assemble import Incumbent
from planner.schedule.cleans import run_begin, runs_on_units
from planner.schedule.exposed import minutes_out
from planner.schedule.tables import Tables
from planner.schedule.timetable import Assignment


class Kind(StrEnum):
    """What can hold a task."""

    FOOD = "food"
    """Food that another task hands over."""
    PROCESS = "process"
    """Unattended minutes: it cooks, chills or rests by itself."""
    VESSEL = "vessel"
    """Equipment or a place that is full while no hands are at it."""
    COOK = "cook"
    """The cook's own work before it."""
    AWAY = "away"
    """The cook's break, time on the line, or setting up the station."""
    ARRIVAL = "arrival"
    """The cook's shift starts, or the day does."""
    DELIVERY = "delivery"
    PLACE = "place"
    """A place or a tool that others' hands are at."""
    FRESH = "fresh"
    """Done no earlier so that it is fresh."""
    FOLLOWS = "follows"
    """What comes after must follow within a limit, and cannot come earlier."""
    EXPOSED = "exposed"
    """Its food would be out of temperature control for too long."""
    CLEAN = "clean"
    """Its surface would be in use for too long without a clean, up to the end of other work."""


@dataclass(frozen=True, slots=True)
class Link:
    """One hold on ``task``, over at ``at`` (minutes after midnight).

    Attributes
    ----------
    task
        The task that is held.
    kind
        What holds it.
    at
        When the hold is over: the task's lead, its own work (food, process, delivery) or its end
        (fresh) comes right then.
    since
        When the hold began: the start of the unattended time, the absence, the use of the vessel.
        Of a surface in use for too long: when that ends.
    other
        The task to go on from, or None where the chain ends. After an absence: what left no room
        before it.
    resource
        Of a vessel or a place: its index in the problem.
    room
        Of an absence: whether the cook had time for the task before it, and its food was there.
    """

    task: int
    kind: Kind
    at: int
    since: int
    other: int | None = None
    resource: int | None = None
    room: bool = False


def holding(tables: Tables, plan: Incumbent, task: int) -> tuple[Link, ...]:
    """Everything that holds ``task``, the hold that a chain follows first.

    A vessel that was busy by itself comes before the cook's own line: it binds even if the cook who
    empties it also fills it. Empty where the task could begin earlier as the plan stands.
    """
    item = plan.by_task[task]
    return tuple(link for look in _LOOKS for link in look(tables, plan, item))


def chain(tables: Tables, plan: Incumbent, task: int) -> tuple[Link, ...]:
    """The holds from ``task`` back to the start of the day, the latest first."""
    found: list[Link] = []
    seen: set[int] = set()
    here: int | None = task
    while here is not None and here not in seen:
        seen.add(here)
        # A follower with no slack either way is held by the task that it holds: look past that.
        links = holding(tables, plan, here)
        link = next((one for one in links if one.other not in seen), None)
        if link is None:
            break
        found.append(link)
        here = link.other
    return tuple(found)


def cleaned_after(tables: Tables, plan: Incumbent, task: int) -> tuple[tuple[int, int], ...]:
    """Surfaces that are cleaned in the task's lead: (its hold, the hold that left them dirty)."""
    found = []
    for hold in tables.opens[task]:
        if hold in plan.cleaned:
            earlier = [other for other in plan.unit_of if _same_unit(tables, plan, other, hold)]
            begin = plan.by_task[task].start
            used = [one for one in earlier if _opened(tables, plan, one).start < begin]
            found.append((hold, max(used, key=lambda one: _opened(tables, plan, one).start)))
    return tuple(found)


def _same_unit(tables: Tables, plan: Incumbent, one: int, other: int) -> bool:
    holds = tables.problem.holds
    same = holds[one].resource == holds[other].resource
    return same and one != other and plan.unit_of[one] == plan.unit_of[other]


def _opened(tables: Tables, plan: Incumbent, hold: int) -> Assignment:
    return plan.by_task[tables.problem.holds[hold].first]


def _food(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:
    for wait in tables.waits_before[item.task]:
        before = plan.by_task.get(wait.before)
        if before is not None and before.end + wait.minimum == item.start:
            kind = Kind.PROCESS if wait.minimum else Kind.FOOD
            yield Link(item.task, kind, item.start, before.end, wait.before)


def _vessel(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:
    return _in_use(tables, plan, item, alone=True)


def _place(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:
    return _in_use(tables, plan, item, alone=False)


def _line(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:  # noqa: ARG001
    before = previous(plan, item)
    if before is not None and plan.by_task[before].end == _begin(item):
        yield Link(item.task, Kind.COOK, _begin(item), plan.by_task[before].start, before)


def _absence(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:
    for since, until in _away(tables, plan, item.worker):
        if until == _begin(item):
            other, room = _before_absence(tables, plan, item, since)
            yield Link(item.task, Kind.AWAY, until, since, other, room=room)


def _away(tables: Tables, plan: Incumbent, worker: int) -> tuple[tuple[int, int], ...]:
    return (*tables.problem.workers[worker].blocked, *plan.rests[worker])


def _before_absence(
    tables: Tables, plan: Incumbent, item: Assignment, since: int
) -> tuple[int | None, bool]:
    """The task that left no room for this one before an absence, and whether there was room.

    That task made food that was not ready in time, or is the cook's own before it.
    """
    latest = since - (item.end - _begin(item))
    for wait in tables.waits_before[item.task]:
        food = plan.by_task.get(wait.before)
        if food is not None and food.end + wait.minimum - item.lead.total > latest:
            return wait.before, False
    line = previous(plan, item)
    worker = tables.problem.workers[item.worker]
    release = tables.problem.tasks[item.task].release - item.lead.total
    away = [until for _, until in _away(tables, plan, item.worker) if until <= since]
    own = [] if line is None else [plan.by_task[line].end]
    room = max([worker.start, release, *away, *own]) <= latest
    return (None if room else line), room


def _arrival(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:  # noqa: ARG001
    begins = (tables.problem.workers[item.worker].start, tables.problem.start)
    if _begin(item) in begins:
        yield Link(item.task, Kind.ARRIVAL, _begin(item), _begin(item))


def _delivery(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:  # noqa: ARG001
    release, start = tables.problem.tasks[item.task].release, tables.problem.start
    if release == item.start > start:
        yield Link(item.task, Kind.DELIVERY, item.start, start)


def _fresh(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:  # noqa: ARG001
    task = tables.problem.tasks[item.task]
    wanted = task.fresh_weight and task.due is not None and item.end <= task.due
    if item.end == task.earliest_end or wanted:
        yield Link(item.task, Kind.FRESH, item.end, item.end)


def _follows(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:
    for wait in tables.waits_after[item.task]:
        after = plan.by_task.get(wait.after)
        if after is not None and wait.maximum == after.start - item.end:
            yield Link(item.task, Kind.FOLLOWS, item.end, after.start, wait.after)


def _exposed(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:
    exposures = tables.problem.exposures
    if all(one.first != item.task for one in exposures):
        return
    spans = {task: (one.start, one.end) for task, one in plan.by_task.items()}
    spans[item.task] = item.start - 1, item.end - 1
    if any(exposures[i].limit < out for i, out in minutes_out(exposures, spans).items()):
        yield Link(item.task, Kind.EXPOSED, item.start, item.start)


def _clean(tables: Tables, plan: Incumbent, item: Assignment) -> Iterator[Link]:
    every, holds = tables.problem.changeovers.clean_every, tables.problem.holds
    if every is None or not item.units:
        return
    for run in (run for runs in runs_on_units(tables, plan.timetable) for run in runs):
        hold = holds[run.holds[0]]
        if hold.first == item.task and len(run.holds) > 1:
            last = holds[run.holds[-1]]
            end = plan.by_task[last.last].end + last.tail
            if end > run_begin(hold, _begin(item) - 1) + every:
                yield Link(item.task, Kind.CLEAN, _begin(item), end, resource=hold.resource)


_Look = Callable[[Tables, Incumbent, Assignment], Iterator[Link]]
_LOOKS: tuple[_Look, ...] = (
    _food,
    _vessel,
    _line,
    _absence,
    _arrival,
    _delivery,
    _place,
    _follows,
    _exposed,
    _clean,
    _fresh,
)


def _in_use(tables: Tables, plan: Incumbent, item: Assignment, *, alone: bool) -> Iterator[Link]:
    for hold in tables.opens[item.task]:
        user = _last_user(tables, plan, hold, _begin(item), alone=alone)
        if user is not None:
            kind = Kind.VESSEL if alone else Kind.PLACE
            since, resource = _begin(plan.by_task[user]), tables.problem.holds[hold].resource
            yield Link(item.task, kind, _begin(item), since, user, resource)


def _begin(item: Assignment) -> int:
    """When the cook turns to it, lead and all."""
    return item.start - item.lead.total


def previous(plan: Incumbent, item: Assignment) -> int | None:
    """The cook's task before this one."""
    line = plan.lines[item.worker]
    at = line.index(item.task)
    return line[at - 1] if at else None


def _last_user(tables: Tables, plan: Incumbent, hold: int, busy: int, *, alone: bool) -> int | None:
    """The opening task of a hold that ends just when this one begins, on a full resource.

    ``alone``: only of holds that go on while no hands are at them; else only of the others.
    """
    wanted = tables.problem.holds[hold]
    found: int | None = None
    taken = wanted.units
    for other, spec in enumerate(tables.problem.holds):
        if other == hold or spec.resource != wanted.resource or spec.last not in plan.by_task:
            continue
        if tables.contact(hold) and plan.unit_of.get(other) != plan.unit_of.get(hold):
            continue
        end = plan.by_task[spec.last].end + spec.tail
        if _begin(plan.by_task[spec.first]) < busy <= end:
            taken += spec.units
            if end == busy and alone == (spec.first != spec.last or spec.tail > 0):
                found = spec.first
    capacity = 1 if tables.contact(hold) else tables.problem.resources[wanted.resource].capacity
    return found if taken > capacity else None
