"""The rest of the day with few changes for people: a ladder of ever freer plans.

1. Everybody keeps their own batches at their old times, each later only where it must be.
2. The same, each as early as it can be now.
   What people hold at a minute is placed before all else, with what it takes.
3. Everybody keeps their own batches; some are taken out and put in again where they fit better.
4. The same, and what is short or late, with all that it needs, may go to other cooks.
5. The same, and any batch may.
6. The day is planned afresh.

On every rung that searches, of plans as short and as late the one with fewest batches in other
hands is the better, and of these the one in which most of a cook's batches keep their order. No
rung asks the exact solver: for what is short or late, taking work out and putting it in again is
quicker, and it needs no second to load.

The lowest rung is taken on which no more is short or late than people knew of before, or else the
one that is least so. A cook who has left keeps nothing: those batches are anybody's from the first
rung on.
"""

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, replace

from planner.check.timetable import check_timetable
from planner.replan.board import is_mark, marks_of
from planner.replan.budget import CALM, RUNGS, Budget
from planner.replan.calm import Old, calmed
from planner.replan.match import Match
from planner.schedule.clusters import clusters_of
from planner.schedule.construct import construct, offer_constructive
from planner.schedule.homes import Homes
from planner.schedule.problem import Problem
from planner.schedule.reinsert import reinsert_near
from planner.schedule.replay import replay
from planner.schedule.rules import Key
from planner.schedule.run import Run
from planner.schedule.score import score_of
from planner.schedule.search import SearchOptions
from planner.schedule.simple_bounds import restate, simple_bounds
from planner.schedule.tables import Tables, tables_of, with_needs
from planner.schedule.timetable import TERMS, Score, Solution, Status, Timetable
from planner.wording import sentence

_ANY = 10**9
"""Labor, freshness and finish as they come: short and late decide."""
_CLEAN = Score(0, 0, _ANY, _ANY, _ANY)


@dataclass(frozen=True, slots=True)
class Repaired:
    """The plan for the rest of the day, and the rung of the ladder it stands on."""

    solution: Solution
    rung: int


def repair(
    problem: Problem,
    known: Match,
    budget: Budget,
    expected: tuple[int, int] = (0, 0),
    on_first: Callable[[Timetable, Score], None] | None = None,
) -> Repaired:
    """Plan ``problem`` as near as may be to what ``known`` says that people expect.

    ``expected`` is how much was short and late (weighted) before. ``on_first`` is called at once
    with the plan of the first rung. The rungs that search share the ``budget``.
    """
    tables = tables_of(problem)
    held = tables_of(held_to(problem, known))
    best: tuple[Score, int, Timetable] | None = None
    for rung, timetable in _rungs(tables, held, known, budget):
        score = score_of(tables, timetable)
        if best is None and on_first is not None:
            on_first(timetable, score)
        if best is None or _rank(score) < _rank(best[0]):
            best = score, rung, timetable
        if _rank(best[0]) <= expected:
            break
    assert best is not None  # noqa: S101 - the last rung always stands
    _, rung, timetable = best
    if rung > 1:
        run = Run(tables, budget.part(CALM), None)
        old = Old(held, tables_of(on_old_times(held.problem, known)))
        timetable = calmed(run, old, timetable, known)
    return Repaired(_solution(tables, timetable, budget.options), rung)


def _rungs(
    tables: Tables, held: Tables, known: Match, budget: Budget
) -> Iterator[tuple[int, Timetable]]:
    """Plans from the lowest rung up; what breaks a rule is passed over."""
    starts = {task: item.start for task, item in known.old.items()}
    homes = Homes(held, _at_home(held.problem, known), starts)
    quick: list[Timetable] = []
    marks = marks_of(tables.problem)
    kept = replay(tables, known.old, first=marks, but=known.left_out, rests=known.rests)
    around = ((1, one) for one in _around_held(tables, known, marks))
    for rung, timetable in ((1, kept), *around, (2, _in_old_order(held, known))):
        if not check_timetable(tables.problem, timetable):
            quick.append(timetable)
            yield rung, timetable
    best = min(quick, key=lambda plan: score_of(tables, plan), default=None)
    if best is not None and not check_timetable(held.problem, best):
        best = _improved(held, best, budget.part(RUNGS[0]), homes)
        yield 3, best
    if best is not None:
        some = tables_of(held_to(tables.problem, known, _behind(tables, best)))
        if not check_timetable(some.problem, best):
            best = _improved(some, best, budget.part(RUNGS[1]), homes)
            yield 4, best
        best = _improved(tables, best, budget.part(RUNGS[2]), homes)
        yield 5, best
    last = budget.part(RUNGS[3])
    yield 6, _afresh(tables, best, last, homes)


