"""The quick constructive plan: several priority rules, each placing one cluster after another.

It always gives an answer: what finds no place is left short, and the solver goes on from there.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from planner.schedule.assemble import Choice, assemble
from planner.schedule.placing import place_cluster
from planner.schedule.score import score_of
from planner.schedule.state import State
from planner.schedule.tables import Tables
from planner.schedule.timetable import Score, Timetable


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
    """Yield one plan per rule, the quickest good one first."""
    clusters = clusters_of(tables)
    for rule in RULES:
        timetable = construct(tables, rule, clusters)
        yield rule, timetable, score_of(tables, timetable)


def construct(tables: Tables, rule: Rule, clusters: list[list[int]] | None = None) -> Timetable:
    """Place every cluster of jobs in the order of ``rule``; leave out what does not fit."""
    state = State(tables)
    groups = clusters_of(tables) if clusters is None else clusters
    jobs = tables.problem.jobs
    member = {job: index for index, group in enumerate(groups) for job in group}
    missing = [
        {member[need] for job in group for need in jobs[job].needs} - {index}
        for index, group in enumerate(groups)
    ]
    keys = [_key(tables, rule, group) for group in groups]
    waiting = set(range(len(groups)))
    lost: set[int] = set()
    while waiting:
        ready = [index for index in waiting if not missing[index] & waiting]
        if not ready:  # needs run in a circle between clusters: such food cannot be made
            break
        index = min(ready, key=lambda i: (keys[i], i))
        waiting.discard(index)
        group = groups[index]
        if missing[index] & lost or any(job in tables.impossible for job in group):
            lost.add(index)
            continue
        tasks = [t for t in tables.order if tables.problem.tasks[t].lot in set(group)]
        if not place_cluster(state, tasks, rule.thrift):
            lost.add(index)
    _drop_useless(state)
    return settle(state)


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


def _key(tables: Tables, rule: Rule, group: list[int]) -> tuple[int, str, int]:
    tasks = [task for job in group for task in tables.problem.jobs[job].tasks]
    first = min(tasks, key=lambda t: (tables.urgency[t], t))
    urgency = tables.urgency[first]
    if rule.bucket == 0:
        return urgency, "", urgency
    family = tables.problem.families[tables.problem.tasks[tasks[0]].family]
    like = (
        f"{family.station}|{family.operation}|{family.food}"
        if rule.by == "operation"
        else f"{family.food}|{family.station}|{family.operation}"
    )
    return urgency // rule.bucket, like, urgency


def _drop_useless(state: State) -> None:
    """Take out jobs made only for jobs that were left out."""
    tables = state.tables
    jobs = tables.problem.jobs
    done = {tables.problem.tasks[task].lot for task in state.entries}
    for job in reversed(_needs_first(tables)):
        if (
            job in done
            and tables.needed_by[job]
            and not jobs[job].serves
            and not any(consumer in done for consumer in tables.needed_by[job])
        ):
            done.discard(job)
            for task in jobs[job].tasks:
                state.remove(task)


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
