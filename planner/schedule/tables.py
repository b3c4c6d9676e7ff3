"""Look-ups worked out once per problem, shared by the constructive rules and the models."""

from collections import defaultdict
from dataclasses import dataclass

from planner.schedule.leads import lead_between, needs_clean
from planner.schedule.problem import Problem, Wait
from planner.schedule.timetable import Lead


@dataclass(frozen=True)
class Tables:
    """Indexed views of a problem.

    Attributes
    ----------
    leads
        ``leads[f][g]``: lead from family f to family g; row -1 (the last) is for a first task.
    dirty
        ``dirty[f][g]``: a surface left by family f is cleaned before family g.
    earliest, latest
        Per task: earliest start and latest end by releases, waits and ``until`` alone, whatever
        other jobs are left out.
    urgency
        Per task: the latest start that lets everything after it be on time, by least minutes.
    wanted
        Jobs that serve somebody, and what those need: without them something is short.
    """

    problem: Problem
    leads: tuple[tuple[Lead, ...], ...]
    dirty: tuple[tuple[bool, ...], ...]
    waits_before: tuple[tuple[Wait, ...], ...]
    waits_after: tuple[tuple[Wait, ...], ...]
    opens: tuple[tuple[int, ...], ...]
    closes: tuple[tuple[int, ...], ...]
    least: tuple[int, ...]
    order: tuple[int, ...]
    earliest: tuple[int, ...]
    latest: tuple[int, ...]
    urgency: tuple[int, ...]
    needed_by: tuple[tuple[int, ...], ...]
    impossible: frozenset[int]
    wanted: frozenset[int]

    def lead(self, before: int | None, after: int) -> Lead:
        """Lead between two tasks of one cook, cleaning apart; ``before`` None: the first task."""
        tasks = self.problem.tasks
        row = len(self.problem.families) if before is None else tasks[before].family
        return self.leads[row][tasks[after].family]

    def hold_family(self, hold: int) -> int:
        """Family whose hygiene class a hold takes."""
        return self.problem.tasks[self.problem.holds[hold].first].family

    def contact(self, hold: int) -> bool:
        """Tell whether a hold names its unit."""
        return self.problem.resources[self.problem.holds[hold].resource].contact


def tables_of(problem: Problem) -> Tables:
    """Work out the look-ups; raise ValueError where waits run in a circle."""
    tasks = problem.tasks
    dirty = _dirty(problem)
    before: list[list[Wait]] = [[] for _ in tasks]
    after: list[list[Wait]] = [[] for _ in tasks]
    for wait in problem.waits:
        before[wait.after].append(wait)
        after[wait.before].append(wait)
    opens: list[list[int]] = [[] for _ in tasks]
    closes: list[list[int]] = [[] for _ in tasks]
    for index, hold in enumerate(problem.holds):
        opens[hold.first].append(index)
        closes[hold.last].append(index)
    least = tuple(min(task.minutes.values(), default=0) for task in tasks)
    order = _topological(len(tasks), after)
    earliest, latest, urgency = _windows(problem, before, after, least, order)
    needed_by: dict[int, list[int]] = defaultdict(list)
    for index, job in enumerate(problem.jobs):
        for need in job.needs:
            needed_by[need].append(index)
    return Tables(
        problem=problem,
        leads=_leads(problem),
        dirty=dirty,
        waits_before=tuple(map(tuple, before)),
        waits_after=tuple(map(tuple, after)),
        opens=tuple(map(tuple, opens)),
        closes=tuple(map(tuple, closes)),
        least=least,
        order=order,
        earliest=earliest,
        latest=latest,
        urgency=urgency,
        needed_by=tuple(tuple(needed_by[j]) for j in range(len(problem.jobs))),
        impossible=_impossible(problem, earliest, latest, least, needed_by),
        wanted=_wanted(problem),
    )


def _leads(problem: Problem) -> tuple[tuple[Lead, ...], ...]:
    """Leads from each family, and from none, to each."""
    families, changeovers = problem.families, problem.changeovers
    return tuple(
        tuple(lead_between(row, family, changeovers) for family in families)
        for row in (*families, None)
    )


def _dirty(problem: Problem) -> tuple[tuple[bool, ...], ...]:
    """Cleans between all families, worked out once per pair of hygiene classes."""
    classes = {family.hygiene for family in problem.families}
    between = {(a, b): needs_clean(a, b) for a in classes for b in classes}
    return tuple(
        tuple(between[a.hygiene, b.hygiene] for b in problem.families) for a in problem.families
    )


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


def _windows(
    problem: Problem,
    before: list[list[Wait]],
    after: list[list[Wait]],
    least: tuple[int, ...],
    order: tuple[int, ...],
) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    tasks = problem.tasks
    earliest = [0] * len(tasks)
    for index in order:
        task = tasks[index]
        start = max(task.release, problem.start)
        start = max(start, min((problem.workers[w].start for w in task.minutes), default=start))
        for wait in before[index]:
            if tasks[wait.before].lot in _certain(problem, task.lot):
                start = max(start, earliest[wait.before] + least[wait.before] + wait.minimum)
        if task.earliest_end is not None:
            # The slowest cook may start soonest and still end late enough.
            start = max(start, task.earliest_end - max(task.minutes.values(), default=0))
        earliest[index] = start
    latest = [problem.horizon] * len(tasks)
    urgency = [problem.horizon] * len(tasks)
    for index in reversed(order):
        task = tasks[index]
        end = problem.horizon if task.until is None else min(problem.horizon, task.until)
        soft = end if task.due is None else min(end, task.due)
        for wait in after[index]:
            if tasks[wait.after].lot == task.lot:
                end = min(end, latest[wait.after] - least[wait.after] - wait.minimum)
            soft = min(soft, urgency[wait.after] - wait.minimum)
        latest[index] = end
        urgency[index] = soft - least[index]
    return tuple(earliest), tuple(latest), tuple(urgency)


def _certain(problem: Problem, job: int) -> tuple[int, ...]:
    """Jobs that are done whenever ``job`` is: only their waits bind it for certain."""
    return (job, *problem.jobs[job].needs)


def _impossible(
    problem: Problem,
    earliest: tuple[int, ...],
    latest: tuple[int, ...],
    least: tuple[int, ...],
    needed_by: dict[int, list[int]],
) -> frozenset[int]:
    """Jobs that no plan can make: said so, no cook may do a task, or no room in their window."""
    jobs = problem.jobs
    stack = [
        index
        for index, job in enumerate(jobs)
        if job.impossible
        or any(
            not problem.tasks[task].minutes or earliest[task] + least[task] > latest[task]
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
    found: set[int] = set()
    while stack:
        job = stack.pop()
        if job not in found:
            found.add(job)
            stack.extend(problem.jobs[job].needs)
    return frozenset(found)
