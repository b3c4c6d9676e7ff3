"""Taking work out of a timetable that is to stay feasible: what comes behind may need more lead.

Without the work before it a task may come from further away, or find a surface that somebody else
left; its start stays, so its lead needs free minutes right before it.
"""

from collections.abc import Iterable
from dataclasses import replace

from planner.schedule.cleans import cleaned_in
from planner.schedule.in_use import cleans_by_clock, joined_by, keeps_runs
from planner.schedule.rests import slots_of
from planner.schedule.state import Entry, State
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable


def state_of(tables: Tables, timetable: Timetable) -> State:
    """Build a feasible timetable's state; its leads are exact."""
    state = State(tables)
    problem = tables.problem
    state.rests = list(slots_of(problem, timetable))
    cleaned = cleaned_in(tables, timetable)
    for item in sorted(timetable.assignments, key=lambda item: (item.start, item.end)):
        task = problem.tasks[item.task]
        lead = item.lead.total
        entry = Entry(
            item.task,
            task.family,
            item.worker,
            item.start - lead,
            item.start,
            item.end,
            lead,
            cleaned.intersection(tables.contact_opens[item.task]),
            paused=item.end - item.start - task.minutes[item.worker],
        )
        state.entries[item.task] = entry
        state.lines[item.worker].append(entry)
        state.unit_of.update(item.units)
    for hold, spec in enumerate(problem.holds):
        if spec.first in state.entries:
            state.take(hold)
    return state


def take_out(state: State, tasks: Iterable[int], tied: dict[int, list[int]]) -> set[int]:
    """Take tasks out, and what is tied to them; return all that were taken out.

    What stands behind gets the lead it needs then. Where there is no room for that it is taken out
    as well. ``tied`` names, per task, those that are in or out together (itself among them).
    """
    gone: set[int] = set()
    stack = list(tasks)
    behind: list[int] = []
    while stack or behind:
        while stack:
            for task in tied[stack.pop()]:
                if task in state.entries:
                    behind += _behind(state, task)
                    state.remove(task)
                    gone.add(task)
        if behind:
            task = behind.pop()
            if task in state.entries and not refit(state, task):
                stack.append(task)
    return gone


def _behind(state: State, task: int) -> list[int]:
    """Tasks right behind one: on its cook's line, and on the units that it opens.

    On units that are cleaned before it also all others up to the next clean, the first as the last.
    """
    tables = state.tables
    entry = state.entries[task]
    line = state.lines[entry.worker]
    place = state.place(entry) + 1
    found = [line[place].task] if place < len(line) else []
    for hold in tables.contact_opens[task]:
        after = state.after_on_unit(hold)
        others = joined_by(state, hold) or ([] if after is None else [after])
        found += [tables.problem.holds[other].first for other in reversed(others)]
    return found


def refit(state: State, task: int) -> bool:
    """Give a task in place the lead it needs where it stands; False where there is no room.

    A surface is cleaned before it ahead of time, if there is room, where what comes after could not
    end in time without that.
    """
    tables = state.tables
    entry = state.entries[task]
    line = state.lines[entry.worker]
    place = state.place(entry)
    before = line[place - 1] if place else None
    base = tables.leads[-1 if before is None else before.family][entry.family]
    dirty = frozenset(
        hold
        for hold in tables.contact_opens[task]
        if hold in state.held and state.found_dirty(hold)
    )
    if tables.problem.changeovers.clean_every is None:
        return _fit(state, entry, before, base, dirty)
    dirty |= entry.cleaned.difference(state.held)
    late, wished = cleans_by_clock(state, task)
    if wished <= late | dirty:
        return _fit(state, entry, before, base, dirty | late)
    return _fit(state, entry, before, base, dirty | late | wished) or (
        _fit(state, entry, before, base, dirty | late)
    )


def _fit(
    state: State, entry: Entry, before: Entry | None, base: int, cleaned: frozenset[int]
) -> bool:
    """Give a task in place the lead with these cleans, if there is room."""
    tables, task = state.tables, entry.task
    lead = base + tables.problem.changeovers.clean * len(cleaned)
    if lead == entry.lead and cleaned == entry.cleaned:
        return True
    busy = entry.start - lead
    if busy < entry.busy and not (
        has_room(state, entry, before, busy) and keeps_runs(state, entry, cleaned, busy)
    ):
        return False
    fitted = replace(entry, busy=busy, lead=lead, cleaned=cleaned)
    state.lines[entry.worker][state.place(entry)] = fitted
    held = [hold for hold in tables.opens[task] if hold in state.held]
    for hold in held:
        state.release(hold)
    state.entries[task] = fitted
    for hold in held:
        state.take(hold)
    return True


def has_room(state: State, entry: Entry, before: Entry | None, busy: int) -> bool:
    """Whether cook, pools and units are free from ``busy`` on to where the lead begins now."""
    tables = state.tables
    person = tables.problem.workers[entry.worker]
    if busy < (person.start if before is None else before.end):
        return False
    away = (*person.blocked, *state.rests[entry.worker])
    if any(begin < entry.busy and busy < end for begin, end in away):
        return False
    for hold in tables.opens[entry.task]:
        if hold not in state.held:
            continue
        if tables.contact(hold):
            use = state.before_on_unit(hold)
            if use is not None and use[1] > busy:
                return False
        elif state.pool_free_from(hold, busy, entry.busy) != busy:
            return False
    return True
