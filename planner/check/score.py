"""What a timetable costs, worked out from the timetable alone."""

from collections import defaultdict

from planner.check.rests import breaks_of, pauses_in
from planner.schedule.problem import Problem
from planner.schedule.timetable import Score, Timetable


def score_of(problem: Problem, timetable: Timetable) -> Score:
    r"""Return the five terms of the objective of ``timetable``, feasible or not.

    With :math:`e` the end of a done task, :math:`d` its due time and :math:`w`, :math:`f` its
    weights a minute:

    .. math::

        \text{short} = \sum_{p} w_p \max_c \sum_{\text{job not done}} \text{portions}_{p,c}, \quad
        \text{tardiness} = \sum w \max(0, e - d), \quad
        \text{freshness} = \sum f \max(0, d - e)

    Labor is work (without breaks it is put down over), leads and each cook's minutes past the end
    of the shift; finish counts from the problem's start.
    """
    done = timetable.assignments
    breaks = breaks_of(problem, timetable)
    last: dict[int, int] = {}
    for a in done:
        last[a.worker] = max(a.end, last.get(a.worker, a.end))
    overtime = sum(max(0, end - problem.workers[worker].end) for worker, end in last.items())
    tardiness = freshness = 0
    for a in done:
        task = problem.tasks[a.task]
        if task.due is not None:
            tardiness += task.due_weight * max(0, a.end - task.due)
            freshness += task.fresh_weight * max(0, task.due - a.end)
    return Score(
        short=_short(problem, {a.task for a in done}),
        tardiness=tardiness,
        labor=sum(a.end - a.start - pauses_in(problem, breaks, a) + a.lead.total for a in done)
        + overtime,
        freshness=freshness,
        finish=max(last.values()) - problem.start if last else 0,
    )


def _short(problem: Problem, done: set[int]) -> int:
    missing: dict[int, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for job in problem.jobs:
        if not done.issuperset(job.tasks):
            for serving in job.serves:
                missing[serving.promise][serving.component] += serving.portions
    return sum(
        problem.promises[promise].weight * max(by_component.values())
        for promise, by_component in missing.items()
    )
