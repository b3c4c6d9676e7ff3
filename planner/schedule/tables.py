"""Look-ups worked out once per problem, shared by the constructive rules and the models."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from planner.schedule.leads import lead_between, lead_minutes, needs_clean
from planner.schedule.problem import Problem, Wait
from planner.schedule.rests import Slot, first_slots, walls_of
from planner.schedule.timetable import Lead
from planner.schedule.windows import Windows, windows_of


@dataclass(frozen=True)
class Tables:
    """Indexed views of a problem.

    Attributes
    ----------
    leads
        ``leads[f][g]``: minutes of lead from family f to family g, cleaning apart; row -1 (the
        last) is for a first task.
    dirty
        ``dirty[f][g]``: a surface left by family f is cleaned before family g.
    earliest, soonest, latest
        Per task: earliest start, earliest end and latest end by releases, shifts, breaks, waits and
        ``until``, whatever other jobs are left out.
    urgency
        Per task: the latest start that lets everything after it be on time, by least minutes.
    quickest
        Per task: (worker, minutes), the quickest first.
    contact_opens, pool_opens
        Per task: holds that open with it, those that name a unit, and those on a pool that close
        with it too.
    exposed_by, exposed_next
        Per task: exposures that end with it; per exposure: those that come after it.
    least_held
        Per hold: least minutes from the start of its first task to its end, tail included.
    has_leads
        Whether any cook ever needs a lead, cleaning apart.
    wanted
        Jobs that serve somebody, and what those need: without them something is short.
    walls
        Per worker: stretches away that no plan can move, by start.
    movable
        Per worker: whether any rest can move.
    rests
        Per worker: every rest as early as it can be.
    has_pauses
        Whether any task may be put down over a rest.
    """

    problem: Problem
    leads: tuple[tuple[int, ...], ...]
    dirty: tuple[tuple[bool, ...], ...]
    waits_before: tuple[tuple[Wait, ...], ...]
    waits_after: tuple[tuple[Wait, ...], ...]
    opens: tuple[tuple[int, ...], ...]
    closes: tuple[tuple[int, ...], ...]
    quickest: tuple[tuple[tuple[int, int], ...], ...]
    contact_opens: tuple[tuple[int, ...], ...]
    pool_opens: tuple[tuple[int, ...], ...]
    least_held: tuple[int, ...]
    has_leads: bool
    least: tuple[int, ...]
    order: tuple[int, ...]
    earliest: tuple[int, ...]
    soonest: tuple[int, ...]
    latest: tuple[int, ...]
    urgency: tuple[int, ...]
    needed_by: tuple[tuple[int, ...], ...]
    impossible: frozenset[int]
    wanted: frozenset[int]
    exposed_by: tuple[tuple[int, ...], ...]
    exposed_next: tuple[tuple[int, ...], ...]
    walls: tuple[tuple[Slot, ...], ...]
    movable: tuple[bool, ...]
    rests: tuple[tuple[Slot, ...], ...]
    has_pauses: bool

    def lead(self, before: int | None, after: int) -> Lead:
        """Lead between two tasks of one cook, cleaning apart; ``before`` None: the first task."""
        tasks, families = self.problem.tasks, self.problem.families
        one = None if before is None else families[tasks[before].family]
        return lead_between(one, families[tasks[after].family], self.problem.changeovers)

    def minutes_before(self, before: int | None, after: int) -> int:
        """Total of ``lead``."""
        tasks = self.problem.tasks
        row = -1 if before is None else tasks[before].family
        return self.leads[row][tasks[after].family]

    def hold_family(self, hold: int) -> int:
        """Family whose hygiene class a hold takes."""
        return self.problem.tasks[self.problem.holds[hold].first].family

    def contact(self, hold: int) -> bool:
        """Tell whether a hold names its unit."""
        return self.problem.resources[self.problem.holds[hold].resource].contact


def tables_of(problem: Problem) -> Tables:
    """Work out the look-ups; raise ValueError where waits run in a circle, or rests do not fit."""
    tasks = problem.tasks
    dirty = _dirty(problem)
    before: list[list[Wait]] = [[] for _ in tasks]
    after: list[list[Wait]] = [[] for _ in tasks]
    for wait in problem.waits:
        before[wait.after].append(wait)
        after[wait.before].append(wait)
    opens: list[list[int]] = [[] for _ in tasks]
    closes: list[list[int]] = [[] for _ in tasks]
    contact_opens: list[list[int]] = [[] for _ in tasks]
    pool_opens: list[list[int]] = [[] for _ in tasks]
    for index, hold in enumerate(problem.holds):
        opens[hold.first].append(index)
        closes[hold.last].append(index)
        if problem.resources[hold.resource].contact:
            contact_opens[hold.first].append(index)
        elif hold.first == hold.last:
            pool_opens[hold.first].append(index)
    exposed_by: list[list[int]] = [[] for _ in tasks]
    exposed_next: list[list[int]] = [[] for _ in problem.exposures]
    for index, exposure in enumerate(problem.exposures):
        exposed_by[exposure.last].append(index)
        for other in exposure.after:
            exposed_next[other].append(index)
    least = tuple(min(task.minutes.values(), default=0) for task in tasks)
    order = _topological(len(tasks), after)
    windows = windows_of(problem, before, after, least, order)
    leads = lead_minutes(problem.families, problem.changeovers)
    needed_by: dict[int, list[int]] = defaultdict(list)
    for index, job in enumerate(problem.jobs):
        for need in job.needs:
            needed_by[need].append(index)
    return Tables(
        problem=problem,
        leads=leads,
        dirty=dirty,
        waits_before=tuple(map(tuple, before)),
        waits_after=tuple(map(tuple, after)),
        opens=tuple(map(tuple, opens)),
        closes=tuple(map(tuple, closes)),
        quickest=tuple(
            tuple(sorted(task.minutes.items(), key=lambda pair: (pair[1], pair[0])))
            for task in tasks
        ),
        contact_opens=tuple(map(tuple, contact_opens)),
        pool_opens=tuple(map(tuple, pool_opens)),
        least_held=_least_held(problem, after, least, order),
        has_leads=any(map(any, leads)),
        least=least,
        order=order,
        earliest=windows.earliest,
        soonest=windows.soonest,
        latest=windows.latest,
        urgency=windows.urgency,
        needed_by=tuple(tuple(needed_by[j]) for j in range(len(problem.jobs))),
        impossible=_impossible(problem, windows, needed_by),
        wanted=_wanted(problem),
        exposed_by=tuple(map(tuple, exposed_by)),
        exposed_next=tuple(map(tuple, exposed_next)),
        walls=tuple(walls_of(worker) for worker in problem.workers),
        movable=tuple(any(rest.movable for rest in w.rests) for w in problem.workers),
        rests=_rests(problem),
        has_pauses=any(task.pausable for task in tasks),
    )


def _least_held(
    problem: Problem, after: list[list[Wait]], least: Sequence[int], order: Sequence[int]
) -> tuple[int, ...]:
    """Least minutes of every hold, along the waits between tasks of the lots that it ties."""
    found = []
    for hold in problem.holds:
        reached = {hold.first: least[hold.first]}
        if hold.first != hold.last:
            lots = {problem.tasks[hold.first].lot, problem.tasks[hold.last].lot}
            for task in order:
                for wait in after[task] if task in reached else ():
                    if problem.tasks[wait.after].lot in lots:
                        end = reached[task] + wait.minimum + least[wait.after]
                        reached[wait.after] = max(reached.get(wait.after, 0), end)
        found.append(reached.get(hold.last, 0) + hold.tail)
    return tuple(found)


def _rests(problem: Problem) -> tuple[tuple[Slot, ...], ...]:
    found = []
    for worker in problem.workers:
        slots = first_slots(worker)
        if slots is None:
            raise ValueError(f"the rests of {worker.id} do not fit beside what is blocked")
        found.append(slots)
    return tuple(found)


def _dirty(problem: Problem) -> tuple[tuple[bool, ...], ...]:
    """Cleans between all families, worked out once per hygiene class."""
    codes = dict.fromkeys(family.hygiene for family in problem.families)
    kinds = [family.hygiene for family in problem.families]
    rows = {}
    for before in codes:
        row = {after: needs_clean(before, after) for after in codes}
        rows[before] = tuple([row[kind] for kind in kinds])
    return tuple(rows[kind] for kind in kinds)


def _topological(count: int, after: list[list[Wait]]) -> tuple[int, ...]:
    degree = [0] * count
    for waits in after:
        for wait in waits:
            degree[wait.after] += 1
    ready = [task for task in range(count) if degree[task] == 0]
    order: list[int] = []
    while ready:
        task = ready.pop()
        order.append(task)
        for wait in after[task]:
            degree[wait.after] -= 1
            if degree[wait.after] == 0:
                ready.append(wait.after)
    if len(order) < count:
        raise ValueError("the waits between tasks run in a circle")
    return tuple(order)


def _impossible(
    problem: Problem, windows: Windows, needed_by: dict[int, list[int]]
) -> frozenset[int]:
    """Jobs that no plan can make: said so, no cook may do a task, or no room in their window."""
    jobs = problem.jobs
    stack = [
        index
        for index, job in enumerate(jobs)
        if job.impossible
        or any(
            not problem.tasks[task].minutes or windows.soonest[task] > windows.latest[task]
            for task in job.tasks
        )
    ]
    found: set[int] = set()
    while stack:
        job = stack.pop()
        if job not in found:
            found.add(job)
            stack.extend(needed_by[job])
    return frozenset(found)


def _wanted(problem: Problem) -> frozenset[int]:
    stack = [
        index
        for index, job in enumerate(problem.jobs)
        if any(s.portions > 0 and problem.promises[s.promise].weight > 0 for s in job.serves)
    ]
    return with_needs(problem, stack)


def with_needs(
    problem: Problem, jobs: Iterable[int], but: Collection[int] = frozenset()
) -> frozenset[int]:
    """These jobs and all they need, and so on; none of ``but``, nor what only those need."""
    stack = list(jobs)
    found: set[int] = set()
    while stack:
        job = stack.pop()
        if job not in found and job not in but:
            found.add(job)
            stack.extend(problem.jobs[job].needs)
    return frozenset(found)
