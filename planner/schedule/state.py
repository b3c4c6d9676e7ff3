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
        uses = self.pools[spec.resource]
        moved = True
        while moved:
            moved = False
            for when in [start, *(u[0] for u in uses if start < u[0] < start + length)]:
                live = [u for u in uses if u[0] <= when < u[1]]
                if sum(u[2] for u in live) > room:
                    start = min(u[1] for u in live)
                    moved = True
                    break
        return start

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
