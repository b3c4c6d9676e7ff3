"""A day planned again from its start: near the plan that people have, around what they hold.

Among plans that are as little short and late and take as little labor, the one in which people keep
their batches is the better: whether food lies a minute longer is worth no change of hands. On a day
that is just as it was, a few minutes of labor that a longer search finds are worth none either.
"""

import datetime as dt
import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from planner.batches import plan_batches
from planner.check.timetable import check_timetable
from planner.demand.types import DishDemand
from planner.kitchen.document import Kitchen
from planner.lots.alike import alike, tasks_alike
from planner.lots.batching import BY_THE_RULE
from planner.lots.build import workload_of
from planner.lots.lacking import Shared
from planner.lots.types import Workload
from planner.morning import PlanOptions, plan_morning, refuse_unkept
from planner.pins.apply import expected, pinned
from planner.pins.checking import keepable
from planner.pins.types import Pin
from planner.plan import Plan
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import Quantities
from planner.replan.calm import Old, calmed, labor_too
from planner.replan.match import Match
from planner.replan.moved import no_room
from planner.replan.pinned import given_up_notes
from planner.replan.repair import held_to, on_old_times
from planner.schedule.replay import replay
from planner.schedule.rests import Slot, slots_of
from planner.schedule.run import OnProgress, Run
from planner.schedule.score import score_of
from planner.schedule.search import SearchOptions, solve
from planner.schedule.simple_bounds import restate
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import TERMS, Assignment, Progress, Score, Solution, Timetable
from planner.wording import sentence

_CALM = 0.15
"""Of the limit, to give batches back to whoever had them."""

_FIRST = 0.6
"""Of the limit, for the batches of before where something is short or late in them."""


@dataclass(frozen=True, slots=True)
class Earlier:
    """What a plan of the same day says: its lots, who does them when, and what is held by hand."""

    workload: Workload
    timetable: Timetable
    pins: tuple[Pin, ...] = ()


def plan_near(
    kitchen: Kitchen,
    date: dt.date,
    released: Earlier | None,
    held: Earlier | None,
    options: PlanOptions | None = None,
    on_progress: Callable[[Progress], None] | None = None,
) -> tuple[Plan, tuple[str, ...]]:
    """Plan ``date`` near ``released``, with the pins of ``held``; and what people must be told.

    Lots are divided as in ``released``, so that a batch is still the same batch. A pin is kept for
    the lot that stands for the one it was put on; where there is none any more, or it cannot be
    kept on the day as it is now, it is given up and said.

    Raises
    ------
    planner.morning.BrokenPlanError
        The plan breaks a rule: a defect of this program, never of the kitchen.
    """
    batches = _NearBatches(released, held)
    plan = plan_morning(kitchen, date, options, on_progress, batches)
    plan = replace(plan, pins=batches.pins)
    refuse_unkept(plan)
    return plan, tuple(batches.notes)


