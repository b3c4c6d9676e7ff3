"""Which holds a surface or tool is cleaned before: by what another food left, and by the clock.

A unit's *run* begins with its first hold of the day and with every hold that it is cleaned before.
A hold that is neither may end no later than ``Changeovers.clean_every`` after its run began.
"""

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from itertools import pairwise

from planner.schedule.problem import Hold
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable

Stretch = tuple[int, int]
"""Begin and end of a hold (minutes), lead included."""


@dataclass(frozen=True, slots=True)
class Run:
    """Holds of a unit with no clean between them, and since when it is in use (minutes)."""

    begun: int
    holds: list[int]


def lines_of(
    tables: Tables, starts: Mapping[int, int], units: Mapping[int, int]
) -> list[list[int]]:
    """Holds on each unit in use, in order of time."""
    holds = tables.problem.holds
    uses: dict[tuple[int, int], list[int]] = defaultdict(list)
    for hold, unit in units.items():
        uses[holds[hold].resource, unit].append(hold)
    for line in uses.values():
        line.sort(key=lambda hold: starts[holds[hold].first])
    return list(uses.values())


def dirty_holds(
    tables: Tables, starts: Mapping[int, int], units: Mapping[int, int]
) -> frozenset[int]:
    """Holds whose unit another food has left unclean, from the order on each unit."""
    found: set[int] = set()
    for line in lines_of(tables, starts, units):
        for before, after in pairwise(line):
            if tables.dirty[tables.hold_family(before)][tables.hold_family(after)]:
                found.add(after)
    return frozenset(found)


def cleaned_in(tables: Tables, timetable: Timetable) -> frozenset[int]:
    """Holds that a timetable cleans before; where a task names none, those left unclean for it."""
    starts = {item.task: item.start for item in timetable.assignments}
    units = {hold: unit for item in timetable.assignments for hold, unit in item.units}
    dirty = dirty_holds(tables, starts, units)
    return frozenset(
        hold
        for item in timetable.assignments
        for hold in item.cleaned or [hold for hold, _ in item.units if hold in dirty]
    )


def run_begin(hold: Hold, begin: int) -> int:
    """When the run that a hold begins did so: it may go on from before the day's plan."""
    return begin if hold.since is None else min(begin, hold.since)


def needed(
    tables: Tables,
    lines: Collection[list[int]],
    stretches: Mapping[int, Stretch],
    dirty: Collection[int],
    cleaned: Collection[int],
) -> frozenset[int]:
    """The cleans of ``cleaned`` that are needed: the dirty ones, and those that end a run in time.

    Each unit is gone through from morning to night; a clean stays where all up to the next one
    could not end in time without it.
    """
    every, holds = tables.problem.changeovers.clean_every, tables.problem.holds
    kept = set(dirty)
    if every is None:
        return frozenset(kept)
    for line in lines:
        begun = 0
        for at, hold in enumerate(line):
            begin, last = stretches[hold]
            if at and hold in cleaned and hold not in dirty:
                for after in line[at + 1 :]:
                    if after in cleaned:
                        break
                    last = stretches[after][1]
                if last > begun + every:
                    kept.add(hold)
            if not at or hold in kept:
                begun = run_begin(holds[hold], begin)
    return frozenset(kept)


def runs_on_units(tables: Tables, timetable: Timetable) -> list[list[Run]]:
    """Per unit in use its runs in order of time."""
    holds = tables.problem.holds
    by_task = {item.task: item for item in timetable.assignments}
    cleaned = cleaned_in(tables, timetable)
    starts = {task: item.start for task, item in by_task.items()}
    units = {hold: unit for item in by_task.values() for hold, unit in item.units}
    found = []
    for line in lines_of(tables, starts, units):
        runs: list[Run] = []
        for hold in line:
            if not runs or hold in cleaned:
                first = by_task[holds[hold].first]
                runs.append(Run(run_begin(holds[hold], first.start - first.lead.total), []))
            runs[-1].holds.append(hold)
        found.append(runs)
    return found


def overdue(tables: Tables, timetable: Timetable) -> list[tuple[int, ...]]:
    """Runs up to each hold that ends too late for them, itself the last."""
    every, holds = tables.problem.changeovers.clean_every, tables.problem.holds
    if every is None:
        return []
    ends = {item.task: item.end for item in timetable.assignments}
    return [
        tuple(run.holds[: at + 1])
        for runs in runs_on_units(tables, timetable)
        for run in runs
        for at, hold in enumerate(run.holds)
        if at and ends.get(holds[hold].last, 0) + holds[hold].tail > run.begun + every
    ]
