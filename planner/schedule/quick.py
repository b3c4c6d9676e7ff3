"""A good plan in little time, without a solver: what it is worth to change the problem itself."""

from planner.schedule.construct import offer_constructive
from planner.schedule.reinsert import reinsert
from planner.schedule.run import OnProgress, Run, SearchOptions
from planner.schedule.score import score_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Score, Timetable
from planner.wording import sentence


def quick_plan(
    tables: Tables,
    options: SearchOptions,
    on_progress: OnProgress | None = None,
    start: Timetable | None = None,
) -> tuple[Timetable, Score, float]:
    """Plan by the constructive rules, then by taking work out and putting it in again.

    From ``start``, a feasible plan, no constructive one is made. Returns the plan, its score, and
    the seconds (or deterministic time) used.
    """
    run = Run(tables, options, on_progress)
    if start is not None:
        run.offer(start, score_of(tables, start), sentence("the plan given"))
    else:
        offer_constructive(run)
    reinsert(run, 1.0)
    return run.timetable, run.best, run.used()
