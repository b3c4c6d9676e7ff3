"""This project's own ways: the constructive plan alone, one model of everything, and the search."""

import time

from planner.schedule.assemble import incumbent_of
from planner.schedule.effort import Effort
from planner.schedule.run import FOREVER
from planner.schedule.score import score_of
from planner.schedule.search import SearchOptions, solve
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import Timetable
from tests.bench.generate import Instance
from tests.bench.peers.outcome import Outcome

MOST_ARCS = 300_000
"""Of the one model: it was seen to take some 15 kB an arc, so more would be over 5 GB."""
_THREADS = 2


def constructive(instance: Instance) -> Outcome:
    """The constructive rules without any search."""
    return _solved(instance, SearchOptions(seconds=0))


def ours(instance: Instance, seconds: float, seed: int) -> Outcome:
    """The whole search."""
    return _solved(instance, SearchOptions(seconds=seconds, seed=seed, workers=_THREADS))


def _solved(instance: Instance, options: SearchOptions) -> Outcome:
    began = time.monotonic()
    plans: list[float] = []
    solution = solve(instance.problem, options, lambda _: plans.append(time.monotonic() - began))
    return Outcome(solution.timetable, plans[0], solution.status.value, solution.bounds)


def one_model(instance: Instance, seconds: float, seed: int) -> Outcome:
    """The planner's model of everything at once, from an empty plan, term after term.

    Building it counts. Its levels share the time as in the planner: half of what is left each, the
    last one all of it.
    """
    from planner.schedule.model import improve  # noqa: PLC0415 - loads the solver

    began = time.monotonic()
    tables = tables_of(instance.problem)
    arcs = _arcs(tables)
    if arcs > MOST_ARCS:
        return Outcome(None, None, "not tried", note=f"about {arcs:,} arcs, over {MOST_ARCS:,}")
    empty = Timetable(())
    answer = improve(
        tables,
        incumbent_of(tables, empty),
        score_of(tables, empty),
        range(len(instance.problem.jobs)),
        range(len(instance.problem.workers)),
        Effort(seconds, FOREVER, _THREADS, seed),
    )
    done = time.monotonic() - began
    if answer.timetable is None:
        return Outcome(None, None, "none", note=f"no plan after {done:.0f} s")
    optimal = len(answer.levels) == 5 and all(level.optimal for level in answer.levels)
    return Outcome(answer.timetable, None, "optimal" if optimal else "feasible")


def _arcs(tables: Tables) -> int:
    """Arcs of the cooks' circuits before any is left out."""
    problem = tables.problem
    able = [sum(w in task.minutes for task in problem.tasks) for w in range(len(problem.workers))]
    return sum(count**2 for count in able)
