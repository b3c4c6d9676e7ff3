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
    worker, worker, resource, family or task index.
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


def _before(tables: Tables, plan: Incumbent, item: Assignment) -> tuple[Cause | None, int | None]:
    """What ``item`` had to wait for last, and the task to go on from."""
    busy = item.start - item.lead.total
    for wait in tables.waits_before[item.task]:
        before = plan.by_task.get(wait.before)
        if before is not None and before.end + wait.minimum == item.start:
            family = tables.problem.tasks[wait.before].family
            process = Cause("process", family, wait.minimum) if wait.minimum else None
            return process, wait.before
    line = plan.lines[item.worker]
    at = line.index(item.task)
    if at and plan.by_task[line[at - 1]].end == busy:
        return None, line[at - 1]
    for begin, end in tables.problem.workers[item.worker].blocked:
        if end == busy:
            return Cause("away", item.worker, end - begin), line[at - 1] if at else None
    if tables.problem.tasks[item.task].release == item.start > tables.problem.start:
        return Cause("delivery", item.task, item.start - tables.problem.start), None
    for hold in tables.opens[item.task]:
        resource = tables.problem.holds[hold].resource
        user = _last_user(tables, plan, hold, busy)
        if user is not None:
            return Cause("resource", resource, busy - plan.by_task[user].start), user
    return None, None


def _last_user(tables: Tables, plan: Incumbent, hold: int, busy: int) -> int | None:
    """The opening task of a hold on the same resource that ends just when this one begins."""
    resource = tables.problem.holds[hold].resource
    for other, spec in enumerate(tables.problem.holds):
        if other == hold or spec.resource != resource or spec.last not in plan.by_task:
            continue
        if tables.contact(hold) and plan.unit_of.get(other) != plan.unit_of.get(hold):
            continue
        if plan.by_task[spec.last].end + spec.tail == busy:
            return spec.first
    return None
