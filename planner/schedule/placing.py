"""Where one task, or a cluster of tasks tied by maximum waits, can go in a partial timetable."""

from planner.schedule.state import Placement, State

_RETRIES = 120
"""Tries per cluster before its food is left short; each moves some task strictly later."""


def best_placement(state: State, task: int, earliest: int, thrift: float) -> Placement | None:
    """Return the cheapest way to do ``task`` from ``earliest`` on, or None where none fits.

    A cook's cost is the minute it ends plus ``thrift`` times the minutes of lead and work, so that
    a thrifty rule waits for the cook who is already set up.
    """
    best: Placement | None = None
    best_cost = float("inf")
    spec = state.tables.problem.tasks[task]
    for worker, minutes in spec.minutes.items():
        found = _on_line(state, task, worker, earliest)
        if found is not None:
            cost = found.end + thrift * (found.lead + minutes)
            if cost < best_cost:
                best, best_cost = found, cost
    return best


def _on_line(state: State, task: int, worker: int, earliest: int) -> Placement | None:
    """Earliest placement with one cook, between two tasks of theirs or at the end."""
    tables = state.tables
    spec = tables.problem.tasks[task]
    person = tables.problem.workers[worker]
    minutes = spec.minutes[worker]
    if spec.earliest_end is not None:
        earliest = max(earliest, spec.earliest_end - minutes)
    last_end = person.latest_end if spec.until is None else min(person.latest_end, spec.until)
    line = state.lines[worker]
    for position in range(len(line) + 1):
        low = line[position - 1].end if position else person.start
        high = last_end
        if position < len(line):
            following = line[position]
            if following.busy < max(low, earliest) + minutes:
                continue
            clean = tables.problem.changeovers.clean * len(following.cleaned)
            if tables.lead(task, following.task).total > following.lead - clean:
                continue
            high = min(high, following.busy)
        lead = state.lead_before(worker, position, task)
        found = _in_gap(state, task, worker, max(earliest, low + lead), low, high, lead)
        if found is not None:
            return found
    return None


def _in_gap(
    state: State, task: int, worker: int, start: int, low: int, high: int, base: int
) -> Placement | None:
    """Slide the start to the right until units, breaks and pools all allow it, or give up."""
    problem = state.tables.problem
    minutes = problem.tasks[task].minutes[worker]
    while start + minutes <= high:
        units, cleaned, retry = _choose_units(state, task, start, base, minutes)
        lead = base + len(cleaned) * problem.changeovers.clean
        busy = start - lead
        if retry == start:
            retry = max(start, low + lead)
        if retry == start:
            away = (
                e for b, e in problem.workers[worker].blocked if busy < e and b < start + minutes
            )
            retry = max(away, default=busy) + lead
        if retry == start:
            free = _pools_free_from(state, task, busy, start + minutes)
            if free is None:
                return None
            retry = free + lead
        if retry == start:
            return Placement(worker, start, start + minutes, lead, units, frozenset(cleaned))
        start = retry
    return None


def _choose_units(
    state: State, task: int, start: int, base: int, minutes: int
) -> tuple[dict[int, int], set[int], int]:
    """Units for every contact hold that opens here, those to clean, and when to try (again)."""
    problem = state.tables.problem
    units: dict[int, int] = {}
    cleaned: set[int] = set()
    lead = base
    for hold in state.tables.opens[task]:
        if state.tables.contact(hold):
            length = minutes + problem.holds[hold].tail
            unit, dirty, again = _best_unit(state, hold, start, lead, length)
            if unit is None:
                return units, cleaned, max(start + 1, again)
            units[hold] = unit
            if dirty:
                cleaned.add(hold)
                lead += problem.changeovers.clean
    return units, cleaned, start


def _pools_free_from(state: State, task: int, busy: int, end: int) -> int | None:
    """Earliest ``busy`` at which every pool that only this task uses has room; None: never."""
    problem = state.tables.problem
    latest = busy
    for hold in state.tables.opens[task]:
        spec = problem.holds[hold]
        if not state.tables.contact(hold) and spec.last == task:
            free = state.pool_free_from(hold, busy, end + spec.tail)
            if free is None:
                return None
            latest = max(latest, free)
    return latest


def _best_unit(
    state: State, hold: int, start: int, lead: int, length: int
) -> tuple[int | None, bool, int]:
    """A free unit, clean ones first: (unit or None, must be cleaned, when to try again)."""
    clean = state.tables.problem.changeovers.clean
    resource = state.tables.problem.holds[hold].resource
    fallback: int | None = None
    again: int | None = None
    for unit in range(len(state.units[resource])):
        dirty = state.unit_dirty(hold, unit, start)
        begin = start - lead - (clean if dirty else 0)
        free = state.unit_free_from(hold, unit, begin, start + length)
        if free == begin:
            if not dirty:
                return unit, False, start
            if fallback is None:
                fallback = unit
        else:
            later = free + lead
            again = later if again is None else min(again, later)
    if fallback is not None:
        return fallback, True, start
    return None, False, start + 1 if again is None else again


def place_cluster(state: State, tasks: list[int], thrift: float) -> bool:
    """Put all ``tasks`` (in order of their waits) in, or none; tell whether they went in.

    Where a task comes too late after one before it, or a vessel is not free as long as it is
    needed, the earlier task is moved by what is missing and the cluster placed again.
    """
    not_before: dict[int, int] = {}
    for _ in range(_RETRIES):
        placed: list[int] = []
        move: tuple[int, int] | None = None
        for task in tasks:
            found = best_placement(state, task, _earliest(state, task, not_before), thrift)
            if found is None:
                break
            state.put(task, found)
            placed.append(task)
            move = _too_late(state, task) or _close_holds(state, task)
            if move is not None:
                break
        else:
            return True
        for task in reversed(placed):
            state.remove(task)
        if move is None:
            return False
        not_before[move[0]] = max(not_before.get(move[0], 0), move[1])
    return False


def _earliest(state: State, task: int, not_before: dict[int, int]) -> int:
    tables = state.tables
    earliest = max(
        tables.problem.tasks[task].release, tables.problem.start, not_before.get(task, 0)
    )
    for wait in tables.waits_before[task]:
        entry = state.entries.get(wait.before)
        if entry is not None:
            earliest = max(earliest, entry.end + wait.minimum)
    return earliest


def _too_late(state: State, task: int) -> tuple[int, int] | None:
    """The task before this one that must move, and to when, so that no wait is too long."""
    start = state.entries[task].start
    for wait in state.tables.waits_before[task]:
        entry = state.entries.get(wait.before)
        if entry is not None and wait.maximum is not None:
            excess = start - entry.end - wait.maximum
            if excess > 0:
                return wait.before, entry.start + excess
    return None


def _close_holds(state: State, task: int) -> tuple[int, int] | None:
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
        state.take(hold)
    return None
