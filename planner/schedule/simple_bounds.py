"""Bounds that need no solving: least minutes along each chain, and what no plan can make."""

from planner.schedule.capacity import least_tardiness
from planner.schedule.least_labor import least_labor
from planner.schedule.score import short_portions
from planner.schedule.spans import spans_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Bound, Score, Term
from planner.wording import sentence

_CAPACITY = sentence(
    "what is due by some time and all it waits for, at the least minutes, without a rest"
)
_LABOR = sentence(
    "least minutes of every task, one set-up and turn per family, cooks enough, cleans"
)
_STATIC = sentence("least minutes along each chain of waits, whoever does it")


def simple_bounds(tables: Tables, score: Score) -> dict[Term, Bound]:
    """Bounds without any solving."""
    problem = tables.problem
    possible = set(range(len(problem.jobs))) - tables.impossible
    # Only with nothing short is it certain what is made: all that is wanted.
    sure = tables.wanted if score.short == 0 else frozenset()
    tardiness = finish = 0
    for index, task in enumerate(problem.tasks):
        if task.lot in sure:
            end = tables.soonest[index]
            finish = max(finish, end - problem.start)
            if task.due is not None:
                tardiness += task.due_weight * max(0, end - task.due)
    by_capacity = least_tardiness(tables) if score.short == 0 and score.tardiness else 0
    short = short_portions(tables, possible)
    labor = least_labor(tables, spans_of(tables, score))
    return {
        Term.SHORT: Bound(Term.SHORT, score.short, short, sentence("what no plan can make")),
        Term.TARDINESS: Bound(
            Term.TARDINESS,
            score.tardiness,
            max(tardiness, by_capacity),
            _STATIC if tardiness >= by_capacity else _CAPACITY,
        ),
        Term.LABOR: Bound(Term.LABOR, score.labor, labor, _LABOR),
        Term.FRESHNESS: Bound(Term.FRESHNESS, score.freshness, 0, sentence("no food is too fresh")),
        Term.FINISH: Bound(Term.FINISH, score.finish, finish, _STATIC),
    }


def tightest(bounds: dict[Term, Bound], found: Bound) -> None:
    """Keep the larger bound of a term."""
    if found.bound > bounds[found.term].bound:
        bounds[found.term] = found


def restate(bound: Bound, score: Score) -> Bound:
    """The bound against the plan as it is now; valid still, since the plan only got better."""
    value = score.term(bound.term)
    return Bound(bound.term, value, min(bound.bound, value), bound.relaxation)
