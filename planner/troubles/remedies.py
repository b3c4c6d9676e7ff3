"""What would fix an over-full morning: each suggestion is planned again before it is made."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.check.timetable import check_timetable
from planner.lots.types import Workload
from planner.plan import Remedy, Trouble
from planner.quantities.making import Kitchenry
from planner.schedule.assemble import Choice, assemble
from planner.schedule.problem import Problem, Worker
from planner.schedule.score import short_portions
from planner.schedule.search import SearchOptions, solve
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Score, Solution, Timetable
from planner.troubles.find import resource_name

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
) -> tuple[Remedy, ...]:
    """Suggestions that help, those that solve everything first.

    ``options`` bounds each re-planning. Of extra hands only the least that solves everything is
    kept, or the most tried if none does.
    """
    if not troubles:
        return ()
    found: list[Remedy] = []
    problem = workload.problem
    hands: Remedy | None = None
    for minutes in _STEPS:
        hands = _try(_extra_hands(problem, solution.timetable, minutes), options)
        if hands.solves:
            break
    if hands is not None:
        found.append(hands)
    changes = [
        *_bought(problem, solution),
        *_yesterday(kit, workload, solution, troubles),
        *_more_room(kit, workload, solution, troubles),
    ]
    found += [_try(change, options) for change in changes]
    late, short = unweighted(problem, solution.timetable)
    helping = [r for r in found if (r.short_portions, r.late_minutes) < (short, late)]
    helping.sort(key=lambda r: (not r.solves, r.short_portions, r.late_minutes))
    return tuple(helping[:_MOST])


def unweighted(problem: Problem, timetable: Timetable) -> tuple[int, int]:
    """Minutes late over all that is due, and portions short, each counted once."""
    late = sum(
        max(0, item.end - due)
        for item in timetable.assignments
        if (due := problem.tasks[item.task].due) is not None
    )
    bare = replace(
        problem, promises=tuple(replace(promise, weight=1) for promise in problem.promises)
    )
    done = {problem.tasks[item.task].lot for item in timetable.assignments}
    return late, short_portions(tables_of(bare), done)


def _try(change: Change, options: SearchOptions) -> Remedy:
    target = Score(0, 0, 10**9, 10**9, 10**9)
    # Taking work out of a line can lengthen the lead of what comes after: such a plan is no start.
    sound = not check_timetable(change.problem, change.start)
    start = change.start if sound else None
    solution = solve(change.problem, options, start=start, good_enough=target)
    late, short = unweighted(change.problem, solution.timetable)
    return Remedy(change.text, late, short, solves=late == 0 and short == 0)


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


def _bought(problem: Problem, solution: Solution) -> Iterator[Change]:
    """Raw food that nobody has, there at the start of the day."""
    reasons = sorted({job.impossible for job in problem.jobs if job.impossible})
    if reasons:
        names = ", ".join(dict.fromkeys(reason.removeprefix("no ") for reason in reasons))
        jobs = tuple(replace(job, impossible="") for job in problem.jobs)
        yield Change(
            f"get what is missing: {names}", replace(problem, jobs=jobs), solution.timetable
        )


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
        problem = _without(workload.problem, gone)
        yield Change(f"make {name} the day before", problem, _kept(problem, solution, gone))


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
