"""What would fix an over-full morning: each suggestion is planned again before it is made."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.binding.changes import extra_hands, one_more
from planner.check.timetable import check_timetable
from planner.lots.types import Workload
from planner.plan import Remedy, Trouble
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import PullLine
from planner.schedule.assemble import Choice, assemble
from planner.schedule.problem import Problem
from planner.schedule.rests import slots_of
from planner.schedule.search import SearchOptions, solve
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Score, Solution, Timetable
from planner.troubles.ahead import started_earlier
from planner.troubles.change import Change
from planner.troubles.left import Left, least, left
from planner.troubles.naming import resource_name
from planner.troubles.plated import Plated
from planner.troubles.wider import left_with_one_more
from planner.wording import grams_text, sentence

_STEPS = (30, 60, 90, 120, 180, 240, 300, 360)
"""Minutes of an extra pair of hands that are tried, least first."""
_MOST = 6
"""Suggestions at most."""


def remedies_of(
    kit: Kitchenry,
    workload: Workload,
    solution: Solution,
    troubles: tuple[Trouble, ...],
    options: SearchOptions,
    plated: Plated,
    pulls: tuple[PullLine, ...] = (),
) -> tuple[Remedy, ...]:
    """Suggestions that help, those that help guests most first.

    ``options`` bounds each re-planning. Of extra hands only the least that solves all that a
    schedule can is kept, or the most tried if none does. What planning the unchanged morning once
    more would bring as well is no help, nor is what makes guests worse off. ``plated`` is what
    no schedule can change; ``pulls`` tell how much raw food is missing.
    """
    if not troubles:
        return ()
    morning = _Morning(kit, workload, solution.timetable, troubles, plated)
    problem, timetable = workload.problem, solution.timetable
    before = left(problem, timetable, plated)
    found: list[tuple[str, Left]] = []
    for minutes in _STEPS if problem.jobs else ():
        change = _extra_hands(morning, minutes)
        hands = _try(change, options)
        if hands[1].rank <= least(tables_of(change.problem), plated).rank or minutes == _STEPS[-1]:
            found.append(hands)
            break
    changes = [
        *_bought(morning, pulls),
        *_earlier(morning),
        *_yesterday(morning),
    ]
    found += [_try(change, options) for change in changes]
    found += [_more_room(morning, resource, options) for resource in _binding(morning)]
    _again, unchanged = _try(Change("", problem, timetable, plated), options)
    helping = [one for one in found if one[1].helps(before) and one[1].rank < unchanged.rank]
    helping.sort(key=lambda one: one[1].rank)
    return tuple(_remedy(text, before, after) for text, after in helping[:_MOST])


@dataclass(frozen=True, slots=True)
class _Morning:
    """The morning as it was planned, which each change starts from."""

    kit: Kitchenry
    workload: Workload
    timetable: Timetable
    troubles: tuple[Trouble, ...]
    plated: Plated

    @property
    def problem(self) -> Problem:
        """The problem that was solved."""
        return self.workload.problem


def _remedy(text: str, before: Left, after: Left) -> Remedy:
    return Remedy(
        text,
        after.late + after.own_late,
        after.portions,
        not any(after.rank),
        after.kilos,
        before.late + before.own_late,
        before.portions,
        before.kilos,
    )


def _try(change: Change, options: SearchOptions) -> tuple[str, Left]:
    target = Score(0, 0, 10**9, 10**9, 10**9)
    # Taking work out of a line can lengthen the lead of what comes after: such a plan is no start.
    sound = not check_timetable(change.problem, change.start)
    start = change.start if sound else None
    solution = solve(change.problem, options, start=start, good_enough=target)
    return change.text, left(change.problem, solution.timetable, change.plated)


def _extra_hands(morning: _Morning, minutes: int) -> Change:
    """Somebody who can do everything, as fast as the slowest who can, from the first arrival on."""
    problem = morning.problem
    begin = problem.start
    text = sentence(
        "{n} more minutes of a cook's hands from {at}",
        n=minutes,
        at=f"{begin // 60:02d}:{begin % 60:02d}",
    )
    return Change(text, extra_hands(problem, begin, minutes), morning.timetable, morning.plated)


def _bought(morning: _Morning, pulls: tuple[PullLine, ...]) -> Iterator[Change]:
    """Raw food that nobody has, there at the start of the day."""
    problem, plated = morning.problem, morning.plated
    reasons = sorted({job.impossible for job in problem.jobs if job.impossible})
    if reasons or plated.bought() != plated:
        amounts = [
            sentence("{amount} of {food}", amount=grams_text(p.short), food=p.name)
            for p in pulls
            if p.short >= 1
        ]
        names = "; ".join(amounts or [reason.removeprefix("no ") for reason in reasons])
        jobs = tuple(replace(job, impossible="") for job in problem.jobs)
        text = sentence("get what is missing ({names})", names=names)
        changed = replace(problem, jobs=jobs)
        yield Change(text, changed, morning.timetable, plated.bought())


def _earlier(morning: _Morning) -> Iterator[Change]:
    """First steps that an earlier day should have begun, begun then: one by one, and all.

    Hands alone may as well be extra hands of today; named is what must lie or cook by itself.
    """
    missed = started_earlier(morning.kit, morning.workload)
    starts = [one for one in missed if _had_its_food(morning.problem, one.lots)]
    if len(starts) > 1:
        gone = {lot for one in starts for lot in one.lots}
        names = "; ".join(one.name for one in starts if one.alone) or sentence(
            "all that was missed"
        )
        text = sentence("start on an earlier day, with all that goes in: {names}", names=names)
        yield _given(text, gone, morning)
    for one in [one for one in starts if one.alone][:_MOST]:
        text = (
            sentence("start {what} the day before ({steps})", what=one.name, steps=one.steps)
            if one.days == 1
            else sentence(
                "start {what} {n} days before ({steps})",
                what=one.name,
                n=one.days,
                steps=one.steps,
            )
        )
        yield _given(text, one.lots, morning)


def _given(text: str, gone: set[int], morning: _Morning) -> Change:
    """Some lots already done."""
    changed = _without(morning.problem, gone)
    return Change(text, changed, _kept(changed, morning.timetable, gone), morning.plated)


def _yesterday(morning: _Morning) -> Iterator[Change]:
    """Components that keep, made the day before: what is in trouble and what takes most hands."""
    kit, workload = morning.kit, morning.workload
    work: dict[str, float] = {}
    for lot in workload.lots:
        if len(lot.shares) == 1 and _keeps(kit, lot.component):
            minutes = sum(item.book_minutes for item in lot.tasks)
            work[lot.component] = work.get(lot.component, 0.0) + minutes
    named = [t.item for t in morning.troubles if t.item in work]
    ranked = sorted(work, key=lambda c: (-work[c], c))
    for component in list(dict.fromkeys([*named[:2], *ranked]))[:4]:
        name = kit.catalog.components[component].name
        gone = {
            lot.index for lot in workload.lots if {s.component for s in lot.shares} == {component}
        }
        if not _had_its_food(workload.problem, gone):
            continue
        yield _given(sentence("make {name} the day before", name=name), gone, morning)


def _kept(problem: Problem, timetable: Timetable, gone: set[int]) -> Timetable:
    """The plan less some jobs, its leads as they then are."""
    kept = [i for i in timetable.assignments if problem.tasks[i.task].lot not in gone]
    choices = {item.task: Choice(item.worker, item.start, item.end) for item in kept}
    units = {hold: unit for item in kept for hold, unit in item.units}
    cleaned = [hold for item in kept for hold in item.cleaned]
    return assemble(tables_of(problem), choices, units, slots_of(problem, timetable), cleaned)


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


def _binding(morning: _Morning) -> Iterator[int]:
    """Resources that something is short or late for."""
    named = {trouble.resource for trouble in morning.troubles}
    return (i for i, one in enumerate(morning.problem.resources) if one.id in named)


def _more_room(morning: _Morning, index: int, options: SearchOptions) -> tuple[str, Left]:
    """One more unit of a resource: with the lots as they are, or with those it then allows."""
    problem = morning.problem
    resource = problem.resources[index]
    text = sentence("one more {what}", what=resource_name(morning.kit, resource.id).lower())
    changed = one_more(problem, index)
    _, same_lots = _try(Change(text, changed, morning.timetable, morning.plated), options)
    new_lots = left_with_one_more(morning.kit, resource.id, morning.plated, options)
    return text, min(same_lots, new_lots, key=lambda one: one.rank)
