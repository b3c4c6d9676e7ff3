"""Whether a place or a vessel is what keeps lots from being made, and how much of it is missing."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import accumulate

from planner.schedule.assemble import Incumbent
from planner.schedule.problem import Hold
from planner.schedule.tables import Tables

Windows = Mapping[int, tuple[int, int]]
"""Earliest start and latest end by task."""


@dataclass(frozen=True, slots=True)
class Want:
    """A resource without room for some lots; ``missing`` is in unit-minutes."""

    resource: int
    missing: int


def most_wanted(tables: Tables, plan: Incumbent, jobs: Iterable[int]) -> Want | None:
    """The resource that most unit-minutes are missing of, or None where ``jobs`` find room.

    Of a resource is missing what its lots, each at the moment that suits it best, find in use by
    what is made, or what all of them want beyond what is free in their window: the more of the two.
    """
    windows = _windows(tables, plan, jobs)
    wanted: dict[int, list[Hold]] = defaultdict(list)
    for hold in tables.problem.holds:
        if hold.first in windows:
            wanted[hold.resource].append(hold)
    found = [_want(tables, plan, resource, windows, holds) for resource, holds in wanted.items()]
    return max(
        (one for one in found if one.missing > 0),
        key=lambda one: (one.missing, one.resource),
        default=None,
    )


def hands_are_free(tables: Tables, plan: Incumbent, jobs: Iterable[int]) -> bool:
    """Whether cooks have the idle minutes for ``jobs``, and for each task one unbroken stretch."""
    problem = tables.problem
    windows = _windows(tables, plan, jobs)
    able = {worker for task in windows for worker in problem.tasks[task].minutes}
    idle = {worker: _idle(tables, plan, worker) for worker in able}
    for task, window in windows.items():
        if not any(
            _common(stretch, window) >= minutes
            for worker, minutes in problem.tasks[task].minutes.items()
            for stretch in idle[worker]
        ):
            return False
    whole = (
        min((low for low, _ in windows.values()), default=0),
        max((high for _, high in windows.values()), default=0),
    )
    free = sum(_common(stretch, whole) for line in idle.values() for stretch in line)
    return free >= sum(tables.least[task] for task in windows)


def _common(one: tuple[int, int], other: tuple[int, int]) -> int:
    return max(0, min(one[1], other[1]) - max(one[0], other[0]))


def _windows(tables: Tables, plan: Incumbent, jobs: Iterable[int]) -> Windows:
    """When the tasks of lots that hang together could be done, each lot before what takes it.

    Food that is made is there when the plan has it done.
    """
    mine = {task for job in jobs for task in tables.problem.jobs[job].tasks}
    order = [task for task in tables.order if task in mine]
    earliest = {task: tables.earliest[task] for task in order}
    latest = {task: tables.latest[task] for task in order}
    for task in order:
        for wait in tables.waits_before[task]:
            if wait.before in mine:
                done = earliest[wait.before] + tables.least[wait.before]
                earliest[task] = max(earliest[task], done + wait.minimum)
            elif wait.before in plan.by_task:
                done = plan.by_task[wait.before].end
                earliest[task] = max(earliest[task], done + wait.minimum)
    for task in reversed(order):
        for wait in tables.waits_after[task]:
            if wait.after in mine:
                last = latest[wait.after] - tables.least[wait.after] - wait.minimum
                latest[task] = min(latest[task], last)
    return {task: (earliest[task], latest[task]) for task in order}


def _idle(tables: Tables, plan: Incumbent, worker: int) -> list[tuple[int, int]]:
    """Stretches of a shift, without overtime, with neither work nor a break in them."""
    cook = tables.problem.workers[worker]
    work = [plan.by_task[task] for task in plan.lines.get(worker, ())]
    away = (*cook.blocked, *plan.rests[worker])
    busy = sorted([*away, *((one.start - one.lead.total, one.end) for one in work)])
    found, at = [], cook.start
    for begin, end in [*busy, (cook.end, cook.end)]:
        if min(begin, cook.end) > at:
            found.append((at, min(begin, cook.end)))
        at = max(at, end)
    return found


def _want(
    tables: Tables, plan: Incumbent, resource: int, windows: Windows, holds: list[Hold]
) -> Want:
    spans = []
    for hold in holds:
        begin, last = windows[hold.first][0], _length(tables, hold, hold.last) + hold.tail
        spans.append((hold, begin, max(begin + last, windows[hold.last][1] + hold.tail), last))
    start = min(begin for _, begin, _, _ in spans)
    used = _used(tables, plan, resource, start, max(end for _, _, end, _ in spans))
    capacity = tables.problem.resources[resource].capacity
    over: dict[int, list[int]] = {}
    for units in {hold.units for hold in holds}:
        beyond = (max(0, one + units - capacity) for one in used)
        over[units] = list(accumulate(beyond, initial=0))
    each = sum(
        min(
            over[hold.units][at + last] - over[hold.units][at]
            for at in range(begin - start, end - start - last + 1)
        )
        for hold, begin, end, last in spans
    )
    free = sum(max(0, capacity - one) for one in used)
    whole = sum(hold.units * last for hold, _, _, last in spans)
    return Want(resource, max(each, whole - free))


def _length(tables: Tables, hold: Hold, task: int) -> int:
    """Least minutes from the start of a hold's first task to the end of ``task`` of its lot."""
    if task == hold.first:
        return tables.least[task]
    lot = tables.problem.tasks[task].lot
    before = (
        _length(tables, hold, wait.before) + wait.minimum
        for wait in tables.waits_before[task]
        if tables.problem.tasks[wait.before].lot == lot
    )
    return max(before, default=0) + tables.least[task]


def _used(tables: Tables, plan: Incumbent, resource: int, begin: int, end: int) -> list[int]:
    """Units in use in each minute from ``begin`` to ``end``."""
    change = [0] * (end - begin + 1)
    for hold in tables.problem.holds:
        if hold.resource == resource and hold.last in plan.by_task:
            first = plan.by_task[hold.first]
            low = max(begin, first.start - first.lead.total)
            high = min(end, plan.by_task[hold.last].end + hold.tail)
            if low < high:
                change[low - begin] += hold.units
                change[high - begin] -= hold.units
    return list(accumulate(change))[:-1]
