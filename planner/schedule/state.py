"""A partial timetable that tasks are put into one at a time, and taken out again.

Every entry keeps the lead it was given. Putting a task in front of another never lets the other's
lead grow, so what stands stays feasible; leads that shrink are settled at the end.
"""

import random
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field
from operator import attrgetter

from planner.schedule.rests import Slot, Way, make_way, slots_or_first
from planner.schedule.tables import Tables

FAR = 1 << 40
"""A time after everything."""
_START = attrgetter("start")


@dataclass(frozen=True, slots=True)
class Entry:
    """A task in place; ``busy`` is where its lead starts."""

    task: int
    family: int
    worker: int
    busy: int
    start: int
    end: int
    lead: int
    cleaned: frozenset[int] = frozenset()
    """Holds that open with this task and whose unit is cleaned first."""
    paused: int = 0
    """Minutes of rests that it is put down over."""


UnitUse = tuple[int, int, int]
"""Start, end and hold on one unit of a contact resource."""


@dataclass(slots=True)
class Placement:
    """Where a task could go, and what that costs."""

    worker: int
    start: int
    end: int
    lead: int
    units: dict[int, int] = field(default_factory=dict)
    cleaned: frozenset[int] = frozenset()
    paused: int = 0
    rests: tuple[Slot, ...] | None = None
    """Where the cook's rests are then, if any of them makes way."""