@dataclass
class _NearBatches:
    """Plans a day's batches, and remembers which pins it kept."""

    released: Earlier | None
    held: Earlier | None
    pins: tuple[Pin, ...] = ()
    notes: list[str] = field(default_factory=list)

    def __call__(
        self,
        kit: Kitchenry,
        demands: tuple[DishDemand, ...],
        quantities: Quantities,
        options: SearchOptions,
        on_progress: OnProgress | None = None,
        food: Shared | None = None,
    ) -> tuple[Workload, Solution]:
        """The lots as they were divided, and their timetable."""
        model = self.released or self.held
        batching = BY_THE_RULE if model is None else model.workload.batching
        workload = workload_of(kit, demands, quantities, batching=batching, food=food)
        self._carry_pins(kit, workload)
        whole, share = options, self._share(workload)
        options = options.with_limit(options.limit * share)
        began = time.monotonic()
        while True:
            solution = self._solved(workload, options, on_progress)
            left = no_room(kit.catalog, workload, self.pins, solution.timetable)
            if not left:
                if share == 1.0 or self.pins or not any(_felt(solution.score)[:2]):
                    return workload, solution
                # In the batches of before it is short or late: others may do better.
                rest = whole.with_limit(whole.limit * (1 - share))
                other = plan_batches(kit, demands, quantities, rest, on_progress, food)
                better = _felt(other[1].score)[:2] < _felt(solution.score)[:2]
                return other if better else (workload, solution)
            gone = {error.lot for error in left}
            self.notes += given_up_notes(kit.catalog, workload, left)
            self.pins = tuple(pin for pin in self.pins if pin.lot not in gone)
            if options.deterministic_limit is None:
                spent = time.monotonic() - began
                options = options.with_limit(max(0.0, options.limit - spent))

    def _share(self, workload: Workload) -> float:
        """Of the limit, for the batches of before: all of it where they do without other ones."""
        if self.released is None or self.pins:
            return 1.0
        tables = tables_of(workload.problem)
        known = _known(self.released, workload, ())
        kept = score_of(tables, _carried(self.released, workload, tables, known))
        return _FIRST if any(_felt(kept)[:2]) else 1.0

    def _carry_pins(self, kit: Kitchenry, workload: Workload) -> None:
        if self.held is None or not self.held.pins:
            return
        stands_for = {
            old.id: workload.lots[index]
            for index, old in alike(self.held.workload.lots, workload.lots).items()
        }
        known = {lot.id: lot for lot in self.held.workload.lots}
        wanted = []
        for pin in self.held.pins:
            lot = stands_for.get(pin.lot)
            if lot is None:
                old = known.get(pin.lot)
                if old is not None:
                    operation = kit.catalog.operations[old.operation].name
                    note = sentence(
                        "{name} is not held by hand any more: there is no such batch now.",
                        name=f"{operation} {kit.catalog.name(old.food)}",
                    )
                    self.notes.append(note)
                continue
            ahead = stands_for.get(pin.follows)
            wanted.append(replace(pin, lot=lot.id, follows="" if ahead is None else ahead.id))
        self.pins, errors = keepable(kit.catalog, workload, wanted)
        self.notes += given_up_notes(kit.catalog, workload, errors)
        self.notes = list(dict.fromkeys(self.notes))

    def _solved(
        self, workload: Workload, options: SearchOptions, on_progress: OnProgress | None
    ) -> Solution:
        problem = pinned(workload, self.pins)
        if self.released is None:
            return solve(problem, options, on_progress)
        known = _known(self.released, workload, self.pins)
        tables = tables_of(problem)
        start = _carried(self.released, workload, tables, known)
        most = options.with_limit(options.limit * (1 - _CALM))
        found = solve(problem, most, on_progress, start=start)
        kept = score_of(tables, start)
        counted = 2 if start is self.released.timetable else 3
        if _felt(kept)[:counted] <= _felt(found.score)[:counted]:
            return _restated(found, start, kept)
        run = Run(tables, options.with_limit(options.limit * _CALM), None)
        held = held_to(problem, known)
        old = Old(tables_of(held), tables_of(on_old_times(held, known)))
        timetable = calmed(run, old, found.timetable, known, labor_too)
        return _restated(found, timetable, score_of(tables, timetable))


def _felt(score: Score) -> tuple[int, int, int]:
    """What is worth a change for people."""
    return score.short, score.tardiness, score.labor


def _restated(found: Solution, timetable: Timetable, score: Score) -> Solution:
    """The same search with another plan, no worse in what is felt; its bounds still hold."""
    bounds = {bound.term: bound for bound in found.bounds}
    return replace(
        found,
        timetable=timetable,
        score=score,
        bounds=tuple(restate(bounds[term], score) for term in TERMS),
    )


def _known(before: Earlier, workload: Workload, pins: tuple[Pin, ...]) -> Match:
    """What people expect of the lots there are now."""
    worker_of = {cook: index for index, cook in enumerate(workload.cooks)}
    by_task = {item.task: item for item in before.timetable.assignments}
    pairs = alike(before.workload.lots, workload.lots)
    old: dict[int, Assignment] = {}
    for index, lot in pairs.items():
        for task, known in tasks_alike(workload.lots[index], lot):
            item = by_task.get(known)
            worker = None if item is None else worker_of.get(before.workload.cooks[item.worker])
            if item is not None and worker is not None:
                # Its places and cleans go by holds of the plan before.
                old[task] = Assignment(task, worker, item.start, item.end)
    return Match(old=expected(workload, pins, old), rests=_rests(before, workload))


def _rests(before: Earlier, workload: Workload) -> tuple[tuple[Slot, ...], ...]:
    slots = slots_of(before.workload.problem, before.timetable)
    of_cook = dict(zip(before.workload.cooks, slots, strict=True))
    return tuple(of_cook.get(cook, ()) for cook in workload.cooks)


def _carried(before: Earlier, workload: Workload, tables: Tables, known: Match) -> Timetable:
    """The plan before, as it goes on the day as it is now."""
    same = before.workload.problem == workload.problem
    if same and not check_timetable(tables.problem, before.timetable):
        return before.timetable
    return replay(tables, known.old, rests=known.rests)
