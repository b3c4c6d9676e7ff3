"""The objective of a timetable, as the search sees it. The checker has its own."""

from collections import defaultdict

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
        labor += item.end - item.start + item.lead.total
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
    missing: dict[int, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for index, job in enumerate(tables.problem.jobs):
        if index not in done:
            for serving in job.serves:
                missing[serving.promise][serving.component] += serving.portions
    return sum(
        tables.problem.promises[promise].weight * max(parts.values())
        for promise, parts in missing.items()
    )
