"""Clusters of jobs that go into a timetable together, and how they hang together."""

from dataclasses import dataclass

from planner.schedule.state import State
from planner.schedule.tables import Tables


@dataclass(frozen=True)
class Clusters:
    """Per cluster: its jobs, its tasks in the order of their waits, what it needs and who takes."""

    jobs: list[list[int]]
    tasks: list[list[int]]
    needs: list[set[int]]
    takers: list[list[int]]
    possible: list[bool]
    serving: list[bool]
    """Whether somebody is served by it, and not only by what takes from it."""
    urgency: list[int]
    """Latest start (minutes) that lets everything after it be on time."""
    of_task: dict[int, int]
    tied: dict[int, list[int]]
    """Per task: all tasks of its cluster."""
    due: list[tuple[int, int]]
    """(task, due) of all tasks that are due."""

    def is_in(self, state: State, cluster: int) -> bool:
        """Whether a cluster is made."""
        tasks = self.tasks[cluster]
        return bool(tasks) and tasks[0] in state.entries

    def is_taken(self, state: State, cluster: int) -> bool:
        """Whether something that is made takes from a cluster."""
        return any(self.is_in(state, taker) for taker in self.takers[cluster])

    def missing(self, state: State) -> list[int]:
        """Clusters that could be made and are not."""
        return [c for c, ok in enumerate(self.possible) if ok and not self.is_in(state, c)]

    def late(self, state: State) -> list[int]:
        """Clusters with a task that ends after it is due."""
        entries = state.entries
        found = [t for t, due in self.due if t in entries and entries[t].end > due]
        return list(dict.fromkeys(self.of_task[task] for task in found))


def linked(tables: Tables, groups: list[list[int]]) -> Clusters:
    """Work out how clusters of a problem (``clusters_of``) hang together."""
    problem = tables.problem
    member = {job: c for c, group in enumerate(groups) for job in group}
    position = {task: at for at, task in enumerate(tables.order)}
    tasks = [
        sorted((t for job in group for t in problem.jobs[job].tasks), key=position.__getitem__)
        for group in groups
    ]
    needs = [
        {member[need] for job in group for need in problem.jobs[job].needs} - {c}
        for c, group in enumerate(groups)
    ]
    takers: list[list[int]] = [[] for _ in groups]
    for c, needed in enumerate(needs):
        for other in sorted(needed):
            takers[other].append(c)
    return Clusters(
        jobs=groups,
        tasks=tasks,
        needs=needs,
        takers=takers,
        possible=[
            bool(own) and tables.impossible.isdisjoint(group)
            for own, group in zip(tasks, groups, strict=True)
        ],
        serving=[any(problem.jobs[job].serves for job in group) for group in groups],
        urgency=[min((tables.urgency[t] for t in own), default=problem.horizon) for own in tasks],
        of_task={task: c for c, own in enumerate(tasks) for task in own},
        tied={task: own for own in tasks for task in own},
        due=[(t, task.due) for t, task in enumerate(problem.tasks) if task.due is not None],
    )


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
