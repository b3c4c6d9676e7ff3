"""How much work must lie within a stretch of the day, and how much the kitchen can do in it.

A task that is made lies between its ``earliest`` start and its ``latest`` end. So the least minutes
of all tasks that only certain cooks can do, and that must lie within a stretch, are never more than
what these cooks have there, breaks apart; and what such tasks hold of a resource is never more than
its capacity times the stretch.
"""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from planner.schedule.problem import Hold, Problem, Worker
from planner.schedule.rests import walls_of
from planner.schedule.tables import Tables

_BEGINS, _ENDS = 6, 24
"""Moments looked at as beginnings and as ends of stretches, at most."""
_CREWS = 40
"""Sets of cooks looked at, at most."""


@dataclass(frozen=True, slots=True)
class Demand:
    """Work of one kind: (task or hold's last task, when it begins soonest, least minutes)."""

    task: int
    first: int
    minutes: int
    earliest: int
    latest: int


@dataclass(frozen=True, slots=True)
class Supply:
    """What some cooks, or a resource, can do, and what only they can do.

    ``until[m]``: minutes on offer from the problem's start to ``m`` minutes after it.
    """

    until: list[int]
    demands: list[Demand]


@dataclass(frozen=True, slots=True)
class Limit:
    """At most ``most`` of the minutes of these (job, minutes) can be done."""

    parts: list[tuple[int, int]]
    most: int


def supplies(tables: Tables) -> list[Supply]:
    """Sets of cooks who are the only ones for some tasks, all cooks, and every resource."""
    problem = tables.problem
    span = _span(problem)
    wanted = [i for i, task in enumerate(problem.tasks) if task.lot not in tables.impossible]
    able = {index: frozenset(problem.tasks[index].minutes) for index in wanted}
    crews = sorted({*able.values(), frozenset(range(len(problem.workers)))}, key=sorted)
    free = [_free_minutes(problem, worker, span) for worker in range(len(problem.workers))]
    found = []
    for crew in crews[:_CREWS]:
        minutes = [sum(free[w][m] for w in crew) for m in range(span)]
        demands = [
            Demand(i, i, tables.least[i], tables.earliest[i], tables.latest[i])
            for i in wanted
            if able[i] <= crew
        ]
        found.append(Supply([0, *accumulate(minutes)], demands))
    for number, resource in enumerate(problem.resources):
        demands = [
            Demand(
                hold.last,
                hold.first,
                hold.units * least_held(tables, hold),
                tables.earliest[hold.first],
                tables.latest[hold.last],
            )
            for hold in problem.holds
            if hold.resource == number
            and problem.tasks[hold.first].lot == problem.tasks[hold.last].lot
            and problem.tasks[hold.first].lot not in tables.impossible
        ]
        found.append(Supply([resource.capacity * m for m in range(span + 1)], demands))
    return [supply for supply in found if supply.demands]


def limits(tables: Tables) -> list[Limit]:
    """Limits on which jobs can be made together that could bind."""
    problem = tables.problem
    found = []
    for supply in supplies(tables):
        begins = thinned({demand.earliest for demand in supply.demands}, _BEGINS)
        ends = thinned({demand.latest for demand in supply.demands}, _ENDS)
        for begin in begins:
            for end in ends:
                inside = [d for d in supply.demands if d.earliest >= begin and d.latest <= end]
                most = _between(supply, problem, begin, end)
                if inside and sum(demand.minutes for demand in inside) > most:
                    parts = [(problem.tasks[d.first].lot, d.minutes) for d in inside]
                    found.append(Limit(parts, most))
    return found


