"""Where one task can go in a partial timetable."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from operator import attrgetter

from planner.schedule.in_use import is_first_over, is_over
from planner.schedule.removal import has_room
from planner.schedule.rests import Slot
from planner.schedule.state import FAR, Placement, State

_OVERLOOKED = 0.05
"""Odds that a cook is not thought of, where there are dice: the best place for one piece of work is
not always best for all."""
_BUSY = attrgetter("busy")


def best_placement(
    state: State, task: int, earliest: int, thrift: float, latest: int = FAR
) -> Placement | None:
    """Return the cheapest way to do ``task`` within ``earliest`` to ``latest``, or None.

    A cook's cost is the minute it ends plus ``thrift`` times the minutes of lead and work, so that
    a thrifty rule waits for the cook who is already set up.
    """
    spec = state.tables.problem.tasks[task]
    if spec.until is not None:
        latest = min(latest, spec.until)
    cooks = state.tables.quickest[task]
    if state.dice is None:
        return best_of(state, task, cooks, earliest, latest, thrift)
    some = [pair for pair in cooks if state.dice.random() >= _OVERLOOKED]
    found = best_of(state, task, some, earliest, latest, thrift)
    if found is None:
        rest = [pair for pair in cooks if pair not in some]
        found = best_of(state, task, rest, earliest, latest, thrift)
    return found


def best_of(
    state: State,
    task: int,
    cooks: Sequence[tuple[int, int]],
    earliest: int,
    latest: int = FAR,
    thrift: float = 0.0,
) -> Placement | None:
    """Cheapest way, or None, as :func:`best_placement`; ``cooks`` are (worker, minutes)."""
    best: Placement | None = None
    best_cost = float("inf")
    state.work += len(cooks)
    for worker, minutes in cooks:
        priced = thrift * minutes
        found = _on_line(state, task, worker, earliest, latest, best_cost - priced, thrift)
        if found is not None:
            cost = found.end + thrift * found.lead + priced
            if cost < best_cost:
                best, best_cost = found, cost
    return best


def _on_line(
    state: State,
    task: int,
    worker: int,
    earliest: int,
    latest: int,
    dearest: float,
    thrift: float,
) -> Placement | None:
    """Earliest placement with one cook, between two tasks of theirs or at the end.

    None also where its end and lead would cost ``dearest`` or more.
    """
    tables = state.tables
    spec = tables.problem.tasks[task]
    person = tables.problem.workers[worker]
    minutes = spec.minutes[worker]
    if spec.earliest_end is not None:
        earliest = max(earliest, spec.earliest_end - minutes)
    latest = min(latest, person.latest_end)
    if earliest + minutes > latest or earliest + minutes >= dearest:
        return None
    line = state.lines[worker]
    family = spec.family
    onward = tables.leads[family]
    clean = tables.problem.changeovers.clean
    # What begins sooner leaves no room before it.
    position = bisect_left(line, earliest + minutes, key=_BUSY)
    for position in range(position, len(line) + 1):  # noqa: B020 - begins where it was found
        low = line[position - 1].end if position else person.start
        soonest = max(low, earliest) + minutes
        if soonest > latest or soonest >= dearest:
            return None
        high = latest
        if position < len(line):
            following = line[position]
            if following.busy < soonest:
                continue
            grown = onward[following.family] - following.lead + clean * len(following.cleaned)
            if grown > 0:
                if state.dice is None or following.busy - grown < soonest:
                    continue
                before = line[position - 1] if position else None
                if not has_room(state, following, before, following.busy - grown):
                    continue
                high = min(high, following.busy - grown)
            else:
                high = min(high, following.busy)
        lead = tables.leads[line[position - 1].family if position else -1][family]
        start = max(earliest, low + lead)
        if start + minutes <= high:
            found = _in_gap(state, task, worker, start, low, high, lead, dearest, thrift)
            if found is not None:
                return found
    return None


def _in_gap(
    state: State,
    task: int,
    worker: int,
    start: int,
    low: int,
    high: int,
    base: int,
    dearest: float,
    thrift: float,
) -> Placement | None:
    """Slide the start to the right until units, breaks and pools all allow it, or give up."""
    tables = state.tables
    problem = tables.problem
    minutes = problem.tasks[task].minutes[worker]
    # Rests that stay where they are, whatever the work, are as good as blocked.
    yields = tables.movable[worker] or (problem.tasks[task].pausable and state.rests[worker] != ())
    away = problem.workers[worker].blocked if yields else tables.walls[worker]
    rests: tuple[Slot, ...] | None = None
    opens, pools = tables.contact_opens[task], tables.pool_opens[task]
    ask = _Ask(task, worker, base, minutes, bool(opens), yields)
    units: dict[int, int] = {}
    cleaned: set[int] = set()
    dearest -= minutes
    start_by = problem.tasks[task].start_by
    last = high - minutes if start_by is None else min(high - minutes, start_by)
    while start <= last and start + thrift * base < dearest:
        lead = base
        retry = start
        end = start + minutes
        if opens or yields:
            end, rests, units, cleaned, retry = _settle(state, ask, start)
            if end > high:
                return None
            lead += len(cleaned) * problem.changeovers.clean
        busy = start - lead
        if retry == start and busy < low:
            retry = low + lead
        if retry == start:
            for begin, until in away:
                if busy < until and begin < end:
                    retry = max(retry, until + lead)
        if retry == start:
            for hold in pools:
                free = state.pool_free_from(hold, busy, end + problem.holds[hold].tail)
                if free is None:
                    return None
                retry = max(retry, free + lead)
        if retry == start:
            paused = end - start - minutes
            return Placement(worker, start, end, lead, units, frozenset(cleaned), paused, rests)
        start = retry
    return None


@dataclass(frozen=True, slots=True)
class _Ask:
    """What is asked of one cook: a task, its lead without cleans, and its minutes."""

    task: int
    worker: int
    base: int
    minutes: int
    opens: bool
    """Whether it opens a hold that names its unit."""
    yields: bool
    """Whether rests may make way for it, or it for rests."""


def _settle(
    state: State, ask: _Ask, start: int
) -> tuple[int, tuple[Slot, ...] | None, dict[int, int], set[int], int]:
    """End, rests, units, those cleaned, and when to try again: ``start`` where all is well."""
    end, rests = start + ask.minutes, None
    if ask.yields:
        way = state.way(ask.task, ask.worker, start, ask.base)
        end, rests = way.end, way.slots
        if way.again is not None:
            return start + ask.minutes, rests, {}, set(), max(start + 1, way.again + ask.base)
    if not ask.opens:
        return end, rests, {}, set(), start
    units, cleaned, retry = _choose_units(state, ask.task, start, ask.base, end - start)
    if ask.yields and cleaned and retry == start:
        # The lead has grown: a rest that was clear of it may not be any more.
        lead = ask.base + len(cleaned) * state.tables.problem.changeovers.clean
        way = state.way(ask.task, ask.worker, start, lead)
        rests = way.slots
        if way.again is not None or way.end != end:
            retry = start + 1 if way.again is None else max(start + 1, way.again + lead)
    return end, rests, units, cleaned, retry


def _choose_units(
    state: State, task: int, start: int, base: int, minutes: int
) -> tuple[dict[int, int], set[int], int]:
    """Units for every contact hold that opens here, those to clean, and when to try (again)."""
    problem = state.tables.problem
    units: dict[int, int] = {}
    cleaned: set[int] = set()
    lead = base
    for hold in state.tables.contact_opens[task]:
        length = minutes + problem.holds[hold].tail
        unit, dirty, again = _best_unit(state, hold, start, lead, length)
        if unit is None:
            return units, cleaned, max(start + 1, again)
        units[hold] = unit
        if dirty:
            cleaned.add(hold)
            lead += problem.changeovers.clean
    if cleaned and len(units) > 1:
        # Those chosen first are held from a lead on that has grown since.
        for hold, unit in units.items():
            uses = state.units[problem.holds[hold].resource][unit]
            at = bisect_left(uses, (start,))
            if at and uses[at - 1][1] > start - lead:
                return units, cleaned, uses[at - 1][1] + lead
            first = at < len(uses) and (not at or hold in cleaned)
            if first and is_first_over(state, hold, uses, at, start - lead):
                return units, cleaned, uses[at][1] + lead
    return units, cleaned, start


def _best_unit(
    state: State, hold: int, start: int, lead: int, length: int
) -> tuple[int | None, bool, int]:
    """A free unit, clean ones first: (unit or None, must be cleaned, when to try again)."""
    tables = state.tables
    clean = tables.problem.changeovers.clean
    family = tables.hold_family(hold)
    onward = tables.dirty[family]
    end = start + length
    timed = tables.problem.changeovers.clean_every is not None
    longest = start + max(length, tables.least_held[hold])
    fallback: int | None = None
    again = FAR
    for unit, uses in enumerate(state.units[tables.problem.holds[hold].resource]):
        at = bisect_left(uses, (end,))
        dirty = False
        before = at
        while before and uses[before - 1][0] > start:
            before -= 1
        if before:
            dirty = (
                tables.dirty[tables.hold_family(uses[before - 1][2])][family]
                or hold in state.wary
                or (timed and is_over(state, uses, before - 1, longest))
            )
        begin = start - lead - clean if dirty else start - lead
        if at and uses[at - 1][1] > begin:
            free = uses[at - 1][1] + lead
        elif at < len(uses) and (
            state.soils(uses[at], onward)
            or (timed and not at and is_first_over(state, hold, uses, 0, begin))
        ):
            free = uses[at][1] + lead
        elif not dirty:
            return unit, False, start
        else:
            if fallback is None:
                fallback = unit
            continue
        again = min(again, free)
    if fallback is not None:
        return fallback, True, start
    return None, False, start + 1 if again == FAR else again
