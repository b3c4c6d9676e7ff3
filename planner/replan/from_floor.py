"""What cooks ticked, as a replan reads it: who did which task from when to when."""

from collections import defaultdict
from collections.abc import Iterator

from planner.floor.state import Floor, TaskState
from planner.replan.course import Course
from planner.replan.events import Progress
from planner.schedule.timetable import Assignment


def progress_of_floor(course: Course, floor: Floor, now: int) -> tuple[Progress, ...]:
    """Tell of every task that was ticked, and of those that plainly have not begun.

    A cook who ticks tells by it that what comes after their last tick has not begun, whatever was
    planned; what comes before it was done and the tick forgotten. Of a cook who ticked nothing the
    plan is believed: they may work from paper. Times are whole minutes, none after ``now``.
    """
    lines: dict[int, list[Assignment]] = defaultdict(list)
    for item in course.timetable.assignments:
        lines[item.worker].append(item)
    ids = [task.id for task in course.workload.problem.tasks]
    found: list[Progress] = []
    for worker, line in lines.items():
        line.sort(key=lambda item: (item.start, item.end))
        states = [floor.of(ids[item.task]) for item in line]
        last = max((n for n, state in enumerate(states) if _ticked(state)), default=None)
        if last is None:
            continue
        cook = course.workload.cooks[worker]
        found += _ticks(line, states, last, cook, now)
        found += [
            Progress(item.task, cook, max(now, item.start))
            for item in line[last + 1 :]
            if item.start - item.lead.total < now
        ]
    return tuple(found)


def _ticks(
    line: list[Assignment], states: list[TaskState], last: int, cook: str, now: int
) -> Iterator[Progress]:
    """What is told of a cook's tasks up to the last that was ticked, one after the other."""
    free = 0
    for item, state in zip(line[: last + 1], states[: last + 1], strict=True):
        if not _ticked(state):
            free = max(free, min(item.end, now))
            continue
        begun = None if state.begun is None else round(state.begun.at)
        done = None if state.done is None else min(round(state.done.at), now)
        start = begun
        if start is None and done is not None:
            start = done - (item.end - item.start)
        # One after the other, even where ticks were late: a cook has two hands.
        start = min(max(start or 0, free), now if done is None else done)
        free = start if done is None else done
        yield Progress(item.task, cook, start, done)


def _ticked(state: TaskState) -> bool:
    return state.begun is not None or state.done is not None
