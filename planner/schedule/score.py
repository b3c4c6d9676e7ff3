"""The objective of a timetable, as the search sees it. The checker has its own."""

from collections import defaultdict
from collections.abc import Iterable

from planner.schedule.state import State
from planner.schedule.tables import Tables
from planner.schedule.timetable import Score, Timetable


def score_of(tables: Tables, timetable: Timetable) -> Score:
    """Score a timetable whose leads are exact."""
    problem = tables.problem
    tardiness = labor = freshness = 0
    finish = problem.start
    last = [0] * len(problem.workers)
    done: set[int] = set()
    for item in timetable.assignments:
        task = problem.tasks[item.task]
        done.add(task.lot)
        # A rest that work is put down over is no labor.
        worked = task.minutes[item.worker] if task.pausable else item.end - item.start
        labor += worked + item.lead.total
        finish = max(finish, item.end)
        last[item.worker] = max(last[item.worker], item.end)
        if task.due is not None:
            tardiness += task.due_weight * max(0, item.end - task.due)
            freshness += task.fresh_weight * max(0, task.due - item.end)
    labor += sum(
        max(0, end - worker.end) for end, worker in zip(last, problem.workers, strict=True)
    )
    return Score(short_portions(tables, done), tardiness, labor, freshness, finish - problem.start)


def short_portions(tables: Tables, done: set[int]) -> int:
    """Weighted portions short: per promise, those of its shortest component."""
    return _short_of(tables, [j for j in range(len(tables.problem.jobs)) if j not in done])


def _short_of(tables: Tables, left_out: Iterable[int]) -> int:
    missing: dict[int, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for index in left_out:
        for serving in tables.problem.jobs[index].serves:
            missing[serving.promise][serving.component] += serving.portions
    return sum(
        tables.problem.promises[promise].weight * max(parts.values())
        for promise, parts in missing.items()
    )


class Scorer:
    """Scores partial timetables, again and again."""

    def __init__(self, tables: Tables) -> None:
        problem = tables.problem
        self.tables = tables
        self.due = [
            (index, task.due, task.due_weight, task.fresh_weight)
            for index, task in enumerate(problem.tasks)
            if task.due is not None
        ]
        self.portions = [
            sum(problem.promises[s.promise].weight * s.portions for s in job.serves)
            for job in problem.jobs
        ]
        self.wanting = 0
        """Weighted portions of all components left out, of the state scored last."""
        self.first = [
            (index, job.tasks[0] if job.tasks else -1)
            for index, job in enumerate(problem.jobs)
            if job.serves
        ]

    def score(self, state: State) -> Score:
        """The score with leads as they stand."""
        tables, entries = self.tables, state.entries
        problem = tables.problem
        tardiness = freshness = labor = 0
        for index, due, weight, fresh in self.due:
            entry = entries.get(index)
            if entry is not None:
                if entry.end > due:
                    tardiness += weight * (entry.end - due)
                elif fresh:
                    freshness += fresh * (due - entry.end)
        finish = problem.start
        for line, worker in zip(state.lines, problem.workers, strict=True):
            if line:
                last = line[-1].end
                finish = max(finish, last)
                labor += max(0, last - worker.end) + sum([e.end - e.busy for e in line])
        if tables.has_pauses:
            labor -= sum([entry.paused for entry in entries.values()])
        left_out = [job for job, task in self.first if task not in entries]
        self.wanting = sum([self.portions[job] for job in left_out])
        short = _short_of(tables, left_out)
        return Score(short, tardiness, labor, freshness, finish - problem.start)
