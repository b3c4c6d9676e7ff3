"""A changed problem, solved anew: what would be short, late and worked."""

from collections.abc import Mapping
from dataclasses import dataclass

from planner.check.timetable import check_timetable
from planner.schedule.clusters import clusters_of, linked
from planner.schedule.problem import Problem
from planner.schedule.replay import replay
from planner.schedule.rests import Slot, slots_of
from planner.schedule.search import SearchOptions, solve
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Assignment, Score, Timetable
from planner.troubles.change import Change
from planner.troubles.left import left
from planner.troubles.plated import Plated


@dataclass(frozen=True, slots=True)
class Counts:
    """Portions short, kilos short of the kitchen's own, and minutes late, unweighted."""

    portions: int
    kilos: int
    late: int


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a problem was solved: its score, and the same unweighted, as people count it."""

    score: Score
    left: Counts

    @property
    def labor(self) -> int:
        """Minutes of work, leads and overtime."""
        return self.score.labor


def rank(score: Score) -> tuple[int, int, int]:
    """The terms that people feel, first things first; less is better."""
    return score.short, score.tardiness, score.labor


def tried(
    change: Change, options: SearchOptions, good_enough: Score | None = None
) -> tuple[Outcome, Timetable]:
    """Solve a changed problem, from the plan it comes with or what is as near to that as can be."""
    start = _sound(change.problem, change.start)
    solution = solve(change.problem, options, start=start, good_enough=good_enough)
    counts = left_of(change.problem, solution.timetable)
    return Outcome(solution.score, counts), solution.timetable


def _sound(problem: Problem, start: Timetable) -> Timetable | None:
    """``start`` where it keeps every rule; else carried on.

    Taking work out of a line can lengthen the lead of what comes after, for one.
    """
    if not check_timetable(problem, start):
        return start
    known = {item.task: item for item in start.assignments}
    return carried_on(problem, known, slots_of(problem, start))


def carried_on(
    problem: Problem,
    known: Mapping[int, Assignment],
    rests: tuple[tuple[Slot, ...], ...] = (),
) -> Timetable | None:
    """Tasks at their known times with their known cooks, or as near to that as can be.

    What cannot be kept is put in where there is room beside the rest; a worker of whom the problem
    knows nothing stands for a cook who is out. ``rests``, by worker, is where breaks are until they
    must make way. None where nothing that keeps every rule came of it.
    """
    tables = tables_of(problem)
    links = linked(tables, clusters_of(tables))
    # Work that is tied together is carried on whole or put in anew.
    whole = {
        task: known[task]
        for tied in links.tasks
        if all(task in known for task in tied)
        for task in tied
    }
    carried = replay(tables, whole, rests=rests)
    return None if check_timetable(problem, carried) else carried


def left_of(problem: Problem, timetable: Timetable) -> Counts:
    """What a timetable leaves short, and late over all that is due."""
    found = left(problem, timetable, Plated())
    return Counts(found.portions, found.kilos, found.late + found.own_late)
