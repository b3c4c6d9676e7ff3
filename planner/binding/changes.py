"""Changes of a scheduling problem: more hands, more room, an earlier start."""

from collections.abc import Collection
from dataclasses import replace
from typing import TypeVar

from planner.schedule.problem import Problem, Task, Worker

_Value = TypeVar("_Value")


def extra_hands(
    problem: Problem, begin: int, minutes: int, tasks: Collection[int] | None = None
) -> Problem:
    """Somebody more, as fast as the slowest who can, for some ``tasks`` or all that any can do."""
    helper = Worker("extra", begin, begin + minutes, begin + minutes)
    index = len(problem.workers)
    changed = tuple(
        replace(task, minutes={**task.minutes, index: max(task.minutes.values())})
        if task.minutes and (tasks is None or number in tasks)
        else task
        for number, task in enumerate(problem.tasks)
    )
    horizon = max(problem.horizon, helper.latest_end)
    return replace(problem, workers=(*problem.workers, helper), tasks=changed, horizon=horizon)


def one_more(problem: Problem, resource: int) -> Problem:
    """One more unit of a resource."""
    wider = replace(problem.resources[resource], capacity=problem.resources[resource].capacity + 1)
    return replace(problem, resources=_replaced(problem.resources, resource, wider))


def in_earlier(
    problem: Problem, workers: Collection[int], minutes: int, delivered: Collection[int]
) -> Problem:
    """Some cooks in ``minutes`` earlier; all that is not ``delivered`` (tasks) may then begin.

    What a cook does at the start of the shift (setting up the station) moves with it; breaks and
    times on the line stay.
    """
    changed = tuple(
        _earlier(worker, minutes) if index in workers else worker
        for index, worker in enumerate(problem.workers)
    )
    start = min([problem.start, *(changed[index].start for index in workers)])
    tasks = tuple(
        replace(task, release=start)
        if task.release == problem.start and number not in delivered
        else task
        for number, task in enumerate(problem.tasks)
    )
    return replace(problem, start=start, workers=changed, tasks=tasks)


def out_later(problem: Problem, worker: int, minutes: int) -> Problem:
    """A cook's shift longer at its end, overtime apart."""
    one = problem.workers[worker]
    longer = replace(one, end=one.end + minutes, latest_end=one.latest_end + minutes)
    horizon = max(problem.horizon, longer.latest_end)
    workers = _replaced(problem.workers, worker, longer)
    return replace(problem, workers=workers, horizon=horizon)


def delivered_earlier(problem: Problem, tasks: Collection[int], minutes: int) -> Problem:
    """What some tasks wait for, delivered earlier; never before the day begins."""
    changed = tuple(
        replace(task, release=max(problem.start, task.release - minutes))
        if number in tasks
        else task
        for number, task in enumerate(problem.tasks)
    )
    return replace(problem, tasks=changed)


def given_to(problem: Problem, tasks: Collection[int], worker: int) -> Problem:
    """Some tasks for one cook only, who must be able to do them."""
    changed: list[Task] = list(problem.tasks)
    for task in tasks:
        changed[task] = replace(changed[task], minutes={worker: changed[task].minutes[worker]})
    return replace(problem, tasks=tuple(changed))


def _earlier(worker: Worker, minutes: int) -> Worker:
    blocked = tuple(
        (begin - minutes, end - minutes) if begin == worker.start else (begin, end)
        for begin, end in worker.blocked
    )
    return replace(worker, start=worker.start - minutes, blocked=blocked)


def _replaced(values: tuple[_Value, ...], index: int, value: _Value) -> tuple[_Value, ...]:
    return (*values[:index], value, *values[index + 1 :])
