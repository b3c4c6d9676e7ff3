"""What binds on a morning, and for each such thing the problem with more of it."""

import itertools
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from planner.binding.changes import (
    delivered_earlier,
    extra_hands,
    in_earlier,
    one_more,
    out_later,
)
from planner.binding.links import Kind, Link, chain, holding
from planner.explain.words import Morning
from planner.schedule.problem import Problem
from planner.troubles.naming import resource_name
from planner.wording import sentence

_HOUR = 60
_EARLIER = 30
"""Minutes of an earlier start or delivery."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """Something that binds, for ``minutes`` in all, and the problem with more of it."""

    minutes: int
    text: str
    problem: Problem


def candidates(morning: Morning) -> list[Candidate]:
    """More of everything that binds, what binds longest first.

    On a morning with something late, that is what stands in the chains behind it; else what holds
    any batch where it is; and in every case the hands that what is not made would take.
    """
    binding = _binding(morning)
    found = [
        *_cooks(morning, binding),
        *_skills(morning, binding),
        *_rooms(morning, binding),
        *_deliveries(morning, binding),
        *_all_earlier(morning, binding),
    ]
    return sorted(found, key=lambda one: (-one.minutes, one.text))


@dataclass
class _Binding:
    """Minutes for which each thing binds."""

    cooks: dict[int, int] = field(default_factory=lambda: defaultdict(int))
    skills: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    first_use: dict[str, int] = field(default_factory=dict)
    """By skill, when it first binds: an hour of it is of most use from there."""
    resources: dict[int, int] = field(default_factory=lambda: defaultdict(int))
    deliveries: dict[int, set[int]] = field(default_factory=lambda: defaultdict(set))
    """By release: the tasks that begin with it."""
    at_the_end: set[int] = field(default_factory=set)
    """Cooks who work overtime, or who could do what is not made."""


def _binding(morning: Morning) -> _Binding:
    found = _Binding()
    for link in _links(morning):
        item = morning.incumbent.by_task[link.task]
        match link.kind:
            case Kind.COOK | Kind.AWAY | Kind.ARRIVAL:
                minutes = item.end - item.start + item.lead.total
                skill = _skill(morning, link.task)
                found.cooks[item.worker] += minutes
                found.skills[skill] += minutes
                begin = item.start - item.lead.total
                found.first_use[skill] = min(begin, found.first_use.get(skill, begin))
            case Kind.VESSEL | Kind.PLACE if link.resource is not None:
                found.resources[link.resource] += link.at - link.since
            case Kind.DELIVERY:
                found.deliveries[link.at].add(link.task)
            case _:
                pass
    _add_unmade(morning, found)
    for worker, line in morning.incumbent.lines.items():
        if morning.incumbent.by_task[line[-1]].end > morning.problem.workers[worker].end:
            found.at_the_end.add(worker)
    return found


def _links(morning: Morning) -> list[Link]:
    """The chains of what is late; where nothing is, what holds each task."""
    late = [trouble.task for trouble in morning.plan.late if trouble.task is not None]
    found: set[Link] = set()
    for task in late:
        found.update(chain(morning.tables, morning.incumbent, task))
    if not late:
        for task in morning.incumbent.by_task:
            found.update(holding(morning.tables, morning.incumbent, task)[:1])
    return sorted(found, key=lambda link: (link.at, link.task))


def _add_unmade(morning: Morning, found: _Binding) -> None:
    """Hands and room that what is short would take, where it lacks no raw food."""
    problem, tables = morning.problem, morning.tables
    tasks = problem.tasks
    for index, job in enumerate(problem.jobs):
        if index in morning.incumbent.done or job.impossible:
            continue
        for task in job.tasks:
            least = min(tasks[task].minutes.values(), default=0)
            found.skills[_skill(morning, task)] += least
            for worker in tasks[task].minutes:
                found.cooks[worker] += least
                found.at_the_end.add(worker)
        for hold in problem.holds:
            if hold.first in job.tasks and _ever_full(morning, hold.resource):
                found.resources[hold.resource] += tables.least[hold.first] + hold.tail


def _ever_full(morning: Morning, resource: int) -> bool:
    """Whether every unit of a resource is in use at some minute of the plan."""
    by_task = morning.incumbent.by_task
    changes: list[tuple[int, int]] = []
    for hold in morning.problem.holds:
        if hold.resource == resource and hold.first in by_task and hold.last in by_task:
            first = by_task[hold.first]
            changes.append((first.start - first.lead.total, hold.units))
            changes.append((by_task[hold.last].end + hold.tail, -hold.units))
    # At the same minute what ends makes room for what begins: less before more.
    used = itertools.accumulate(units for _at, units in sorted(changes))
    return max(used, default=0) >= morning.problem.resources[resource].capacity


def _cooks(morning: Morning, binding: _Binding) -> Iterator[Candidate]:
    problem, delivered = morning.problem, _delivered(morning)
    for worker, minutes in binding.cooks.items():
        name, shift = morning.cook(worker), problem.workers[worker]
        yield Candidate(
            minutes,
            sentence(
                "an hour more of {name}, in from {at}",
                name=name,
                at=morning.clock(shift.start - _HOUR),
            ),
            in_earlier(problem, {worker}, _HOUR, delivered),
        )
        if worker in binding.at_the_end:
            yield Candidate(
                minutes,
                sentence(
                    "an hour more of {name}, on until {at}",
                    name=name,
                    at=morning.clock(shift.end + _HOUR),
                ),
                out_later(problem, worker, _HOUR),
            )


def _skills(morning: Morning, binding: _Binding) -> Iterator[Candidate]:
    problem = morning.problem
    for skill, minutes in binding.skills.items():
        tasks = {one for one in range(len(problem.tasks)) if _skill(morning, one) == skill}
        if not any(problem.tasks[task].minutes for task in tasks):
            continue
        begin = binding.first_use.get(skill, problem.start)
        yield Candidate(
            minutes,
            sentence(
                "an hour of one more cook with the skill '{skill}', from {at}",
                skill=skill,
                at=morning.clock(begin),
            ),
            extra_hands(problem, begin, _HOUR, tasks),
        )


def _rooms(morning: Morning, binding: _Binding) -> Iterator[Candidate]:
    problem = morning.problem
    for index, minutes in binding.resources.items():
        resource = problem.resources[index]
        name = resource_name(morning.kit, resource.id)
        count = {"n_new": resource.capacity + 1, "n_now": resource.capacity}
        if resource.id.startswith("station:"):
            text = sentence(
                "one more place at {name} ({n_new} in place of {n_now})", name=name, **count
            )
        else:
            text = sentence("one more of {name} ({n_new} in place of {n_now})", name=name, **count)
        yield Candidate(minutes, text, one_more(problem, index))


def _deliveries(morning: Morning, binding: _Binding) -> Iterator[Candidate]:
    for at, tasks in binding.deliveries.items():
        yield Candidate(
            (at - morning.problem.start) * len(tasks),
            sentence("the delivery of {at} {n} min earlier", at=morning.clock(at), n=_EARLIER),
            delivered_earlier(morning.problem, tasks, _EARLIER),
        )


def _all_earlier(morning: Morning, binding: _Binding) -> Iterator[Candidate]:
    everybody = set(range(len(morning.problem.workers)))
    minutes = sum(binding.cooks.values())
    if minutes:
        changed = in_earlier(morning.problem, everybody, _EARLIER, _delivered(morning))
        yield Candidate(minutes, sentence("everybody in {n} min earlier", n=_EARLIER), changed)


def _skill(morning: Morning, task: int) -> str:
    lot = morning.plan.workload.lots[morning.problem.tasks[task].lot]
    return morning.view.operation(lot).skill


def _delivered(morning: Morning) -> set[int]:
    """Tasks of lots that take what is delivered today: an earlier start does not bring it."""
    deliveries = morning.kit.catalog.kitchen.deliveries
    today = {one.item for one in deliveries if one.date == morning.plan.date}
    return {
        task.task
        for lot in morning.plan.workload.lots
        if any(item in today for item, _grams in lot.pulls)
        for task in lot.tasks
    }
