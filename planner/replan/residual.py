"""What is left to schedule: the new lots, the ends of those under way, and how things stand."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.lots.promises import OWN
from planner.lots.types import Lot, LotTask, Workload
from planner.replan.begun import Begun, Standing, work_of
from planner.replan.board import CLEAN, Board
from planner.replan.breaks import Breaks, breaks_of
from planner.replan.course import Course
from planner.replan.events import CookGone, CookLate, Event
from planner.replan.links import Link
from planner.replan.stand import in_use_since, named_units, stand
from planner.schedule.problem import Hold, Job, Wait, Worker

_NEVER_LEFT = 1000
"""Weight of a lot that is under way: it is taken out before anything new is made."""
_OVERDUE_WEIGHT = 10
"""Of each minute that food is looked at or taken out too late."""


@dataclass(frozen=True, slots=True)
class Residual:
    """The rest of the day as a workload.

    Its lots are the ``new_lots`` that have not begun, then those under way, with the tasks that are
    left of them; jobs beyond the lots say how cooks, boards and equipment stand. ``old_task`` says
    which task of the old problem a task of a lot under way was, ``old_unit`` which unit (resource
    id, number) a hold that stands since before had.
    """

    workload: Workload
    new_lots: int
    under_way: tuple[Begun, ...]
    old_task: dict[int, int]
    old_unit: dict[int, tuple[str, int]]
    breaks: tuple[Breaks, ...] = ()
    """By cook."""


def residual(
    before: Course,
    new: Workload,
    day: Standing,
    links: tuple[Link, ...],
    events: tuple[Event, ...],
) -> Residual:
    """Join the ``new`` lots with what is under way, from ``day.now`` on.

    A task under way keeps its cook, who is free when it ends. What else is left of a begun lot
    (looking at it, taking it out) is for anybody who can. Its equipment stays taken until then.
    Hands and boards stay as unclean as they are.
    """
    board = Board.of(new.problem, day.now)
    breaks, board.workers = _workers(before, day, events)
    lots = list(new.lots)
    old_task: dict[int, int] = {}
    job_of: dict[int, int] = {}
    units = named_units(before)
    old_unit: dict[int, tuple[str, int]] = {}
    under_way = tuple(one for one in day.begun if one.under_way)
    for one in under_way:
        job = job_of[one.lot.index] = len(lots)
        mine = _carry_on(board, before, one, job)
        for old, hold in _hold_on(board, before, day, one, mine):
            if old in units:
                old_unit[hold] = board.resources[board.holds[hold].resource].id, units[old]
        old_task |= {task: old for old, task in mine.items() if old in one.left}
        lots.append(_rest_of(one, job, mine))
    ready: dict[int, int] = {}
    task_of = {old: task for task, old in old_task.items()}
    for link in links:
        if link.since is not None:
            _keep_clock(board, new, link, day, task_of, ready)
        elif link.begun.to_take_out:
            _wait_for_job(board, new, link, job_of[link.begun.lot.index])
        else:
            _wait_for_food(board, new, link, ready)
    old_unit |= stand(board, before, day, events)
    workload = Workload(tuple(lots), board.problem(new.problem), new.cooks)
    return Residual(workload, len(new.lots), under_way, old_task, old_unit, breaks)


def _workers(
    before: Course, day: Standing, events: tuple[Event, ...]
) -> tuple[tuple[Breaks, ...], list[Worker]]:
    """Each cook from when they are free; one who comes late sets up the station then."""
    gone = {event.cook: event.at for event in events if isinstance(event, CookGone)}
    late = {event.cook: event.until for event in events if isinstance(event, CookLate)}
    work = before.workload
    comes_in = {
        index: late[cook]
        for index, (cook, worker) in enumerate(zip(work.cooks, work.problem.workers, strict=True))
        if late.get(cook, worker.start) > worker.start
    }
    breaks, workers = [], []
    for index, own in enumerate(breaks_of(before, day, comes_in)):
        cook, worker = work.cooks[index], work.problem.workers[index]
        latest = min(worker.latest_end, gone.get(cook, worker.latest_end))
        start = max(worker.start, day.now, day.busy.get(index, 0))
        if index in comes_in:
            set_up = sum(end - begin for begin, end in worker.blocked if begin == worker.start)
            start = max(start, comes_in[index] + set_up)
        for begin, end in sorted([*worker.blocked, *own.over]):
            if begin <= start < end:
                start = end
        start = min(start, max(latest, day.now))
        free = replace(
            worker,
            start=start,
            end=max(start, min(worker.end, latest)),
            latest_end=max(start, latest),
            blocked=tuple(stretch for stretch in worker.blocked if stretch[1] > start),
        )
        kept, ahead = own.after(free, worker.rests)
        breaks.append(kept)
        workers.append(ahead)
    return tuple(breaks), workers


def _carry_on(board: Board, before: Course, one: Begun, job: int) -> dict[int, int]:
    """Put what is left of a begun lot on the board; returns its tasks by those of before.

    The work that has begun is a mark. What waits at most so long for it is due then, not dropped
    when that cannot be kept: food in the oven is there whether or not it fits the plan.
    """
    problem = before.workload.problem
    work = work_of(one.lot)
    mark = board.mark(job, problem.families[problem.tasks[work].family].hygiene)
    mine: dict[int, int] = {work: mark}
    for index in one.left:
        task = problem.tasks[index]
        family = board.family(problem.families[task.family])
        mine[index] = board.task(
            # It must come out however late it is.
            replace(task, lot=job, family=family, release=max(task.release, board.now), until=None)
        )
    overran = one.ready - one.lot.unattended - one.work_end
    for wait in problem.waits:
        if wait.after not in mine or wait.before not in mine:
            continue
        after = mine[wait.after]
        if wait.before != work:
            board.waits.append(replace(wait, before=mine[wait.before], after=after))
            continue
        since = one.work_end + overran
        board.waits.append(Wait(mark, after, max(0, since + wait.minimum - board.now)))
        if wait.maximum is not None:
            task = board.tasks[after]
            due = since + wait.maximum + min(task.minutes.values(), default=0)
            if task.due is None or due < task.due:
                board.tasks[after] = replace(task, due=due, due_weight=_OVERDUE_WEIGHT)
    must = board.must(f"{OWN}:{one.lot.id}", _NEVER_LEFT)
    tasks = (mark, *(mine[index] for index in one.left))
    board.jobs.append(Job(one.lot.id, tasks, serves=(must,)))
    return mine


def _hold_on(
    board: Board, before: Course, day: Standing, one: Begun, mine: dict[int, int]
) -> Iterator[tuple[int, int]]:
    """Places and equipment that a lot under way has or will need: (old hold, new hold)."""
    problem = before.workload.problem
    since = in_use_since(before, day)
    for index, hold in enumerate(problem.holds):
        if hold.last in one.left and hold.first in mine:
            resource = board.resource(problem.resources[hold.resource])
            board.holds.append(
                Hold(
                    resource,
                    mine[hold.first],
                    mine[hold.last],
                    hold.units,
                    hold.tail,
                    since.get(index),
                )
            )
            yield index, len(board.holds) - 1


def _rest_of(one: Begun, job: int, mine: dict[int, int]) -> Lot:
    """The lot under way, with the tasks that are left of it."""
    left = tuple(
        LotTask(mine[item.task], item.part, item.book_minutes)
        for item in one.lot.tasks
        if item.task in one.left
    )
    return replace(one.lot, index=job, tasks=left, upstream=(), pulls=(), stock=())


def _wait_for_job(board: Board, new: Workload, link: Link, job: int) -> None:
    """Let a lot start when what it takes is taken out, and before that has waited too long."""
    lot = new.lots[link.lot]
    last = board.jobs[job].tasks[-1]
    board.waits.append(Wait(last, work_of(lot), link.least, link.most))
    mine = board.jobs[lot.index]
    board.jobs[lot.index] = replace(mine, needs=tuple(sorted({*mine.needs, job})))


def _wait_for_food(board: Board, new: Workload, link: Link, ready: dict[int, int]) -> None:
    """The same of food that is there, or will be without anybody's doing."""
    first, one = work_of(new.lots[link.lot]), link.begun
    task = board.tasks[first]
    board.tasks[first] = replace(task, release=max(task.release, one.ready + link.least))
    if link.most is not None:
        _wait_since_now(board, link, first, ready, one.ready + link.most)


