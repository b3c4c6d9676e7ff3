"""Batches as runs of tasks: who does which tasks together, before anything is said about them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.kitchen.work import Cook
from planner.lots.types import Lot, Part
from planner.schedule.problem import Family
from planner.schedule.timetable import Assignment, Lead
from planner.sheet.takings import Source
from planner.sheet.view import PlanView

MOST_IDLE = 15
"""Minutes that a cook may stand idle within a batch: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Run:
    """A run of one cook's tasks of one family with nothing in between, numbered over the kitchen.

    A break, the line or an idle stretch that people notice ends a run: what goes on after it is a
    run of its own without a set-up.
    """

    number: int
    worker: int
    cook: Cook
    part: Part
    assignments: tuple[Assignment, ...]
    lots: tuple[Lot, ...]
    """Lots of the tasks, each once, in order."""
    goes_on: bool = False
    """Whether it goes on with the run before a break, the line or an idle stretch."""
    pauses: tuple[tuple[int, int], ...] = ()
    """Breaks that its tasks are put down over."""

    @property
    def lead(self) -> Lead:
        """Minutes before and inside the run, by kind; a clean may fall due inside it."""
        leads = [one.lead for one in self.assignments]
        return Lead(
            sum(lead.set_up for lead in leads),
            sum(lead.changeover for lead in leads),
            sum(lead.hand_wash for lead in leads),
            sum(lead.clean for lead in leads),
        )

    def family(self, view: PlanView) -> Family:
        """The family of all its tasks."""
        return view.problem.families[view.problem.tasks[self.assignments[0].task].family]

    @property
    def start(self) -> int:
        """Start of the lead."""
        return _begins(self.assignments[0])

    @property
    def end(self) -> int:
        """End of the last task."""
        return self.assignments[-1].end

    @property
    def hands_on(self) -> int:
        """Minutes of work, without leads, gaps and breaks."""
        return sum(one.end - one.start for one in self.assignments) - self.paused

    @property
    def paused(self) -> int:
        """Minutes of breaks that its tasks are put down over."""
        return sum(end - begin for begin, end in self.pauses)


def runs(view: PlanView) -> tuple[Run, ...]:
    """All batches of the kitchen, numbered from 1 by start time."""
    found: list[tuple[int, list[Assignment], bool]] = []
    for worker in range(len(view.problem.workers)):
        last: Assignment | None = None
        for one in view.in_order(worker):
            same = last is not None and _family(view, last) == _family(view, one)
            away = (*view.worker(worker).blocked, *view.rests[worker])
            apart = last is not None and same and _are_apart(away, last, one)
            if not same or apart:
                found.append((worker, [], apart))
            found[-1][1].append(one)
            last = one
    found.sort(key=lambda run: (_begins(run[1][0]), run[0]))
    return tuple(
        _run(view, number, worker, tuple(assignments), goes_on)
        for number, (worker, assignments, goes_on) in enumerate(found, start=1)
    )


def sources(found: tuple[Run, ...]) -> Mapping[int, Source]:
    """By lot index, the batch that hands its output over: where it is finished, else worked on."""
    by_lot: dict[int, Source] = {}
    finished: set[int] = set()
    for run in found:
        if run.part is Part.CHECK:
            continue
        for lot in run.lots:
            if lot.index not in finished:
                by_lot[lot.index] = Source(run.number, run.cook.initials)
            if run.part is Part.FINISH:
                finished.add(lot.index)
    return by_lot


def batch_of_task(found: tuple[Run, ...]) -> Mapping[int, Run]:
    """The batch of each task done."""
    return {one.task: run for run in found for one in run.assignments}


def _family(view: PlanView, one: Assignment) -> int:
    return view.problem.tasks[one.task].family


def _begins(one: Assignment) -> int:
    return one.start - one.lead.total


def _are_apart(away: Sequence[tuple[int, int]], before: Assignment, after: Assignment) -> bool:
    """Whether a break, the line or a long idle stretch lies between one task and the next."""
    return _begins(after) - before.end > MOST_IDLE or any(
        before.end <= begin and end <= _begins(after) for begin, end in away
    )


def _run(
    view: PlanView,
    number: int,
    worker: int,
    assignments: tuple[Assignment, ...],
    goes_on: bool,
) -> Run:
    lots: dict[int, Lot] = {}
    for one in assignments:
        lot, _task = view.lot_tasks[one.task]
        lots[lot.index] = lot
    cook = view.catalog.cooks[view.plan.workload.cooks[worker]]
    part = view.lot_tasks[assignments[0].task][1].part
    pauses = tuple(pause for one in assignments for pause in view.spanned(one))
    return Run(number, worker, cook, part, assignments, tuple(lots.values()), goes_on, pauses)
