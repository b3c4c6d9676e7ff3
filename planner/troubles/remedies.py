"""What would fix an over-full morning: each suggestion is planned again before it is made."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.check.timetable import check_timetable
from planner.lots.promises import OWN
from planner.lots.types import Workload
from planner.plan import Remedy, Trouble
from planner.quantities.making import Kitchenry
from planner.quantities.types import PullLine
from planner.schedule.assemble import Choice, assemble
from planner.schedule.problem import Problem, Worker
from planner.schedule.score import short_portions
from planner.schedule.search import SearchOptions, solve
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Score, Solution, Timetable
from planner.troubles.ahead import started_earlier
from planner.troubles.naming import resource_name
from planner.wording import grams_text

_STEPS = (30, 60, 90, 120, 180, 240, 300, 360)
"""Minutes of an extra pair of hands that are tried, least first."""
_MOST = 6
"""Suggestions at most."""


@dataclass(frozen=True, slots=True)
class Change:
    """A changed problem, and a plan to begin from where it holds in the changed problem too."""

    text: str
    problem: Problem
    start: Timetable


def remedies_of(
    kit: Kitchenry,
    workload: Workload,
    solution: Solution,
    troubles: tuple[Trouble, ...],
    options: SearchOptions,
    pulls: tuple[PullLine, ...] = (),
) -> tuple[Remedy, ...]:
    """Suggestions that help, those that solve everything first.

    ``options`` bounds each re-planning. Of extra hands only the least that solves everything is
    kept, or the most tried if none does. What planning the unchanged morning once more would bring
    as well is no help. ``pulls`` tell how much raw food is missing.
    """
    if not troubles:
        return ()
    problem, timetable = workload.problem, solution.timetable
    before = left(problem, timetable)
    found: list[tuple[str, Left]] = []
    for minutes in _STEPS:
        hands = _try(_extra_hands(problem, timetable, minutes), options)
        if hands[1] == NOTHING or minutes == _STEPS[-1]:
            found.append(hands)
            break
    changes = [
        *_bought(problem, solution, pulls),
        *_earlier(kit, workload, solution),
        *_yesterday(kit, workload, solution, troubles),
        *_more_room(kit, workload, solution, troubles),
    ]
    found += [_try(change, options) for change in changes]
    _again, unchanged = _try(Change("", problem, timetable), options)
    mark = min(before.rank, unchanged.rank)
    helping = sorted((one for one in found if one[1].rank < mark), key=lambda one: one[1].rank)
    return tuple(_remedy(text, before, after) for text, after in helping[:_MOST])


@dataclass(frozen=True, slots=True)
class Left:
    """What is short (portions, and kilos of the kitchen's own) and late, each counted once."""

    portions: int
    kilos: int
    late: int

    @property
    def rank(self) -> tuple[int, int]:
        """Less is better; short before late."""
        return self.portions + self.kilos, self.late


NOTHING = Left(0, 0, 0)


def _remedy(text: str, before: Left, after: Left) -> Remedy:
    return Remedy(
        text,
        after.late,
        after.portions,
        after == NOTHING,
        after.kilos,
        before.late,
        before.portions,
        before.kilos,
    )


def left(problem: Problem, timetable: Timetable) -> Left:
    """Minutes late over all that is due, and what is short, unweighted."""
    late = sum(
        max(0, item.end - due)
        for item in timetable.assignments
        if (due := problem.tasks[item.task].due) is not None
    )
    done = {problem.tasks[item.task].lot for item in timetable.assignments}
    return Left(_short(problem, done, own=False), _short(problem, done, own=True), late)


def _short(problem: Problem, done: set[int], *, own: bool) -> int:
    bare = tuple(
        replace(promise, weight=int(promise.id.startswith(f"{OWN}:") is own))
        for promise in problem.promises
    )
    return short_portions(tables_of(replace(problem, promises=bare)), done)


def _try(change: Change, options: SearchOptions) -> tuple[str, Left]:
    target = Score(0, 0, 10**9, 10**9, 10**9)
    # Taking work out of a line can lengthen the lead of what comes after: such a plan is no start.
    sound = not check_timetable(change.problem, change.start)
    start = change.start if sound else None
    solution = solve(change.problem, options, start=start, good_enough=target)
    return change.text, left(change.problem, solution.timetable)


def _extra_hands(problem: Problem, timetable: Timetable, minutes: int) -> Change:
    """Somebody who can do everything, as fast as the slowest who can, from the first arrival on."""
    begin = problem.start
    helper = Worker("extra", begin, begin + minutes, begin + minutes)
    index = len(problem.workers)
    tasks = tuple(
        replace(task, minutes={**task.minutes, index: max(task.minutes.values())})
        if task.minutes
        else task
        for task in problem.tasks
    )
    text = f"{minutes} more minutes of a cook's hands from {begin // 60:02d}:{begin % 60:02d}"
    changed = replace(problem, workers=(*problem.workers, helper), tasks=tasks)
    return Change(text, changed, timetable)


def _bought(problem: Problem, solution: Solution, pulls: tuple[PullLine, ...]) -> Iterator[Change]:
    """Raw food that nobody has, there at the start of the day."""
    reasons = sorted({job.impossible for job in problem.jobs if job.impossible})
    if reasons:
        amounts = [f"{grams_text(p.short)} of {p.name}" for p in pulls if p.short >= 1]
        names = "; ".join(amounts or [reason.removeprefix("no ") for reason in reasons])
        jobs = tuple(replace(job, impossible="") for job in problem.jobs)
        yield Change(
            f"get what is missing ({names})", replace(problem, jobs=jobs), solution.timetable
        )


def _earlier(kit: Kitchenry, workload: Workload, solution: Solution) -> Iterator[Change]:
    """First steps that an earlier day should have begun, begun then: one by one, and all.

    Hands alone may as well be extra hands of today; named is what must lie or cook by itself.
    """
    problem = workload.problem
    starts = [one for one in started_earlier(kit, workload) if _had_its_food(problem, one.lots)]
    if len(starts) > 1:
        gone = {lot for one in starts for lot in one.lots}
        names = "; ".join(one.name for one in starts if one.alone) or "all that was missed"
        yield _given(
            f"start on an earlier day, with all that goes in: {names}", gone, problem, solution
        )
    for one in [one for one in starts if one.alone][:_MOST]:
        text = f"start {one.name} {one.when} ({one.steps})"
        yield _given(text, one.lots, problem, solution)


def _given(text: str, gone: set[int], problem: Problem, solution: Solution) -> Change:
    """Some lots already done."""
    changed = _without(problem, gone)
    return Change(text, changed, _kept(changed, solution, gone))


def _yesterday(
    kit: Kitchenry, workload: Workload, solution: Solution, troubles: tuple[Trouble, ...]
) -> Iterator[Change]:
    """Components that keep, made the day before: what is in trouble and what takes most hands."""
    work: dict[str, float] = {}
    for lot in workload.lots:
        if len(lot.shares) == 1 and _keeps(kit, lot.component):
            minutes = sum(item.book_minutes for item in lot.tasks)
            work[lot.component] = work.get(lot.component, 0.0) + minutes
    named = [t.item for t in troubles if t.item in work]
    ranked = sorted(work, key=lambda c: (-work[c], c))
    for component in list(dict.fromkeys([*named[:2], *ranked]))[:4]:
        name = kit.catalog.components[component].name
        gone = {
            lot.index for lot in workload.lots if {s.component for s in lot.shares} == {component}
        }
        if not _had_its_food(workload.problem, gone):
            continue
        yield _given(f"make {name} the day before", gone, workload.problem, solution)


def _kept(problem: Problem, solution: Solution, gone: set[int]) -> Timetable:
    """The plan less some jobs, its leads as they then are."""
    kept = [i for i in solution.timetable.assignments if problem.tasks[i.task].lot not in gone]
    choices = {item.task: Choice(item.worker, item.start, item.end) for item in kept}
    units = {hold: unit for item in kept for hold, unit in item.units}
    return assemble(tables_of(problem), choices, units)


def _keeps(kit: Kitchenry, component: str) -> bool:
    spec = kit.catalog.components[component]
    return spec.shelf_life_days > 1 and spec.fresh_hours is None


def _had_its_food(problem: Problem, gone: set[int]) -> bool:
    """Whether lots, and all they need, wait for no delivery of today and lack nothing."""
    stack, seen = list(gone), set(gone)
    while stack:
        job = problem.jobs[stack.pop()]
        if job.impossible or any(problem.tasks[t].release > problem.start for t in job.tasks):
            return False
        fresh = set(job.needs) - seen
        seen |= fresh
        stack.extend(fresh)
    return True


def _without(problem: Problem, gone: set[int]) -> Problem:
    """The problem with some jobs already done: nothing to do for them, nothing waits for them."""
    tasks = {t for job in gone for t in problem.jobs[job].tasks}
    jobs = tuple(
        replace(job, serves=(), impossible="made the day before", needs=())
        if index in gone
        else replace(job, needs=tuple(need for need in job.needs if need not in gone))
        for index, job in enumerate(problem.jobs)
    )
    waits = tuple(w for w in problem.waits if w.before not in tasks and w.after not in tasks)
    return replace(problem, jobs=jobs, waits=waits)


def _more_room(
    kit: Kitchenry, workload: Workload, solution: Solution, troubles: tuple[Trouble, ...]
) -> Iterator[Change]:
    """One more unit of a resource that binds."""
    problem = workload.problem
    words = {t.binding for t in troubles}
    for index, resource in enumerate(problem.resources):
        name = resource_name(kit, resource.id)
        if f"{name} in use" in words:
            wider = replace(resource, capacity=resource.capacity + 1)
            resources = (*problem.resources[:index], wider, *problem.resources[index + 1 :])
            yield Change(
                f"one more {name.lower()}",
                replace(problem, resources=resources),
                solution.timetable,
            )