def _wait_since_now(
    board: Board, link: Link, first: int, ready: dict[int, int], latest: int
) -> None:
    """Let ``first`` start by ``latest`` (minutes): so long after a mark that is there now."""
    one = link.begun
    if one.lot.index not in ready:
        job = len(board.jobs)
        ready[one.lot.index] = board.mark(job, CLEAN)
        board.jobs.append(Job(f"{one.lot.id} is there", (ready[one.lot.index],)))
    mine, needed = board.jobs[link.lot], board.tasks[ready[one.lot.index]].lot
    board.jobs[link.lot] = replace(mine, needs=tuple(sorted({*mine.needs, needed})))
    board.waits.append(Wait(ready[one.lot.index], first, 0, max(0, latest - board.now)))


def _keep_clock(
    board: Board,
    new: Workload,
    link: Link,
    day: Standing,
    task_of: dict[int, int],
    ready: dict[int, int],
) -> None:
    """A clock that a task of the old plan starts runs on, whether that task is over or not."""
    if link.since is None or link.most is None:
        return
    first = work_of(new.lots[link.lot])
    ended = day.ended.get(link.since)
    if ended is not None:
        _wait_since_now(board, link, first, ready, ended + link.most)
    elif link.since in task_of:
        task = task_of[link.since]
        board.waits.append(Wait(task, first, 0, link.most))
        mine = board.jobs[link.lot]
        needs = tuple(sorted({*mine.needs, board.tasks[task].lot}))
        board.jobs[link.lot] = replace(mine, needs=needs)
