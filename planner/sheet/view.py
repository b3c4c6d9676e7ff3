"""A plan with its kitchen, looked up the ways the sheet needs it. Nothing is computed here."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Step
from planner.kitchen.work import Operation
from planner.lots.types import Lot, LotTask
from planner.pins.types import Pin
from planner.plan import Plan
from planner.schedule.problem import Hold, Problem, Worker
from planner.schedule.rests import Slot, slots_of
from planner.schedule.timetable import Assignment
from planner.sheet.by_clock import cleaned_by_clock
from planner.sheet.out_of_cold import minutes_by_task

_EQUIPMENT = "equipment"


def is_part_made(lot: Lot, item: str) -> bool:
    """Whether stock that a lot takes is its own component, begun on an earlier day."""
    return any(item == share.component for share in lot.shares)


@dataclass(frozen=True)
class PlanView:
    """Lookups over one plan."""

    kitchen: Kitchen
    plan: Plan

    @cached_property
    def catalog(self) -> Catalog:
        """The kitchen by id."""
        return Catalog(self.kitchen)

    @cached_property
    def converter(self) -> Converter:
        """Amounts to grams."""
        return Converter(self.kitchen)

    @property
    def problem(self) -> Problem:
        """What was scheduled."""
        return self.plan.workload.problem

    @property
    def lots(self) -> tuple[Lot, ...]:
        """All lots of the day, done or short."""
        return self.plan.workload.lots

    @cached_property
    def assignments(self) -> Mapping[int, Assignment]:
        """What is done, by task index."""
        return {one.task: one for one in self.plan.solution.timetable.assignments}

    @cached_property
    def pins(self) -> Mapping[str, Pin]:
        """What people hold by hand, by id of the lot."""
        return {pin.lot: pin for pin in self.plan.pins}

    @cached_property
    def lot_tasks(self) -> Mapping[int, tuple[Lot, LotTask]]:
        """The lot and the part of it that a task is."""
        return {task.task: (lot, task) for lot in self.lots for task in lot.tasks}

    @cached_property
    def downstream(self) -> Mapping[int, tuple[int, ...]]:
        """Lots that take from a lot today, by its index."""
        found: dict[int, list[int]] = defaultdict(list)
        for lot in self.lots:
            for index, _grams in lot.upstream:
                found[index].append(lot.index)
        return {index: tuple(after) for index, after in found.items()}

    @cached_property
    def minutes_out(self) -> Mapping[int, int]:
        """Minutes that food has been out of temperature control, by the task that they end with."""
        return minutes_by_task(self.catalog, self.plan)

    @cached_property
    def by_the_clock(self) -> Mapping[int, int]:
        """Holds that a surface is cleaned for though no food asks for it: since when it was in use.

        By hold; the minute at which it was first in use, or in use again after a clean.
        """
        return cleaned_by_clock(self.problem, self.plan.solution.timetable)

    @cached_property
    def opened_holds(self) -> Mapping[int, tuple[tuple[int, Hold], ...]]:
        """Holds (index, hold) that open with a task."""
        found: dict[int, list[tuple[int, Hold]]] = defaultdict(list)
        for index, hold in enumerate(self.problem.holds):
            found[hold.first].append((index, hold))
        return {task: tuple(holds) for task, holds in found.items()}

    @cached_property
    def rests(self) -> tuple[tuple[Slot, ...], ...]:
        """Per worker, when the breaks are."""
        return slots_of(self.problem, self.plan.solution.timetable)

    def spanned(self, one: Assignment) -> tuple[Slot, ...]:
        """Breaks that a task is put down over."""
        if not self.problem.tasks[one.task].pausable:
            return ()
        return tuple(s for s in self.rests[one.worker] if one.start < s[0] and s[1] < one.end)

    def worked(self, one: Assignment) -> int:
        """Minutes of work in a task, breaks apart."""
        return one.end - one.start - sum(end - begin for begin, end in self.spanned(one))

    def in_order(self, worker: int) -> list[Assignment]:
        """What one worker does, by start."""
        mine = [one for one in self.assignments.values() if one.worker == worker]
        return sorted(mine, key=lambda one: (one.start, one.task))

    def worker(self, index: int) -> Worker:
        """The worker at ``index``."""
        return self.problem.workers[index]

    def is_done(self, lot: Lot) -> bool:
        """Whether the lot is in the timetable."""
        return all(task.task in self.assignments for task in lot.tasks)

    def operation(self, lot: Lot) -> Operation:
        """The lot's operation as the kitchen describes it."""
        return self.catalog.operations[lot.operation]

    def step(self, lot: Lot) -> Step:
        """The lot's step on its component's route."""
        return self.catalog.components[lot.component].route[lot.step]

    def is_equipment(self, hold: Hold) -> bool:
        """Whether a hold is on equipment rather than on a station's place."""
        return self._resource(hold)[0] == _EQUIPMENT

    def resource_name(self, hold: Hold) -> str:
        """What people call the station or equipment held."""
        kind, resource = self._resource(hold)
        known = self.catalog.equipment if kind == _EQUIPMENT else self.catalog.stations
        return known[resource].name

    def trim_sources(self, lot: Lot, item: str) -> tuple[Lot, ...]:
        """Lots of today whose trim of ``item`` a lot waits for."""
        needs = (self.lots[index] for index in self.problem.jobs[lot.index].needs)
        return tuple(one for one in needs if any(item == name for name, _grams in one.trim))

    def stock_name(self, lot: Lot, item: str) -> str:
        """Name of stock a lot takes; part-made stock of its own component after which step."""
        name = self.catalog.name(item)
        if not is_part_made(lot, item):
            return name
        before = self.catalog.components[item].route[lot.step - 1].operation
        return f"{name} after {self.catalog.operations[before].name}"

    def _resource(self, hold: Hold) -> tuple[str, str]:
        # Ids of resources are 'station:board' or 'equipment:pot': the lists have ids of their own.
        kind, _, resource = self.problem.resources[hold.resource].id.partition(":")
        return kind, resource
