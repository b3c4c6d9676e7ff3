"""Batches by their cost: what is tried beside the rule, and kept where the whole plan is better.

One large batch early saves a set-up and may be late or stale; two small ones pay it twice. Which is
dearer depends on everybody's morning, so each is planned and the plans are compared.
"""

import time
from collections import defaultdict
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace

from planner.demand.types import DishDemand
from planner.lots.batching import Batches, Batching, StageKey, StageLots
from planner.lots.build import workload_of
from planner.lots.divide import WAVE_MINUTES
from planner.lots.lacking import Shared, share_out
from planner.lots.types import Lot, Workload
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import Quantities
from planner.schedule.quick import quick_plan
from planner.schedule.replay import replay
from planner.schedule.rests import slots_of
from planner.schedule.run import OnProgress, SearchOptions, StopSearch
from planner.schedule.search import solve
from planner.schedule.tables import tables_of, with_needs
from planner.schedule.timetable import Assignment, Progress, Solution, Timetable

_SHARE = 0.3
"""Of the time, for trying batches."""
_TURNS = 12
"""Turns that share it: the batches there are and a change of them take one each, in alternation, so
that what more time alone would bring is not put down to the change."""
_LEAST_HANDS = 10
"""Minutes of hands from which it is worth asking whether two cooks should share a lot."""


def plan_batches(
    kit: Kitchenry,
    demands: tuple[DishDemand, ...],
    quantities: Quantities,
    options: SearchOptions,
    on_progress: OnProgress | None = None,
    food: Shared | None = None,
) -> tuple[Workload, Solution]:
    """Plan the day's lots, batched by the rule and then otherwise, stage by stage.

    A change is kept where the plan with it is better in the objective's strict order. The rest of
    the time is for the best batches' schedule. ``food`` is how raw food is shared out, if known.
    """
    told = _Told(on_progress)
    food = food or share_out(kit, demands, quantities)
    workload = workload_of(kit, demands, quantities, food=food)
    mine = tables_of(workload.problem)
    each = _limited(options, options.limit * _SHARE / _TURNS)
    timetable, score, spent = quick_plan(mine, each, told)
    tried: set[tuple[StageKey, Batches]] = set()
    turn = spent
    # Lots of a large kitchen take long to build: no turn is begun that would run over the share.
    while spent + turn < options.limit * _SHARE and not told.stopped:
        change = next((one for one in _changes(workload, timetable) if one not in tried), None)
        if change is None:
            break
        tried.add(change)
        batching = workload.batching.toggled(*change)
        other = workload_of(kit, demands, quantities, batching=batching, food=food)
        tables = tables_of(other.problem)
        carried = _carried_over(workload, timetable, other)
        start = replay(tables, carried, rests=slots_of(workload.problem, timetable))
        plan, worth, took = quick_plan(tables, each, start=start)
        timetable, score, again = quick_plan(mine, each, told, start=timetable)
        # What a deterministic search is charged for building lots does not depend on the clock.
        both = spent + took + again
        before, spent = spent, told.elapsed() if options.deterministic_limit is None else both
        turn = spent - before
        if worth < score:
            workload, mine, timetable, score = other, tables, plan, worth
            with suppress(StopSearch):  # it is heard by ``stopped``
                told(Progress(told.elapsed(), worth, "batches by their cost"))
    rest = _limited(options, 0.0 if told.stopped else options.limit - spent)
    found = solve(workload.problem, rest, told, start=timetable)
    spent = 0.0 if options.deterministic_limit is None else spent
    return workload, replace(
        found,
        history=tuple(told.history),
        seconds=told.elapsed(),
        deterministic_time=found.deterministic_time + spent,
    )


class _Told:
    """One stream of improvements out of several searches, each better than all before."""

    def __init__(self, on_progress: OnProgress | None) -> None:
        self.history: list[Progress] = []
        self.stopped = False
        self._on_progress = on_progress
        self._began = time.monotonic()

    def elapsed(self) -> float:
        """Seconds since the first search began."""
        return time.monotonic() - self._began

    def __call__(self, progress: Progress) -> None:
        """Pass on what a search tells; a word without news lets the listener stop it.

        Raises
        ------
        StopSearch
            The listener wishes so, now or before.
        """
        if self.stopped:
            raise StopSearch
        try:
            self._note(replace(progress, seconds=self.elapsed()))
        except StopSearch:
            self.stopped = True
            raise

    def _note(self, progress: Progress) -> None:
        """Tell ``progress`` if it is better, else the best so far once more."""
        if not self.history or progress.score < self.history[-1].score:
            self.history.append(progress)
        if self._on_progress is not None:
            last = self.history[-1]
            self._on_progress(replace(last, seconds=progress.seconds))


def _carried_over(
    workload: Workload, timetable: Timetable, other: Workload
) -> dict[int, Assignment]:
    """Who does what when, for the lots of another batching, in the order of like ones."""
    by_task = {item.task: item for item in timetable.assignments}
    waiting: dict[tuple[str, int, str], list[Lot]] = defaultdict(list)
    for lot in workload.lots:
        waiting[lot.component, lot.step, lot.operation].append(lot)
    old: dict[int, Assignment] = {}
    for lot in other.lots:
        alike = waiting[lot.component, lot.step, lot.operation]
        if alike:
            pairs = zip(lot.tasks, alike.pop(0).tasks, strict=False)
            old |= {a.task: by_task[b.task] for a, b in pairs if b.task in by_task}
    return old


def _changes(workload: Workload, timetable: Timetable) -> Iterator[tuple[StageKey, Batches]]:
    """What could be otherwise, for what is late or left out first, then where most hands are."""
    late = _in_trouble(workload, timetable)
    stages = sorted(
        workload.stages,
        key=lambda one: (late.isdisjoint(one.lots), -one.hands * len(one.lots), one.key),
    )
    for stage in stages:
        yield from ((stage.key, way) for way in _ways(workload.batching, stage))


def _ways(batching: Batching, stage: StageLots) -> Iterator[Batches]:
    known = {way for way in Batches if batching.has(stage.key, way)}
    if stage.joined and Batches.TOGETHER not in known:
        yield Batches.APART
    elif stage.spread > WAVE_MINUTES and len(stage.lots) > 1 and Batches.APART not in known:
        yield Batches.TOGETHER
    if stage.hands >= _LEAST_HANDS and Batches.WHOLE not in known:
        yield Batches.HALVED
    if len(stage.lots) > 1 and stage.room and Batches.HALVED not in known:
        yield Batches.WHOLE


def _in_trouble(workload: Workload, timetable: Timetable) -> frozenset[int]:
    """Lots that are late or left out, and all they need."""
    problem = workload.problem
    done = {problem.tasks[item.task].lot for item in timetable.assignments}
    found = [
        index
        for index, job in enumerate(problem.jobs)
        if index not in done and job.serves and not job.impossible
    ]
    for item in timetable.assignments:
        task = problem.tasks[item.task]
        if task.due is not None and item.end > task.due:
            found.append(task.lot)
    return with_needs(problem, found)


def _limited(options: SearchOptions, limit: float) -> SearchOptions:
    """With another limit, but never none at all."""
    return options.with_limit(max(0.01, limit))