class State:
    """Timelines of cooks, pools and units."""

    def __init__(self, tables: Tables, rests: Sequence[Sequence[Slot]] = ()) -> None:
        """``rests``: where they are to begin with, as far as they may be there."""
        problem = tables.problem
        self.tables = tables
        self.entries: dict[int, Entry] = {}
        self.lines: list[list[Entry]] = [[] for _ in problem.workers]
        self.low = min([problem.start, *(worker.start for worker in problem.workers)])
        high = max([problem.horizon, *(worker.latest_end for worker in problem.workers)])
        # Nobody works after ``high``, so holds that reach beyond it meet at its last minute.
        self.span = high - self.low + 1
        self.pools: list[list[int]] = [
            [] if resource.contact else [0] * self.span for resource in problem.resources
        ]
        """Per resource without units: units held in each minute from ``low`` on."""
        self.units: list[list[list[UnitUse]]] = [
            [[] for _ in range(r.capacity)] if r.contact else [] for r in problem.resources
        ]
        self.unit_of: dict[int, int] = {}
        self.held: dict[int, tuple[int, int]] = {}
        """Per hold that is taken: from when to when."""
        self.rests: list[tuple[Slot, ...]] = list(tables.rests)
        for number, wanted in enumerate(rests):
            worker = problem.workers[number]
            self.rests[number] = slots_or_first(worker, wanted, tables.rests[number])
        """Per worker: where the rests are, always clear of the work that does not pause."""
        self.dice: random.Random | None = None
        """Where there are any, cooks are overlooked at times."""
        self.wary: set[int] = set()
        """Holds that proved too long for their unit's run: it is to be cleaned for them."""
        self.work = 0
        """Cooks looked at for a task so far: how much was done, whatever the machine."""

    def copy(self) -> "State":
        """A timetable of its own that begins as this one is."""
        other = object.__new__(State)
        other.tables, other.low, other.span = self.tables, self.low, self.span
        other.entries = self.entries.copy()
        other.lines = [line.copy() for line in self.lines]
        other.pools = [pool.copy() for pool in self.pools]
        other.units = [[uses.copy() for uses in units] for units in self.units]
        other.unit_of = self.unit_of.copy()
        other.held = self.held.copy()
        other.rests = self.rests.copy()
        other.wary = set()
        other.work = 0
        other.dice = self.dice
        return other

    def cleaned(self) -> frozenset[int]:
        """All holds whose unit is cleaned first."""
        return frozenset().union(*(entry.cleaned for entry in self.entries.values()))

    def put(self, task: int, at: Placement) -> None:
        """Put a task in; its one-task holds are taken with it."""
        tables = self.tables
        entry = Entry(
            task,
            tables.problem.tasks[task].family,
            at.worker,
            at.start - at.lead,
            at.start,
            at.end,
            at.lead,
            at.cleaned,
            at.paused,
        )
        if at.rests is not None:
            self.rests[at.worker] = at.rests
        line = self.lines[at.worker]
        line.insert(bisect_left(line, at.start, key=_START), entry)
        self.entries[task] = entry
        self.unit_of.update(at.units)
        for hold in tables.opens[task]:
            if tables.problem.holds[hold].last == task:
                self.take(hold)

    def take(self, hold: int) -> None:
        """Occupy a hold's resource, once its first and last task are in."""
        spec = self.tables.problem.holds[hold]
        start = self.entries[spec.first].busy
        end = self.entries[spec.last].end + spec.tail
        self.held[hold] = (start, end)
        if self.tables.contact(hold):
            uses = self.units[spec.resource][self.unit_of[hold]]
            uses.insert(bisect_left(uses, (start,)), (start, end, hold))
        else:
            self._fill(spec.resource, start, end, spec.units)

    def release(self, hold: int) -> None:
        """Give back what a hold occupies, if it does."""
        taken = self.held.pop(hold, None)
        if taken is None:
            return
        spec = self.tables.problem.holds[hold]
        if self.tables.contact(hold):
            uses = self.units[spec.resource][self.unit_of[hold]]
            del uses[bisect_left(uses, (*taken, hold))]
        else:
            self._fill(spec.resource, *taken, -spec.units)

    def _fill(self, resource: int, start: int, end: int, units: int) -> None:
        pool = self.pools[resource]
        for minute in range(start - self.low, min(end - self.low, self.span)):
            pool[minute] += units

    def remove(self, task: int) -> None:
        """Take a task out, with every hold it opens or closes."""
        entry = self.entries.pop(task)
        line = self.lines[entry.worker]
        del line[self.place(entry)]
        tables = self.tables
        for hold in tables.opens[task]:
            self.release(hold)
            self.unit_of.pop(hold, None)
        for hold in tables.closes[task]:
            self.release(hold)

    def way(self, task: int, worker: int, start: int, lead: int) -> Way:
        """How the cook's rests make way for a task with so long a lead."""
        problem = self.tables.problem
        spec = problem.tasks[task]
        return make_way(
            problem.workers[worker],
            self.rests[worker],
            [(entry.busy, entry.end) for entry in self.lines[worker]],
            (start - lead, start, start + spec.minutes[worker]),
            pausable=spec.pausable,
        )

    def place(self, entry: Entry) -> int:
        """Where an entry stands on its cook's line."""
        return bisect_left(self.lines[entry.worker], entry.start, key=_START)

    def pool_free_from(self, hold: int, start: int, end: int) -> int | None:
        """Earliest time >= ``start`` from which the pool could hold it as long as start..end.

        None where it never fits because the hold asks for more than there is.
        """
        spec = self.tables.problem.holds[hold]
        room = self.tables.problem.resources[spec.resource].capacity - spec.units
        if room < 0:
            return None
        pool = self.pools[spec.resource]
        length = end - start
        first = max(0, start - self.low)
        while True:
            window = pool[first : first + length]
            if not window or max(window) <= room:
                return max(start, first + self.low)
            over = len(window) - 1
            while window[over] <= room:
                over -= 1
            first += over + 1

    def unit_free_from(self, hold: int, unit: int, start: int, end: int) -> int:
        """``start`` if the unit can be held for [start, end); else a later time to try again."""
        tables = self.tables
        uses = self.units[tables.problem.holds[hold].resource][unit]
        at = bisect_left(uses, (end,))
        if at and uses[at - 1][1] > start:
            return uses[at - 1][1]
        if at < len(uses) and self.soils(uses[at], tables.dirty[tables.hold_family(hold)]):
            return uses[at][1]
        return start

    def soils(self, following: UnitUse, onward: tuple[bool, ...]) -> bool:
        """Tell whether a hold that was clean so far would have to be cleaned for."""
        hold = following[2]
        if not onward[self.tables.hold_family(hold)]:
            return False
        return hold not in self.entries[self.tables.problem.holds[hold].first].cleaned

    def before_on_unit(self, hold: int) -> UnitUse | None:
        """What has the unit of a hold that is taken right before it."""
        uses = self.units[self.tables.problem.holds[hold].resource][self.unit_of[hold]]
        at = bisect_left(uses, (*self.held[hold], hold))
        return uses[at - 1] if at else None

    def after_on_unit(self, hold: int) -> int | None:
        """The hold that has the unit of a taken one right after it."""
        uses = self.units[self.tables.problem.holds[hold].resource][self.unit_of[hold]]
        at = bisect_left(uses, (*self.held[hold], hold)) + 1
        return uses[at][2] if at < len(uses) else None

    def found_dirty(self, hold: int) -> bool:
        """Tell whether the unit of a taken hold must be cleaned for it."""
        before = self.before_on_unit(hold)
        tables = self.tables
        return (
            before is not None
            and (tables.dirty[tables.hold_family(before[2])][tables.hold_family(hold)])
        )
