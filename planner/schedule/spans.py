"""When each task lies in plans no shorter and no later than a known one, cook by cook.

A bound speaks only of plans no worse than the incumbent in every earlier term. In those no task is
later than the incumbent's weighted lateness allows, and, where nothing is short, all that is wanted
is made. So every due time is a deadline, and waits carry it back along the chains. The windows hold
for every such plan; what they rule out is in none of them.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from planner.schedule.problem import Wait
from planner.schedule.tables import Tables
from planner.schedule.timetable import Score
from planner.stretches import Stretch, last_free, next_free

_PASSES = 4
"""Times the waits are gone through both ways; each pass is valid by itself."""


@dataclass
class Spans:
    """Per task: least and greatest start and end, and per cook who can still do it, the same.

    ``by_worker[t][w]``: (earliest start, latest end) of task ``t`` by cook ``w``. Empty: in no plan
    that is no worse is the task done.
    """

    certain: frozenset[int]
    earliest: list[int]
    soonest: list[int]
    latest_start: list[int]
    latest: list[int]
    by_worker: list[dict[int, tuple[int, int]]] = field(default_factory=list)
    possible: bool = True
    """False: no plan at all makes what is certain, so there is nothing to bound."""


def spans_of(tables: Tables, score: Score) -> Spans:
    """Work out the spans of plans with no more than ``score.short`` and ``score.tardiness``."""
    problem = tables.problem
    certain = tables.wanted - tables.impossible if score.short == 0 else frozenset()
    latest = _deadlines(tables, score, certain)
    spans = Spans(
        certain,
        list(tables.earliest),
        list(tables.soonest),
        [high - least for high, least in zip(latest, tables.least, strict=True)],
        latest,
    )
    for _ in range(_PASSES):
        before = (*spans.earliest, *spans.soonest, *spans.latest_start, *spans.latest)
        for index in tables.order:
            for wait in tables.waits_before[index]:
                if _bound_together(tables, certain, wait.after, wait.before):
                    _push(spans, wait)
            _narrow(tables, spans, index)
        for index in reversed(tables.order):
            for wait in tables.waits_after[index]:
                if _bound_together(tables, certain, wait.before, wait.after):
                    _pull(spans, wait)
            _narrow(tables, spans, index)
        if before == (*spans.earliest, *spans.soonest, *spans.latest_start, *spans.latest):
            break
    spans.by_worker = [_by_worker(tables, spans, index) for index in range(len(problem.tasks))]
    spans.possible = all(
        found or task.lot not in certain
        for found, task in zip(spans.by_worker, problem.tasks, strict=True)
    )
    return spans


def _deadlines(tables: Tables, score: Score, certain: Collection[int]) -> list[int]:
    """Latest end per task: what all others are late at least is not there to spend."""
    problem = tables.problem
    least = [
        task.due_weight * max(0, tables.soonest[index] - task.due)
        if task.due is not None and task.lot in certain
        else 0
        for index, task in enumerate(problem.tasks)
    ]
    left = max(0, score.tardiness - sum(least))
    found = []
    for index, task in enumerate(problem.tasks):
        end = tables.latest[index]
        if task.due is not None and task.due_weight > 0:
            end = min(end, task.due + (left + least[index]) // task.due_weight)
        found.append(end)
    return found


def _bound_together(tables: Tables, certain: Collection[int], done: int, other: int) -> bool:
    """Whether ``other`` is done in every plan that does ``done``."""
    tasks, jobs = tables.problem.tasks, tables.problem.jobs
    lot = tasks[other].lot
    return lot == tasks[done].lot or lot in certain or lot in jobs[tasks[done].lot].needs


def _push(spans: Spans, wait: Wait) -> None:
    """What the task before says of the one after."""
    start = spans.soonest[wait.before] + wait.minimum
    spans.earliest[wait.after] = max(spans.earliest[wait.after], start)
    if wait.maximum is not None:
        start = spans.latest[wait.before] + wait.maximum
        spans.latest_start[wait.after] = min(spans.latest_start[wait.after], start)


def _pull(spans: Spans, wait: Wait) -> None:
    """What the task after says of the one before."""
    end = spans.latest_start[wait.after] - wait.minimum
    spans.latest[wait.before] = min(spans.latest[wait.before], end)
    if wait.maximum is not None:
        end = spans.earliest[wait.after] - wait.maximum
        spans.soonest[wait.before] = max(spans.soonest[wait.before], end)


def _narrow(tables: Tables, spans: Spans, index: int) -> None:
    """Fit the task to the cooks who can do it."""
    found = _by_worker(tables, spans, index)
    if not found:
        return
    minutes = tables.problem.tasks[index].minutes
    spans.earliest[index] = min(start for start, _ in found.values())
    spans.latest[index] = max(end for _, end in found.values())
    spans.soonest[index] = min(start + minutes[w] for w, (start, _) in found.items())
    spans.latest_start[index] = max(end - minutes[w] for w, (_, end) in found.items())


def _by_worker(tables: Tables, spans: Spans, index: int) -> dict[int, tuple[int, int]]:
    problem = tables.problem
    task = problem.tasks[index]
    set_up = problem.families[task.family].set_up
    found = {}
    for number, minutes in task.minutes.items():
        worker = problem.workers[number]
        # Work that may pause takes longer by the rests in it, if it does.
        longest = minutes
        away: Sequence[Stretch] = tables.walls[number]
        if task.pausable:
            longest += sum(rest.minutes for rest in worker.rests)
            away = worker.blocked
        # The set-up lies within the shift, before this task or before like work done earlier.
        low = max(spans.earliest[index], spans.soonest[index] - longest, worker.start + set_up)
        low = next_free(away, low, minutes)
        high = min(spans.latest[index], spans.latest_start[index] + longest, worker.latest_end)
        high = last_free(away, high - minutes, minutes) + minutes
        if low + minutes <= high:
            found[number] = (low, high)
    return found