def _around_held(tables: Tables, known: Match, marks: Collection[int]) -> Iterator[Timetable]:
    """The old plan carried on around what is held at a minute.

    That goes in first: what it takes at its old time, and then as early as can be.
    """
    tasks, jobs = tables.problem.tasks, tables.problem.jobs
    lots = {task.lot for task in tasks if task.start_by is not None}
    if not lots:
        return
    needs = with_needs(tables.problem, lots)
    position = {task: at for at, task in enumerate(tables.order)}
    first = [task for job in needs for task in jobs[job].tasks if task in known.old]
    first.sort(key=lambda task: (known.old[task].start, position[task]))
    early = {
        task: replace(known.old[task], start=0) if tasks[task].lot not in lots else known.old[task]
        for task in first
    }
    by_order = sorted(first, key=position.__getitem__)
    for old, front in ((known.old, first), ({**known.old, **early}, by_order)):
        yield replay(tables, old, first=[*marks, *front], but=known.left_out, rests=known.rests)


def _rank(score: Score) -> tuple[int, int]:
    return score.short, score.tardiness


def _behind(tables: Tables, timetable: Timetable) -> frozenset[int]:
    """Jobs that are short or late in a plan, and all that they need."""
    problem = tables.problem
    done = {problem.tasks[item.task].lot for item in timetable.assignments}
    stack = [job for job in tables.wanted if job not in done]
    for item in timetable.assignments:
        task = problem.tasks[item.task]
        if task.due is not None and item.end > task.due:
            stack.append(task.lot)
    return with_needs(problem, stack)


def held_to(problem: Problem, known: Match, but: frozenset[int] = frozenset()) -> Problem:
    """Each task with an old cook who is still in is that cook's alone, ``but`` for some jobs."""
    tasks = list(problem.tasks)
    for index, item in known.old.items():
        task = tasks[index]
        minutes = task.minutes.get(item.worker)
        if minutes is None or task.lot in but:
            continue
        worker = problem.workers[item.worker]
        if worker.latest_end - max(worker.start, task.release) >= minutes:
            tasks[index] = replace(task, minutes={item.worker: minutes})
    return replace(problem, tasks=tuple(tasks))


def on_old_times(problem: Problem, known: Match) -> Problem:
    """No task starts sooner than it was to."""
    tasks = list(problem.tasks)
    for index, item in known.old.items():
        tasks[index] = replace(tasks[index], release=max(tasks[index].release, item.start))
    return replace(problem, tasks=tuple(tasks))


def _in_old_order(tables: Tables, known: Match) -> Timetable:
    """Place what is under way, then clusters by their old starts, new ones by their latest."""
    clusters = clusters_of(tables)
    at_a_minute = {task.lot for task in tables.problem.tasks if task.start_by is not None}
    before_all = with_needs(tables.problem, at_a_minute)
    keys: list[Key] = []
    for group in clusters:
        tasks = [task for job in group for task in tables.problem.jobs[job].tasks]
        old = [known.old[task].start for task in tasks if task in known.old]
        start = min(old) if old else min(tables.latest[task] for task in tasks)
        # What is under way has its equipment already.
        standing = any(is_mark(tables.problem.tasks[task]) for task in tasks)
        if standing:
            start = -2
        elif not before_all.isdisjoint(group):
            start = -1
        keys.append((start, "", min(group)))
    return construct(tables, clusters, keys, 0.0, known.rests)


def _at_home(held: Problem, known: Match) -> dict[int, int]:
    """The cooks of all tasks that are their old cook's alone in ``held``."""
    return {
        task: item.worker
        for task, item in known.old.items()
        if list(held.tasks[task].minutes) == [item.worker]
    }


def _improved(tables: Tables, start: Timetable, options: SearchOptions, homes: Homes) -> Timetable:
    """``start`` with work taken out and put in again, until nothing is short or late."""
    run = Run(tables, options, None, _CLEAN)
    run.offer(start, score_of(tables, start), sentence("the plan given"))
    return reinsert_near(run, homes)


def _afresh(
    tables: Tables, best: Timetable | None, options: SearchOptions, homes: Homes
) -> Timetable:
    """The day as if nobody expected anything of it: by the constructive rules, then as before."""
    run = Run(tables, options, None, _CLEAN)
    offer_constructive(run, within_limit=True)
    if best is not None:
        run.offer(best, score_of(tables, best), sentence("the plan given"))
    return reinsert_near(run, homes)


def _solution(tables: Tables, timetable: Timetable, options: SearchOptions) -> Solution:
    score = score_of(tables, timetable)
    bounds = simple_bounds(tables, score)
    final = tuple(restate(bounds[term], score) for term in TERMS)
    return Solution(timetable, score, Status.FEASIBLE, final, (), 0.0, 0.0, options.seed)
