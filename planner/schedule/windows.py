"""When each task can start and end at all, whatever else is made, by calendars and waits."""

from collections.abc import Sequence
from dataclasses import dataclass

from planner.schedule.problem import Problem, Task, Wait
from planner.schedule.rests import walls_of
from planner.stretches import next_free


@dataclass(frozen=True, slots=True)
class Windows:
    """Per task: earliest start and end, latest end, and the latest start that is on time."""

    earliest: tuple[int, ...]
    soonest: tuple[int, ...]
    latest: tuple[int, ...]
    urgency: tuple[int, ...]


def windows_of(
    problem: Problem,
    before: Sequence[Sequence[Wait]],
    after: Sequence[Sequence[Wait]],
    least: Sequence[int],
    order: Sequence[int],
) -> Windows:
    """Work out the windows; ``order`` has every task after those its waits come from."""
    earliest, soonest = _forward(problem, before, order)
    latest, urgency = _backward(problem, after, least, order)
    return Windows(tuple(earliest), tuple(soonest), tuple(latest), tuple(urgency))


def _forward(
    problem: Problem, before: Sequence[Sequence[Wait]], order: Sequence[int]
) -> tuple[list[int], list[int]]:
    tasks = problem.tasks
    earliest, soonest = [0] * len(tasks), [0] * len(tasks)
    walls = [walls_of(worker) for worker in problem.workers]
    for index in order:
        task = tasks[index]
        start = max(task.release, problem.start)
        # Only the waits of jobs that are done whenever this one is bind it for certain.
        certain = (task.lot, *problem.jobs[task.lot].needs)
        for wait in before[index]:
            if tasks[wait.before].lot in certain:
                start = max(start, soonest[wait.before] + wait.minimum)
        set_up = problem.families[task.family].set_up
        starts, ends = [], []
        for number, minutes in task.minutes.items():
            worker = problem.workers[number]
            low = max(start, worker.start + set_up)
            least_end = task.earliest_end or 0
            pauses = sum(rest.minutes for rest in worker.rests) if task.pausable else 0
            low = max(low, least_end - minutes - pauses)
            # A rest that may move, or that work may be put down over, is in nobody's way.
            away = worker.blocked if task.pausable else walls[number]
            low = next_free(away, low, minutes)
            starts.append(low)
            end = max(low + minutes, least_end)
            if end <= worker.latest_end:
                ends.append(end)
        earliest[index] = min(starts, default=start)
        # Where no cook has the time the task cannot be done: after everything.
        soonest[index] = min(ends, default=2 * problem.horizon + start)
    return earliest, soonest


def _longest(problem: Problem, task: Task) -> int:
    """Minutes from start to end that nobody needs more of, breaks within it counted."""
    return max(
        (
            minutes
            + (sum(r.minutes for r in problem.workers[worker].rests) if task.pausable else 0)
            for worker, minutes in task.minutes.items()
        ),
        default=0,
    )


def _backward(
    problem: Problem,
    after: Sequence[Sequence[Wait]],
    least: Sequence[int],
    order: Sequence[int],
) -> tuple[list[int], list[int]]:
    tasks = problem.tasks
    latest, urgency = [problem.horizon] * len(tasks), [problem.horizon] * len(tasks)
    for index in reversed(order):
        task = tasks[index]
        end = problem.horizon if task.until is None else min(problem.horizon, task.until)
        if task.start_by is not None:
            end = min(end, task.start_by + _longest(problem, task))
        soft = end if task.due is None else min(end, task.due)
        for wait in after[index]:
            if tasks[wait.after].lot == task.lot:
                end = min(end, latest[wait.after] - least[wait.after] - wait.minimum)
            soft = min(soft, urgency[wait.after] - wait.minimum)
        latest[index] = end
        urgency[index] = soft - least[index]
    return latest, urgency
