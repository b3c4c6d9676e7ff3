"""A plan as a network of tasks: what each one waits for if everybody keeps the plan's order.

Cooks do their tasks in the order of the sheet, places and vessels are taken in the order of the
plan, and food waits for what it is made of. When something takes longer, all that hangs on it
moves; when it takes shorter, cooks go on at once, but with food that must be fresh, must not wait
for its next step, or is out of the cold. A cook who is behind ends what was to be done before the
line, and comes to the line late.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from graphlib import TopologicalSorter
from itertools import pairwise

from planner.rates.under_way import UnderWay
from planner.schedule.problem import Problem
from planner.schedule.rests import slots_of
from planner.schedule.timetable import Assignment, Timetable


@dataclass(frozen=True, slots=True)
class Away:
    """A cook's stretch away between two tasks.

    A break (``fixed`` False) lasts ``minutes`` from when the cook is free, but not before
    ``start``; the line (``fixed``) ends at ``end`` whatever happens.
    """

    start: int
    end: int
    fixed: bool


@dataclass(slots=True)
class Node:
    """One task: what is before it, and what it takes. Minutes.

    Attributes
    ----------
    lead
        Lead other than set-up; ``set_up`` is apart.
    work
        Hands-on minutes by the plan; ``paused`` are those of breaks within.
    floor
        No earlier start than this, whatever is done sooner.
    cook_before
        Place of the cook's task before it; None for the first.
    away
        What the cook is away for between the two, in order.
    food_before
        (place, minutes after its end): the food is there.
    room_before
        (place, minutes after its end): the place or vessel is free for the lead.
    batch
        Number of the run of one family by one cook that it is part of.
    begun
        When its work began, where it has; ``ended`` when it was done, where it is.
    """

    task: int
    worker: int
    set_up: int
    lead: int
    work: int
    paused: int
    floor: int
    present: int
    batch: int
    cook_before: int | None = None
    away: tuple[Away, ...] = ()
    food_before: list[tuple[int, int]] = field(default_factory=list)
    room_before: list[tuple[int, int]] = field(default_factory=list)
    begun: int | None = None
    ended: int | None = None


@dataclass(frozen=True, slots=True)
class Network:
    """Tasks in an order in which each comes after all that it waits for; ``place`` by task.

    ``now`` is when a day under way is looked at; None: from its beginning.
    """

    nodes: tuple[Node, ...]
    place: Mapping[int, int]
    batches: int
    now: int | None = None


def network_of(
    problem: Problem, timetable: Timetable, under_way: UnderWay | None = None
) -> Network:
    """Read the network from a timetable that keeps the rules of its problem.

    Of a day ``under_way``, what has begun is as it is, and nothing else begins before its minute.
    """
    order = _in_order(problem, timetable)
    place = {item.task: at for at, item in enumerate(order)}
    bound = _kept_to_the_clock(problem)
    nodes = tuple(_node(problem, item, bound, under_way) for item in order)
    batches = _cooks(problem, timetable, order, nodes, under_way)
    for wait in problem.waits:
        if wait.before in place and wait.after in place:
            nodes[place[wait.after]].food_before.append((place[wait.before], wait.minimum))
    _rooms(problem, order, nodes, place)
    return Network(nodes, place, batches, None if under_way is None else under_way.now)


def _in_order(problem: Problem, timetable: Timetable) -> list[Assignment]:
    """By start, then end; where both are equal, what is waited for first."""
    sorter: TopologicalSorter[int] = TopologicalSorter(dict.fromkeys(range(len(problem.tasks)), ()))
    for wait in problem.waits:
        sorter.add(wait.after, wait.before)
    turn = {task: at for at, task in enumerate(sorter.static_order())}
    return sorted(timetable.assignments, key=lambda one: (one.start, one.end, turn[one.task]))


def _kept_to_the_clock(problem: Problem) -> frozenset[int]:
    """Tasks that are not begun sooner than planned, though they could be."""
    found = {wait.before for wait in problem.waits if wait.maximum is not None}
    found |= {exposure.first for exposure in problem.exposures}
    found |= {i for i, task in enumerate(problem.tasks) if task.earliest_end is not None}
    return frozenset(found)


def _node(
    problem: Problem, item: Assignment, bound: frozenset[int], under_way: UnderWay | None
) -> Node:
    task = problem.tasks[item.task]
    minutes = task.minutes[item.worker]
    node = Node(
        task=item.task,
        worker=item.worker,
        set_up=item.lead.set_up,
        lead=item.lead.total - item.lead.set_up,
        work=minutes,
        paused=item.end - item.start - minutes,
        floor=item.start if item.task in bound else task.release,
        present=problem.workers[item.worker].start,
        batch=0,
    )
    if under_way is not None:
        _stands(node, item, under_way, pausable=task.pausable)
    return node


def _stands(node: Node, item: Assignment, under_way: UnderWay, *, pausable: bool) -> None:
    """Note how far a task has come."""
    now = under_way.now
    if item.task in under_way.begun:
        if not pausable:
            node.paused = 0  # What it takes longer than planned is no break.
        node.begun = item.start
        if item.end <= now:
            node.ended = item.end
        elif item.end > max(item.start + node.work + node.paused, now + 1):
            node.work = item.end - item.start  # Somebody has said that it will take so long.
        return
    node.present = max(node.present, now, under_way.free.get(item.worker, now))
    node.floor = max(node.floor, under_way.ready.get(item.task, node.floor))


def _cooks(
    problem: Problem,
    timetable: Timetable,
    order: list[Assignment],
    nodes: tuple[Node, ...],
    under_way: UnderWay | None,
) -> int:
    """Link each cook's tasks, with breaks and the line between them; number the batches."""
    lanes: dict[int, list[int]] = defaultdict(list)
    for at, item in enumerate(order):
        lanes[item.worker].append(at)
    rests = slots_of(problem, timetable)
    batches = -1
    for index, lane in lanes.items():
        worker = problem.workers[index]
        away = [Away(start, end, True) for start, end in worker.blocked]
        for (start, end), rest in zip(rests[index], worker.rests, strict=True):
            away.append(_break(start, end, rest.earliest, under_way))
        planned = sorted(
            zip(away, [*worker.blocked, *rests[index]], strict=True), key=lambda pair: pair[1]
        )
        family = None
        since = -1
        for position, at in enumerate(lane):
            node, item = nodes[at], order[at]
            begin = item.start - item.lead.total
            node.away = tuple(one for one, (start, _) in planned if since <= start < begin)
            since = item.end
            node.cook_before = lane[position - 1] if position else None
            own = problem.tasks[item.task].family
            if own != family or item.lead.set_up:
                batches += 1
            family, node.batch = own, batches
    return batches + 1


