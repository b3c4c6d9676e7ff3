"""The quick constructive plan: several priority rules, each placing one cluster after another.

It always gives an answer: what finds no place is left short, and the solver goes on from there.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from heapq import heapify, heappop, heappush

from planner.schedule.assemble import Choice, assemble
from planner.schedule.placing import place_cluster
from planner.schedule.score import score_of
from planner.schedule.state import State
from planner.schedule.tables import Tables
from planner.schedule.timetable import Score, Timetable

_BLAME_ROUNDS = 24
_BLAMED_RULES = 3
_BLAME_TASKS = 4_000
"""Tasks placed in all rounds of blame of one rule, at most (but two rounds): it must stay quick."""
_LEFT_OUT = 45
_MOST_BUMP = 600

Key = tuple[int, str, int]
"""Urgency class, what counts as like work, urgency itself (minutes)."""


@dataclass(frozen=True, slots=True)
class Rule:
    """How to order clusters and how thrifty to be with leads.

    ``bucket`` is the width in minutes of the urgency classes inside which like work is grouped;
    ``by`` says what counts as like: ``operation`` or ``food``. 0: by urgency alone.
    """

    bucket: int
    by: str
    thrift: float


RULES: tuple[Rule, ...] = (
    Rule(60, "operation", 2.0),
    Rule(0, "operation", 1.0),
    Rule(120, "operation", 4.0),
    Rule(30, "food", 2.0),
    Rule(30, "operation", 0.5),
    Rule(240, "operation", 6.0),
    Rule(120, "food", 6.0),
    Rule(0, "operation", 4.0),
)


def constructive_plans(tables: Tables) -> Iterator[tuple[Rule, Timetable, Score]]:
    """Yield one plan per rule, the quickest good one first, then what blame makes of the best."""
    clusters = clusters_of(tables)
    found: list[tuple[Score, int]] = []
    for index, rule in enumerate(RULES):
        keys = [_key(tables, rule, group, 0) for group in clusters]
        timetable = construct(tables, clusters, keys, rule.thrift)
        score = score_of(tables, timetable)
        found.append((score, index))
        yield rule, timetable, score
    found.sort()
    for score, index in found[:_BLAMED_RULES]:
        if score.short or score.tardiness:
            yield from _blamed(tables, clusters, RULES[index])


def _blamed(
    tables: Tables, clusters: list[list[int]], rule: Rule
) -> Iterator[tuple[Rule, Timetable, Score]]:
    """Place everything again and again, what was left out or late so much earlier each time.

    On an over-full morning the order decides what finds no place. Clusters that went short or late
    are taken to be more urgent than their bare minutes say, and so is all they need.
    """
    bump = [0] * len(clusters)
    member = {job: index for index, group in enumerate(clusters) for job in group}
    rounds = max(2, min(_BLAME_ROUNDS, _BLAME_TASKS // max(1, len(tables.problem.tasks))))
    for _ in range(rounds):
        keys = [_key(tables, rule, group, bump[i]) for i, group in enumerate(clusters)]
        timetable = construct(tables, clusters, keys, rule.thrift)
        yield rule, timetable, score_of(tables, timetable)
        blame = _blame(tables, timetable)
        if not blame:
            return
        for job, minutes in blame.items():
            for index in {member[j] for j in _with_needs(tables, job)}:
                bump[index] = max(bump[index], min(bump[index] + minutes, _MOST_BUMP))


def _blame(tables: Tables, timetable: Timetable) -> dict[int, int]:
    """Minutes by which jobs should have been taken as more urgent: late ones, and those left."""
    problem = tables.problem
    done = {problem.tasks[item.task].lot for item in timetable.assignments}
    blame = {
        job: _LEFT_OUT
        for job in range(len(problem.jobs))
        if job not in done and job not in tables.impossible and problem.jobs[job].serves
    }
    for item in timetable.assignments:
        task = problem.tasks[item.task]
        if task.due is not None and item.end > task.due:
            blame[task.lot] = max(blame.get(task.lot, 0), min(item.end - task.due, _LEFT_OUT))
    return blame


def _with_needs(tables: Tables, job: int) -> list[int]:
    found = [job]
    for link in found:
        found += [need for need in tables.problem.jobs[link].needs if need not in found]
    return found


def construct(
    tables: Tables, clusters: list[list[int]], keys: Sequence[Key], thrift: float
) -> Timetable:
    """Place clusters of jobs, the smallest key first among those whose needs are in place.

    What does not fit is left out, and with it everything that needs it. ``thrift`` is how many
    minutes later a cluster may end to save a minute of work or lead. Where that leaves jobs that
    nobody takes from any more, everything is placed afresh without them: to pull them out of a
    line would lengthen the leads of what comes after.
    """
    useless: set[int] = set()
    while True:
        state = _place_all(tables, clusters, keys, thrift, useless)
        found = _useless(state)
        if not found:
            return settle(state)
        useless |= found


def _place_all(
    tables: Tables,
    clusters: list[list[int]],
    keys: Sequence[Key],
    thrift: float,
    useless: set[int],
) -> State:
    state = State(tables)
    jobs = tables.problem.jobs
    member = {job: index for index, group in enumerate(clusters) for job in group}
    needs = [
        {member[need] for job in group for need in jobs[job].needs} - {index}
        for index, group in enumerate(clusters)
    ]
    takers: list[list[int]] = [[] for _ in clusters]
    for index, needed in enumerate(needs):
        for other in needed:
            takers[other].append(index)
    waiting = [len(needed) for needed in needs]
    ready = [(keys[i], i) for i, count in enumerate(waiting) if count == 0]
    heapify(ready)
    position = {task: at for at, task in enumerate(tables.order)}
    lost: set[int] = set()
    while ready:
        _, index = heappop(ready)
        group = clusters[index]
        if needs[index] & lost or any(job in tables.impossible or job in useless for job in group):
            lost.add(index)
        else:
            tasks = sorted((t for job in group for t in jobs[job].tasks), key=position.__getitem__)
            if not place_cluster(state, tasks, thrift):
                lost.add(index)
        for taker in takers[index]:
            waiting[taker] -= 1
            if waiting[taker] == 0:
                heappush(ready, (keys[taker], taker))
    return state


def clusters_of(tables: Tables) -> list[list[int]]:
    """Jobs tied together by a maximum wait or a shared hold, smallest index first."""
    problem = tables.problem
    parent = list(range(len(problem.jobs)))

    def root(job: int) -> int:
        while parent[job] != job:
            parent[job] = parent[parent[job]]
            job = parent[job]
        return job

    ties = [(w.before, w.after) for w in problem.waits if w.maximum is not None]
    ties += [(h.first, h.last) for h in problem.holds]
    for first, second in ties:
        a, b = root(problem.tasks[first].lot), root(problem.tasks[second].lot)
        parent[max(a, b)] = min(a, b)
    groups: dict[int, list[int]] = {}
    for job in range(len(problem.jobs)):
        groups.setdefault(root(job), []).append(job)
    return list(groups.values())


def _key(tables: Tables, rule: Rule, group: list[int], bump: int) -> Key:
    tasks = [task for job in group for task in tables.problem.jobs[job].tasks]
    urgency = min(tables.urgency[task] for task in tasks) - bump
    if rule.bucket == 0:
        return urgency, "", urgency
    family = tables.problem.families[tables.problem.tasks[tasks[0]].family]
    like = (
        f"{family.station}|{family.operation}|{family.food}"
        if rule.by == "operation"
        else f"{family.food}|{family.station}|{family.operation}"
    )
    return urgency // rule.bucket, like, urgency


def _useless(state: State) -> set[int]:
    """Jobs in place that serve nothing themselves and that nothing in place takes from."""
    tables = state.tables
    jobs = tables.problem.jobs
    done = {tables.problem.tasks[task].lot for task in state.entries}
    found: set[int] = set()
    for job in reversed(_needs_first(tables)):
        takers = tables.needed_by[job]
        if job in done and takers and not jobs[job].serves and not done.intersection(takers):
            done.discard(job)
            found.add(job)
    return found


def _needs_first(tables: Tables) -> list[int]:
    """Jobs so that each comes after what it needs."""
    order: list[int] = []
    seen: set[int] = set()
    for start in range(len(tables.problem.jobs)):
        stack = [(start, False)]
        while stack:
            job, expanded = stack.pop()
            if expanded:
                order.append(job)
            elif job not in seen:
                seen.add(job)
                stack.append((job, True))
                stack.extend((need, False) for need in tables.problem.jobs[job].needs)
    return order


def settle(state: State) -> Timetable:
    """Fix the exact leads, which can only have shrunk, and write the timetable out."""
    choices = {
        task: Choice(entry.worker, entry.start, entry.end) for task, entry in state.entries.items()
    }
    return assemble(state.tables, choices, state.unit_of)
