"""From a problem to the best plan in the time given.

A constructive plan comes at once, so there is always an answer. Where the whole problem is small it
is then solved outright, term by term; beyond that, neighbourhoods of the incumbent are re-solved,
two at a time. With a deterministic limit and a seed, every run gives the same plan.
"""

from planner.schedule.construct import offer_constructive
from planner.schedule.problem import Problem
from planner.schedule.run import OnProgress, Run, SearchOptions, StopSearch
from planner.schedule.score import score_of
from planner.schedule.simple_bounds import restate, simple_bounds
from planner.schedule.tables import tables_of
from planner.schedule.timetable import TERMS, Score, Solution, Status, Timetable
from planner.wording import sentence

__all__ = ["OnProgress", "SearchOptions", "StopSearch", "solve"]


def solve(
    problem: Problem,
    options: SearchOptions | None = None,
    on_progress: OnProgress | None = None,
    start: Timetable | None = None,
    good_enough: Score | None = None,
) -> Solution:
    """Plan ``problem``; always returns a plan, leaving short what cannot be made.

    ``start`` is a plan known to be feasible, to begin from where it beats the constructive ones.
    The search ends as soon as a plan is no worse than ``good_enough``.

    Raises
    ------
    ValueError
        Where the waits run in a circle.
    """
    chosen = options or SearchOptions()
    run = Run(tables_of(problem), chosen, on_progress, good_enough)
    offer_constructive(run)
    if start is not None:
        run.offer(start, score_of(run.tables, start), sentence("the plan given"))
    bounds = simple_bounds(run.tables, run.best)
    if run.left() > 0 and not all(bound.proven for bound in bounds.values()):
        from planner.schedule.refine import refine  # noqa: PLC0415 - loads the solver

        bounds = refine(run)
    final = tuple(restate(bounds[term], run.best) for term in TERMS)
    proven = all(bound.proven for bound in final)
    return Solution(
        timetable=run.timetable,
        score=run.best,
        status=Status.OPTIMAL if proven else Status.FEASIBLE,
        bounds=final,
        history=tuple(run.history),
        seconds=run.elapsed(),
        deterministic_time=run.spent,
        seed=chosen.seed,
    )