def _break(start: int, end: int, earliest: int, under_way: UnderWay | None) -> Away:
    """A break as the cook takes it; one that has begun ends when it does, or has ended."""
    if under_way is not None and start < under_way.now:
        return Away(start, end, True)
    first = min(start, earliest)
    if under_way is not None:
        first = max(first, under_way.now)
    return Away(first, first + end - start, False)


def _rooms(
    problem: Problem, order: list[Assignment], nodes: tuple[Node, ...], place: Mapping[int, int]
) -> None:
    """Whoever takes a unit waits for who had it before.

    Where units are not told apart, one takes those that have been free the longest.
    """
    by_resource: dict[int, list[int]] = defaultdict(list)
    for index, hold in enumerate(problem.holds):
        if hold.first in place and hold.last in place:
            by_resource[hold.resource].append(index)
    named = {hold: unit for item in order for hold, unit in item.units}
    for resource, holds in by_resource.items():
        holds.sort(key=lambda hold: _begin(order[place[problem.holds[hold].first]]))
        lines: dict[int, list[int]] = defaultdict(list)
        free: list[tuple[int, int, int]] = [
            (-1, unit, -1) for unit in range(problem.resources[resource].capacity)
        ]
        for index in holds:
            hold = problem.holds[index]
            if index in named:
                lines[named[index]].append(index)
                continue
            free.sort()
            taken, free = free[: hold.units], free[hold.units :]
            for _, unit, before in taken:
                if before >= 0:
                    _after(problem, nodes, place, before, index)
                end = order[place[hold.last]].end + hold.tail
                free.append((end, unit, index))
        for line in lines.values():
            for before, index in pairwise(line):
                _after(problem, nodes, place, before, index)


def _begin(item: Assignment) -> tuple[int, int]:
    """When a hold that opens with this task does."""
    return item.start - item.lead.total, item.start


def _after(
    problem: Problem, nodes: tuple[Node, ...], place: Mapping[int, int], before: int, hold: int
) -> None:
    earlier, later = problem.holds[before], problem.holds[hold]
    last, first = place[earlier.last], place[later.first]
    if last < first:
        nodes[first].room_before.append((last, earlier.tail))
