"""The lots of a plan that have not begun, as a workload of their own, each just as it was."""

from dataclasses import replace

from planner.lots.types import Workload
from planner.replan.begun import Standing


def kept(old: Workload, day: Standing) -> tuple[Workload, dict[int, int]]:
    """What of ``old`` has not begun on ``day``, and its lots' new indexes by their old ones.

    Waits and needs among these lots stay; those on lots that have begun are left to the caller.
    """
    problem = old.problem
    lots = [lot for lot in old.lots if lot.index not in day.lots]
    lot_at = {lot.index: at for at, lot in enumerate(lots)}
    tasks = [index for index, task in enumerate(problem.tasks) if task.lot in lot_at]
    task_at = {index: at for at, index in enumerate(tasks)}
    rest = replace(
        problem,
        exposures=(),
        tasks=tuple(
            replace(problem.tasks[index], lot=lot_at[problem.tasks[index].lot]) for index in tasks
        ),
        jobs=tuple(
            replace(
                problem.jobs[lot.index],
                tasks=tuple(task_at[task] for task in problem.jobs[lot.index].tasks),
                needs=tuple(
                    sorted(lot_at[need] for need in problem.jobs[lot.index].needs if need in lot_at)
                ),
            )
            for lot in lots
        ),
        waits=tuple(
            replace(wait, before=task_at[wait.before], after=task_at[wait.after])
            for wait in problem.waits
            if wait.before in task_at and wait.after in task_at
        ),
        holds=tuple(
            replace(hold, first=task_at[hold.first], last=task_at[hold.last])
            for hold in problem.holds
            if hold.first in task_at and hold.last in task_at
        ),
    )
    moved = tuple(
        replace(
            lot,
            index=lot_at[lot.index],
            tasks=tuple(replace(item, task=task_at[item.task]) for item in lot.tasks),
            upstream=tuple((lot_at[i], grams) for i, grams in lot.upstream if i in lot_at),
        )
        for lot in lots
    )
    return Workload(moved, rest, old.cooks), lot_at