def least_tardiness(tables: Tables) -> int:
    """Least weighted minutes late of any plan that makes all that is wanted.

    Everything that the tasks due by some time wait for, and they themselves, takes until a later
    time even where nobody ever rests: the last of these tasks ends then or after.
    """
    problem = tables.problem
    due = sorted(
        (task.due, index)
        for index, task in enumerate(problem.tasks)
        if task.due is not None and task.lot in tables.wanted
    )
    before = _waited_for(tables)
    worst = 0
    for supply in supplies(tables):
        by_task: dict[int, list[Demand]] = {}
        for demand in supply.demands:
            by_task.setdefault(demand.task, []).append(demand)
        for begin in thinned({demand.earliest for demand in supply.demands}, _BEGINS):
            counted: set[int] = set()
            needed, weight = 0, 0
            offset = supply.until[_minute(supply, problem, begin)]
            for time, index in due:
                fresh = [task for task in before[index] if task not in counted and task in by_task]
                own = problem.tasks[index].due_weight
                weight = own if not counted and not needed else min(weight, own)
                counted.update(fresh)
                needed += sum(
                    demand.minutes
                    for task in fresh
                    for demand in by_task[task]
                    if demand.earliest >= begin
                )
                over = bisect_left(supply.until, offset + needed) + problem.start - time
                if needed and over > 0:
                    worst = max(worst, weight * over)
    return worst


def least_held(tables: Tables, hold: Hold) -> int:
    """Least minutes of a hold, its tail apart."""
    if hold.first == hold.last:
        return tables.least[hold.first]
    between = max(
        (w.minimum for w in tables.waits_before[hold.last] if w.before == hold.first), default=0
    )
    return tables.least[hold.first] + between + tables.least[hold.last] if between else 0


def _waited_for(tables: Tables) -> list[frozenset[int]]:
    """Per task: itself and all that must have ended before it can begin."""
    tasks, jobs = tables.problem.tasks, tables.problem.jobs
    found: list[frozenset[int]] = [frozenset()] * len(tasks)
    for index in tables.order:
        certain = (tasks[index].lot, *jobs[tasks[index].lot].needs)
        found[index] = frozenset((index,)).union(
            *(
                found[wait.before]
                for wait in tables.waits_before[index]
                if tasks[wait.before].lot in certain
            )
        )
    return found


def free_minutes(worker: Worker, begin: int, end: int) -> int:
    """Minutes of a cook within [begin, end), breaks apart.

    A break that can move is in any case where all of its window lies in the stretch.
    """
    begin, end = max(begin, worker.start), min(end, worker.latest_end)
    free, at = 0, begin
    for away, back in walls_of(worker):
        free += max(0, min(away, end) - at)
        at = max(at, back)
    moved = sum(
        rest.minutes
        for rest in worker.rests
        if rest.movable and begin <= rest.earliest and rest.latest + rest.minutes <= end
    )
    return max(0, free + max(0, end - at) - moved)


def _span(problem: Problem) -> int:
    return max([problem.horizon, *(w.latest_end for w in problem.workers)]) - problem.start


def _free_minutes(problem: Problem, worker: int, span: int) -> list[int]:
    """Per minute from the problem's start: 1 where a cook is in and not away for certain.

    A rest that can move is left out of account: more minutes than there are bound no less validly.
    """
    person = problem.workers[worker]
    free = [0] * span
    for minute in range(max(0, person.start - problem.start), person.latest_end - problem.start):
        free[minute] = 1
    for begin, end in walls_of(person):
        for minute in range(max(0, begin - problem.start), min(span, end - problem.start)):
            free[minute] = 0
    return free


def _minute(supply: Supply, problem: Problem, time: int) -> int:
    return min(max(0, time - problem.start), len(supply.until) - 1)


def _between(supply: Supply, problem: Problem, begin: int, end: int) -> int:
    low, high = _minute(supply, problem, begin), _minute(supply, problem, end)
    return supply.until[high] - supply.until[low]


def thinned(values: Iterable[int], most: int) -> Sequence[int]:
    """The values in order, or so many of them, the least and the greatest among them."""
    ordered = sorted(values)
    if len(ordered) <= most:
        return ordered
    step = (len(ordered) - 1) / (most - 1)
    return sorted({ordered[round(i * step)] for i in range(most)})
