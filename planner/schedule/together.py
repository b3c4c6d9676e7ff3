"""Where a cluster of tasks tied by maximum waits can go in a partial timetable."""

from planner.schedule.exposed import NOWHERE, keeps_others, too_long_out
from planner.schedule.in_use import over_when_closed
from planner.schedule.placing import best_placement
from planner.schedule.removal import refit
from planner.schedule.rests import Slot
from planner.schedule.state import FAR, State

_RETRIES = 120
"""Tries per cluster before its food is left short; each moves some task strictly later."""


def place_cluster(state: State, tasks: list[int], thrift: float) -> bool:
    """Put all ``tasks`` (in order of their waits) in, or none; tell whether they went in.

    Where a task comes too late after one before it, or a vessel is not free as long as it is
    needed, the earlier task is moved by what is missing and the cluster placed again.
    """
    not_before: dict[int, int] = {}
    state.wary.clear()
    for _ in range(_RETRIES):
        placed: list[tuple[int, int, tuple[Slot, ...]]] = []
        move: tuple[int, int] | None = None
        for task in tasks:
            earliest = earliest_start(state, task, not_before)
            found = best_placement(state, task, earliest, thrift, _latest(state, task))
            if found is None:
                break
            placed.append((task, found.worker, state.rests[found.worker]))
            state.put(task, found)
            if state.dice is not None and not _fits_behind(state, task):
                break
            move = too_late(state, task) or close_holds(state, task)
            if move is None and state.tables.exposed_by[task]:
                move = too_long_out(state, task, [one for one, _, _ in placed])
                if move == NOWHERE:
                    move = None
                    break
            if move is not None:
                break
        else:
            if not state.tables.exposed_next or keeps_others(state, tasks):
                return True
        for task, worker, rests in reversed(placed):
            _take_back(state, task, worker, rests)
        if move is None:
            return False
        not_before[move[0]] = max(not_before.get(move[0], 0), move[1])
    return False


def _take_back(state: State, task: int, worker: int, rests: tuple[Slot, ...]) -> None:
    """Undo the last put, and with it the lead that the work behind has saved by it.

    ``rests`` is where the worker's breaks were before it: where they are now the lead may be due.
    """
    entry = state.entries[task]
    line, place = state.lines[entry.worker], state.place(entry)
    behind = line[place + 1].task if place + 1 < len(line) else None
    state.remove(task)
    state.rests[worker] = rests
    if behind is not None and not refit(state, behind):
        raise AssertionError("what was free before a task was put in is not free after it")


def _fits_behind(state: State, task: int) -> bool:
    """Give the work behind a task on its cook's line the lead it needs now, if there is room."""
    entry = state.entries[task]
    line = state.lines[entry.worker]
    place = state.place(entry) + 1
    return place == len(line) or refit(state, line[place].task)


def earliest_start(state: State, task: int, not_before: dict[int, int]) -> int:
    """Earliest start by release, by what is in place before it, and by ``not_before``."""
    tables = state.tables
    earliest = max(
        tables.problem.tasks[task].release, tables.problem.start, not_before.get(task, 0)
    )
    for wait in tables.waits_before[task]:
        entry = state.entries.get(wait.before)
        if entry is not None:
            earliest = max(earliest, entry.end + wait.minimum)
    return earliest


def _latest(state: State, task: int) -> int:
    """Latest end before what comes after it and is in place already."""
    latest = FAR
    for wait in state.tables.waits_after[task]:
        entry = state.entries.get(wait.after)
        if entry is not None:
            latest = min(latest, entry.start - wait.minimum)
    return latest


def too_late(state: State, task: int) -> tuple[int, int] | None:
    """The task before this one that must move, and to when, so that no wait is too long."""
    start = state.entries[task].start
    for wait in state.tables.waits_before[task]:
        entry = state.entries.get(wait.before)
        if entry is not None and wait.maximum is not None:
            excess = start - entry.end - wait.maximum
            if excess > 0:
                return wait.before, entry.start + excess
    return None


def close_holds(state: State, task: int) -> tuple[int, int] | None:
    """Take what this task closes; where it is not free throughout, say what must move."""
    tables = state.tables
    for hold in tables.closes[task]:
        spec = tables.problem.holds[hold]
        if spec.first == task:
            continue
        opener = state.entries[spec.first]
        end = state.entries[task].end + spec.tail
        if tables.contact(hold):
            free = state.unit_free_from(hold, state.unit_of[hold], opener.busy, end)
        else:
            pool = state.pool_free_from(hold, opener.busy, end)
            free = opener.busy + tables.problem.horizon if pool is None else pool
        if free > opener.busy:
            return spec.first, opener.start + free - opener.busy
        if tables.contact(hold):
            again = over_when_closed(state, hold, opener.busy, end)
            if again is not None:
                return spec.first, opener.start + again - opener.busy
        state.take(hold)
    return None
