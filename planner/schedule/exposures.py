"""Time out of temperature control in the model: a sum along the work on one food."""

from planner.schedule.exposed import minutes_out
from planner.schedule.sequences import end_of, start_of
from planner.schedule.variables import Linear, Variables

_DAYS = 4
"""Horizons: more than any sum of a day, where nothing is to be kept within a limit."""


def add_exposures(out: Variables) -> None:
    """Keep each sum within its limit where its tasks are done.

    A sum of frozen work alone is a constant; it is within its limit already.
    """
    model, problem = out.model, out.tables.problem
    spans = {task: (item.start, item.end) for task, item in out.incumbent.by_task.items()}
    now = minutes_out(problem.exposures, spans) if problem.exposures else {}
    sums: dict[int, Linear] = {}
    for index, exposure in enumerate(problem.exposures):
        jobs = {problem.tasks[task].lot for task in (exposure.first, exposure.last)}
        done = [out.done(job) for job in sorted(jobs)]
        if any(literal is False for literal in done):
            continue
        before = [sums[other] for other in exposure.after if other in sums]
        if not jobs & out.free and all(isinstance(one, int) for one in before):
            sums[index] = now[index]
            continue
        begin = start_of(out, exposure.first) if exposure.since is None else exposure.since
        own = end_of(out, exposure.last) - begin
        most = min(exposure.limit, exposure.spent + _DAYS * problem.horizon)
        total = model.new_int_var(0, most, f"out{index}")
        out.hint(total, now.get(index, 0))
        literals = [literal for literal in done if literal is not True]
        for spent in (exposure.spent, *before):
            limit = model.add(total >= own + spent)
            if literals:
                limit.only_enforce_if(literals)
        sums[index] = total
