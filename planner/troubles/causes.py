"""Which cause weighs most in the chain behind a task."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from planner.binding.links import Kind, Link, chain
from planner.schedule.assemble import Incumbent
from planner.schedule.tables import Tables


@dataclass(frozen=True, slots=True)
class Cause:
    """One part of the chain: ``minutes`` that ``kind`` (and ``what``, by index) accounts for.

    ``kind`` is ``cook``, ``away``, ``resource``, ``process`` or ``delivery``; ``what`` is the
    worker, worker, resource, or the task whose food took so long or came so late. ``span`` is when
    a worker was away; of several times the longest.
    """

    kind: str
    what: int
    minutes: int
    span: tuple[int, int] | None = None


def causes_of(tables: Tables, plan: Incumbent, task: int) -> tuple[Cause, ...]:
    """Weigh the chain from a task back to the start of the day.

    Waiting for food counts as the process's own time only for unattended minutes; its hands-on
    minutes count for its cook.
    """
    links = chain(tables, plan, task)
    found = [_hands(plan, task)]
    for link in links:
        found += _cause(tables, plan, link)
        if link.other is not None and link.kind is not Kind.FOLLOWS:
            found.append(_hands(plan, link.other))
    return tuple(found)


def heaviest(causes: tuple[Cause, ...]) -> Cause | None:
    """The cause that accounts for most minutes, summed by kind and what."""
    total: dict[tuple[str, int], int] = defaultdict(int)
    for cause in causes:
        total[cause.kind, cause.what] += cause.minutes
    if not total:
        return None
    (kind, what), minutes = max(total.items(), key=lambda entry: (entry[1], entry[0]))
    longest = max(
        (one for one in causes if (one.kind, one.what) == (kind, what)), key=lambda one: one.minutes
    )
    return Cause(kind, what, minutes, longest.span)


def _hands(plan: Incumbent, task: int) -> Cause:
    item = plan.by_task[task]
    return Cause("cook", item.worker, item.end - item.start + item.lead.total)


def _cause(tables: Tables, plan: Incumbent, link: Link) -> Iterator[Cause]:
    """What a hold accounts for beside its tasks' own minutes."""
    minutes = link.at - link.since
    match link.kind:
        case Kind.PROCESS if link.other is not None:
            yield Cause("process", link.other, minutes)
        case Kind.VESSEL | Kind.PLACE if link.resource is not None and link.other is not None:
            yield Cause("resource", link.resource, link.at - plan.by_task[link.other].start)
        case Kind.AWAY:
            yield Cause("away", plan.by_task[link.task].worker, minutes, (link.since, link.at))
        case Kind.DELIVERY:
            yield Cause("delivery", link.task, link.at - tables.problem.start)
        case _:
            return
