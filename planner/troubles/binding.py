"""Why not earlier: the chain of causes behind a task, read from the plan."""

from collections import defaultdict
from dataclasses import dataclass

from planner.schedule.assemble import Incumbent
from planner.schedule.tables import Tables
from planner.schedule.timetable import Assignment


@dataclass(frozen=True, slots=True)
class Cause:
    """One link: ``minutes`` of the chain that ``kind`` (and ``what``, by index) accounts for.

    ``kind`` is ``cook``, ``away``, ``resource``, ``process`` or ``delivery``; ``what`` is the
    worker, worker, resource, or the task whose food took so long or came so late.
    """

    kind: str
    what: int
    minutes: int


def causes_of(tables: Tables, plan: Incumbent, task: int) -> tuple[Cause, ...]:
    """Walk back from a task to the start of the day, naming what held each step up.

    At each step the predecessor that ends last is followed: food that was not ready, the cook's
    own work before it, an absence, a place or vessel in use. Waiting for food counts as the
    process's own time only for unattended minutes; its hands-on minutes count for its cook.
    """
    found: list[Cause] = []
    seen: set[int] = set()
    here: int | None = task
    while here is not None and here not in seen:
        seen.add(here)
        item = plan.by_task[here]
        found.append(Cause("cook", item.worker, item.end - item.start + item.lead.total))
        cause, here = _before(tables, plan, item)
        if cause is not None:
            found.append(cause)
    return tuple(found)


def heaviest(causes: tuple[Cause, ...]) -> Cause | None:
    """The cause that accounts for most minutes, summed by kind and what."""
    total: dict[tuple[str, int], int] = defaultdict(int)
    for cause in causes:
        total[cause.kind, cause.what] += cause.minutes
    if not total:
        return None
    (kind, what), minutes = max(total.items(), key=lambda entry: (entry[1], entry[0]))
    return Cause(kind, what, minutes)


_Link = tuple[Cause | None, int | None]
"""What held a task up, and the task to go on from."""


def _before(tables: Tables, plan: Incumbent, item: Assignment) -> _Link:
    """What ``item`` had to wait for last.

    A vessel that was busy by itself comes before the cook's own line: it binds even if the cook who
    empties it also fills it.
    """
    for look in (_food, _vessel, _line, _absence, _delivery, _place):
        found = look(tables, plan, item)
        if found is not None:
            return found
    return None, None


def _food(tables: Tables, plan: Incumbent, item: Assignment) -> _Link | None:
    for wait in tables.waits_before[item.task]:
        before = plan.by_task.get(wait.before)
        if before is not None and before.end + wait.minimum == item.start:
            process = Cause("process", wait.before, wait.minimum) if wait.minimum else None
            return process, wait.before
    return None


def _line(tables: Tables, plan: Incumbent, item: Assignment) -> _Link | None:  # noqa: ARG001
    before = _previous(plan, item)
    if before is not None and plan.by_task[before].end == item.start - item.lead.total:
        return None, before
    return None


def _absence(tables: Tables, plan: Incumbent, item: Assignment) -> _Link | None:
    for begin, end in tables.problem.workers[item.worker].blocked:
        if end == item.start - item.lead.total:
            return Cause("away", item.worker, end - begin), _previous(plan, item)
    return None


def _delivery(tables: Tables, plan: Incumbent, item: Assignment) -> _Link | None:  # noqa: ARG001
    start = tables.problem.start
    if tables.problem.tasks[item.task].release == item.start > start:
        return Cause("delivery", item.task, item.start - start), None
    return None


def _vessel(tables: Tables, plan: Incumbent, item: Assignment) -> _Link | None:
    return _in_use(tables, plan, item, alone=True)


def _place(tables: Tables, plan: Incumbent, item: Assignment) -> _Link | None:
    return _in_use(tables, plan, item, alone=False)


def _in_use(tables: Tables, plan: Incumbent, item: Assignment, *, alone: bool) -> _Link | None:
    busy = item.start - item.lead.total
    for hold in tables.opens[item.task]:
        user = _last_user(tables, plan, hold, busy, alone=alone)
        if user is not None:
            resource = tables.problem.holds[hold].resource
            return Cause("resource", resource, busy - plan.by_task[user].start), user
    return None


def _previous(plan: Incumbent, item: Assignment) -> int | None:
    """The cook's task before this one."""
    line = plan.lines[item.worker]
    at = line.index(item.task)
    return line[at - 1] if at else None


def _last_user(tables: Tables, plan: Incumbent, hold: int, busy: int, *, alone: bool) -> int | None:
    """The opening task of a hold that ends just when this one begins, on a full resource.

    ``alone``: only of holds that go on while no hands are at them.
    """
    wanted = tables.problem.holds[hold]
    found: int | None = None
    taken = wanted.units
    for other, spec in enumerate(tables.problem.holds):
        if other == hold or spec.resource != wanted.resource or spec.last not in plan.by_task:
            continue
        if tables.contact(hold) and plan.unit_of.get(other) != plan.unit_of.get(hold):
            continue
        first = plan.by_task[spec.first]
        end = plan.by_task[spec.last].end + spec.tail
        if first.start - first.lead.total < busy <= end:
            taken += spec.units
            if end == busy and (not alone or spec.first != spec.last or spec.tail):
                found = spec.first
    capacity = 1 if tables.contact(hold) else tables.problem.resources[wanted.resource].capacity
    return found if taken > capacity else None
