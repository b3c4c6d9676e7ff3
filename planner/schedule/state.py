"""A partial timetable that tasks are put into one at a time, and taken out again.

Every entry keeps the lead it was given. Putting a task in front of another never lets the other's
lead grow, so what stands stays feasible; leads that shrink are settled at the end.
"""

from bisect import bisect_left
from dataclasses import dataclass, field

from planner.schedule.tables import Tables


@dataclass(slots=True)
class Entry:
    """A task in place; ``busy`` is where its lead starts."""

    task: int
    worker: int
    busy: int
    start: int
    end: int
    lead: int
    cleaned: frozenset[int] = frozenset()
    """Holds that open with this task and whose unit is cleaned first."""


@dataclass(slots=True)
class UnitUse:
    """A hold on one unit of a contact resource."""

    start: int
    end: int
    hold: int


@dataclass(slots=True)
class Placement:
    """Where a task could go, and what that costs."""

    worker: int
    start: int
    end: int
    lead: int
    units: dict[int, int] = field(default_factory=dict)
    cleaned: frozenset[int] = frozenset()


class State:
    """Timelines of cooks, pools and units."""

    def __init__(self, tables: Tables) -> None:
        problem = tables.problem
        self.tables = tables
        self.entries: dict[int, Entry] = {}
        self.lines: list[list[Entry]] = [[] for _ in problem.workers]
        self.pools: list[list[tuple[int, int, int, int]]] = [[] for _ in problem.resources]
        """Per resource without units: (start, end, units, hold)."""
        self.units: list[list[list[UnitUse]]] = [
            [[] for _ in range(r.capacity)] if r.contact else [] for r in problem.resources
        ]
        self.unit_of: dict[int, int] = {}

    def put(self, task: int, at: Placement) -> None:
        """Put a task in; its one-task holds are taken with it."""
        lead = at.lead
        entry = Entry(task, at.worker, at.start - lead, at.start, at.end, lead, at.cleaned)
        line = self.lines[at.worker]
        line.insert(bisect_left([e.start for e in line], at.start), entry)
        self.entries[task] = entry
        for hold, unit in at.units.items():
            self.unit_of[hold] = unit
        for hold in self.tables.opens[task]:
            if self.tables.problem.holds[hold].last == task:
                self.take(hold)

    def take(self, hold: int) -> None:
        """Occupy a hold's resource, once its first and last task are in."""
        spec = self.tables.problem.holds[hold]
        start = self.entries[spec.first].busy
        end = self.entries[spec.last].end + spec.tail
        if self.tables.contact(hold):
            uses = self.units[spec.resource][self.unit_of[hold]]
            uses.insert(bisect_left([u.start for u in uses], start), UnitUse(start, end, hold))
        else:
            self.pools[spec.resource].append((start, end, spec.units, hold))

    def remove(self, task: int) -> None:
        """Take a task out, with every hold it opens or closes."""
        entry = self.entries.pop(task)
        self.lines[entry.worker].remove(entry)
        tables = self.tables
        for hold in {*tables.opens[task], *tables.closes[task]}:
            resource = tables.problem.holds[hold].resource
            if tables.contact(hold):
                unit = self.unit_of.get(hold)
                if unit is not None:
                    kept = [u for u in self.units[resource][unit] if u.hold != hold]
                    self.units[resource][unit] = kept
            else:
                self.pools[resource] = [u for u in self.pools[resource] if u[3] != hold]
            if tables.problem.holds[hold].first == task:
                self.unit_of.pop(hold, None)

    def pool_free_from(self, hold: int, start: int, end: int) -> int | None:
        """Earliest time >= ``start`` from which the pool could hold it as long as start..end.

        None where it never fits because the hold asks for more than there is.
        """
        spec = self.tables.problem.holds[hold]
        room = self.tables.problem.resources[spec.resource].capacity - spec.units
        if room < 0:
            return None
        length = end - start
        uses = [use for use in self.pools[spec.resource] if use[1] > start]
        while True:
            near = [use for use in uses if use[0] < start + length and use[1] > start]
            if sum(use[2] for use in near) <= room:
                return start
            freed = _overfull_until(near, start, room)
            if freed is None:
                return start
            start = freed

    def unit_free_from(self, hold: int, unit: int, start: int, end: int) -> int:
        """``start`` if the unit can be held for [start, end); else a later time to try again."""
        spec = self.tables.problem.holds[hold]
        uses = self.units[spec.resource][unit]
        for use in uses:
            if use.start < end and start < use.end:
                return use.end
        following = next((u for u in uses if u.start >= end), None)
        if following is not None:
            tables = self.tables
            dirty = tables.dirty[tables.hold_family(hold)][tables.hold_family(following.hold)]
            first = tables.problem.holds[following.hold].first
            if dirty and following.hold not in self.entries[first].cleaned:
                return following.end
        return start

    def unit_dirty(self, hold: int, unit: int, start: int) -> bool:
        """Tell whether the unit must be cleaned before ``hold`` if it is taken at ``start``."""
        spec = self.tables.problem.holds[hold]
        last = None
        for use in self.units[spec.resource][unit]:
            if use.start > start:
                break
            last = use
        tables = self.tables
        return (
            last is not None
            and (tables.dirty[tables.hold_family(last.hold)][tables.hold_family(hold)])
        )

    def lead_before(self, worker: int, position: int, task: int) -> int:
        """Minutes of lead, cleaning apart, at ``position`` of a cook's line."""
        line = self.lines[worker]
        before = line[position - 1].task if position > 0 else None
        return self.tables.lead(before, task).total


def _overfull_until(near: list[tuple[int, int, int, int]], start: int, room: int) -> int | None:
    """When the first moment from ``start`` at which ``near`` takes more than ``room`` is over."""
    for when in sorted({start, *(use[0] for use in near if use[0] > start)}):
        live = [use for use in near if use[0] <= when < use[1]]
        if sum(use[2] for use in live) > room:
            return min(use[1] for use in live)
    return None
