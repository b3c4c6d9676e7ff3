"""What is left to schedule: the new lots, the ends of those under way, and how things stand."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.lots.promises import OWN
from planner.lots.types import Lot, LotTask, Part, Workload
from planner.replan.begun import Begun, Standing
from planner.replan.board import Board
from planner.replan.events import CookGone, CookLate, EquipmentDown, Event
from planner.replan.kitchen import UnknownEventError
from planner.replan.links import Link
from planner.schedule.problem import Hold, Hygiene, Job, Problem, Wait, Worker
from planner.schedule.timetable import Assignment, Timetable

_NEVER_LEFT = 1000
"""Weight of a lot that is under way: it is taken out before anything new is made."""


@dataclass(frozen=True, slots=True)
class Residual:
    """The rest of the day as a workload.

    Its lots are the ``new_lots`` that have not begun, then those under way, with the tasks that are
    left of them; jobs beyond the lots say how cooks, boards and equipment stand. ``old_task`` says
    which task of the old problem a task of a lot under way was.
    """

    workload: Workload
    new_lots: int
    under_way: tuple[Begun, ...]
    old_task: dict[int, int]


@dataclass(frozen=True, slots=True)
class Before:
    """The plan that was being followed."""

    workload: Workload
    timetable: Timetable


def residual(
    before: Before,
    new: Workload,
    day: Standing,
    links: tuple[Link, ...],
    events: tuple[Event, ...],
) -> Residual:
    """Join the ``new`` lots with what is under way, from ``day.now`` on.

    A task under way keeps its cook, who is free when it ends. What else is left of a begun lot
    (looking at it, taking it out) is for anybody who can. Its equipment stays taken until then.
    Hands and boards stay as unclean as they are.

    Raises
    ------
    UnknownEventError
        An event names a cook or equipment that the day does not have.
    """
    board = Board.of(new.problem, day.now)
    board.workers = list(_workers(new, day, events))
    lots = list(new.lots)
    old_task: dict[int, int] = {}
    job_of: dict[int, int] = {}
    under_way = tuple(one for one in day.begun if one.under_way and not one.spoiled)
    for one in under_way:
        job = job_of[one.lot.index] = len(lots)
        mine = _carry_on(board, before.workload.problem, one, job)
        old_task |= {task: old for old, task in mine.items()}
        lots.append(_rest_of(one, job, mine))
    for link in links:
        if not link.begun.spoiled:
            _wait_for(board, new, link, job_of)
    _stand(board, before, day, events)
    workload = Workload(tuple(lots), board.problem(new.problem), new.cooks)
    return Residual(workload, len(new.lots), under_way, old_task)


def _workers(new: Workload, day: Standing, events: tuple[Event, ...]) -> Iterator[Worker]:
    gone = {event.cook: event.at for event in events if isinstance(event, CookGone)}
    late = {event.cook: event.until for event in events if isinstance(event, CookLate)}
    for cook in (*gone, *late):
        if cook not in new.cooks:
            known = ", ".join(new.cooks)
            raise UnknownEventError(f"cook '{cook}' is not one of those who are in: {known}")
    for index, (cook, worker) in enumerate(zip(new.cooks, new.problem.workers, strict=True)):
        latest = min(worker.latest_end, gone.get(cook, worker.latest_end))
        start = max(worker.start, day.now, day.busy.get(index, 0), late.get(cook, 0))
        for begin, end in sorted(worker.blocked):
            if begin <= start < end:
                start = end
        start = min(start, max(latest, day.now))
        yield replace(
            worker,
            start=start,
            end=max(start, min(worker.end, latest)),
            latest_end=max(start, latest),
            blocked=tuple(stretch for stretch in worker.blocked if stretch[1] > start),
        )


def _carry_on(board: Board, problem: Problem, one: Begun, job: int) -> dict[int, int]:
    """Put what is left of a begun lot on the board; returns its tasks by those of before."""
    work = next(item.task for item in one.lot.tasks if item.part is Part.WORK)
    mark = board.mark(job, problem.families[problem.tasks[work].family].hygiene)
    mine: dict[int, int] = {}
    for index in one.left:
        task = problem.tasks[index]
        family = board.family(problem.families[task.family])
        release = max(task.release, board.now)
        mine[index] = board.task(replace(task, lot=job, family=family, release=release))
    overran = one.ready - one.lot.unattended - one.work_end
    since = board.now - one.work_end
    for wait in problem.waits:
        if wait.after not in mine:
            continue
        if wait.before in mine:
            board.waits.append(replace(wait, before=mine[wait.before], after=mine[wait.after]))
        elif wait.before == work:
            most = None if wait.maximum is None else wait.maximum + overran - since
            # What is past its time is taken out as soon as somebody can.
            most = None if most is None or most < 0 else most
            least = max(0, wait.minimum + overran - since)
            board.waits.append(Wait(mark, mine[wait.after], least, most))
    for hold in problem.holds:
        if hold.last in mine:
            resource = board.resource(problem.resources[hold.resource])
            first = mine.get(hold.first, mark)
            board.holds.append(Hold(resource, first, mine[hold.last], hold.units, hold.tail))
    must = board.must(f"{OWN}:{one.lot.id}", _NEVER_LEFT)
    board.jobs.append(Job(one.lot.id, (mark, *mine.values()), serves=(must,)))
    return mine


def _rest_of(one: Begun, job: int, mine: dict[int, int]) -> Lot:
    """The lot under way, with the tasks that are left of it."""
    left = tuple(
        LotTask(mine[item.task], item.part, item.book_minutes)
        for item in one.lot.tasks
        if item.task in mine
    )
    return replace(one.lot, index=job, tasks=left, upstream=(), pulls=(), stock=())


def _wait_for(board: Board, new: Workload, link: Link, job_of: dict[int, int]) -> None:
    """Let a lot start when what it takes is there, and before that has waited too long."""
    lot, one = new.lots[link.lot], link.begun
    first = next(item.task for item in lot.tasks if item.part is Part.WORK)
    if one.under_way:
        job = job_of[one.lot.index]
        last = board.jobs[job].tasks[-1]
        board.waits.append(Wait(last, first, link.least, link.most))
        mine = board.jobs[lot.index]
        board.jobs[lot.index] = replace(mine, needs=tuple(sorted({*mine.needs, job})))
        return
    task = board.tasks[first]
    release = max(task.release, one.ready + link.least)
    until = task.until
    if link.most is not None and task.minutes:
        soonest = one.ready + link.most + max(task.minutes.values())
        until = soonest if until is None else min(until, soonest)
    board.tasks[first] = replace(task, release=release, until=until)


def _stand(board: Board, before: Before, day: Standing, events: tuple[Event, ...]) -> None:
    """Hands, boards and equipment as they are: one job that is always done."""
    job = len(board.jobs)
    marks = [
        *_hands(board, before, day, job),
        *_boards(board, before, day, job),
        *_equipment(board, before, day, events, job),
    ]
    if marks:
        must = board.must(f"{OWN}:as it stands", _NEVER_LEFT)
        board.jobs.append(Job("as it stands", tuple(marks), serves=(must,)))


def _hands(board: Board, before: Before, day: Standing, job: int) -> Iterator[int]:
    """What each cook was at last: it may go on without a set-up, or must be washed off."""
    problem = before.workload.problem
    last: dict[int, Assignment] = {}
    for item in before.timetable.assignments:
        if item.start < day.now and item.start >= last.get(item.worker, item).start:
            last[item.worker] = item
    for worker, item in sorted(last.items()):
        here = board.workers[worker]
        if here.start < here.latest_end:
            family = problem.families[problem.tasks[item.task].family]
            yield board.mark_hands(job, family, worker)


def _boards(board: Board, before: Before, day: Standing, job: int) -> Iterator[int]:
    """Each surface that somebody has left unclean; which of several it is does not matter."""
    problem = before.workload.problem
    starts = {item.task: item.start for item in before.timetable.assignments}
    ends = {item.task: item.end for item in before.timetable.assignments}
    last: dict[tuple[int, int], tuple[int, Hygiene]] = {}
    for item in before.timetable.assignments:
        for hold, unit in item.units:
            spec = problem.holds[hold]
            # One that is still in use is held by the lot under way.
            if starts[spec.first] >= day.now or starts[spec.last] >= day.now:
                continue
            hygiene = problem.families[problem.tasks[spec.first].family].hygiene
            key = (spec.resource, unit)
            if ends[spec.last] >= last.get(key, (-1, hygiene))[0]:
                last[key] = (ends[spec.last], hygiene)
    for (resource, _), (_, hygiene) in sorted(last.items(), key=lambda entry: entry[0]):
        if hygiene != Hygiene():
            mark = board.mark(job, hygiene)
            index = board.resource(problem.resources[resource])
            # A minute each, so that no two of them are the same surface.
            board.holds.append(Hold(index, mark, mark, 1, 1))
            yield mark


def _equipment(
    board: Board, before: Before, day: Standing, events: tuple[Event, ...], job: int
) -> Iterator[int]:
    """What is down, and what holds food that nobody takes out today."""
    taken: list[tuple[int, int, int]] = []
    problem = before.workload.problem
    lots = {one.lot.index: one for one in day.begun if not one.spoiled}
    for hold in problem.holds:
        one = lots.get(problem.tasks[hold.first].lot)
        if one is not None and hold.tail and not one.left:
            resource = board.resource(problem.resources[hold.resource])
            taken.append((resource, hold.units, max(one.ready, one.work_end + hold.tail)))
    by_id = {resource.id: index for index, resource in enumerate(board.resources)}
    for event in events:
        if isinstance(event, EquipmentDown):
            name = f"equipment:{event.equipment}"
            if name not in by_id:
                known = ", ".join(r.partition(":")[2] for r in by_id if r.startswith("equipment"))
                raise UnknownEventError(
                    f"equipment '{event.equipment}' is not used any more today; used are: {known}"
                )
            until = board_end(board) if event.until is None else event.until
            units = min(event.units, board.resources[by_id[name]].capacity)
            taken.append((by_id[name], units, until))
    for resource, units, until in taken:
        if until <= board.now:
            continue
        single = board.resources[resource].contact
        for _ in range(units if single else 1):
            mark = board.mark(job, Hygiene())
            board.holds.append(
                Hold(resource, mark, mark, 1 if single else units, until - board.now)
            )
            yield mark


def board_end(board: Board) -> int:
    """When the last cook has left (minutes)."""
    return max([board.now + 1, *(worker.latest_end for worker in board.workers)])
