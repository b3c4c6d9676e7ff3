"""Better than constructive: the whole model where it is small, else neighbourhood after
neighbourhood, and bounds that say how much better any plan could be.

Apart from the constructive part because the solver takes a second to load.
"""

import random
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

from planner.check.timetable import check_timetable
from planner.schedule.assemble import Choice, Incumbent, assemble, incumbent_of
from planner.schedule.assignment import assignment_bound
from planner.schedule.bounds import choice_bounds, without_leads
from planner.schedule.effort import Answer, Effort
from planner.schedule.lateness import lateness_bound, size_of
from planner.schedule.model import ROUGH_LEVELS, improve
from planner.schedule.neighbourhoods import Chooser, Neighbourhood
from planner.schedule.reinsert import reinsert
from planner.schedule.run import FOREVER, LEAST_SECONDS, Run
from planner.schedule.score import score_of
from planner.schedule.simple_bounds import restate, simple_bounds, tightest
from planner.schedule.tables import Tables
from planner.schedule.timetable import TERMS, Bound, Score, Term, Timetable
from planner.wording import sentence

_WHOLE_TASKS = 60
"""Up to so many tasks the whole problem is tried as one model first."""
_WHOLE_ARCS = 6_000
_WHOLE_PAIRS = 2_000
"""Or so many pairs of a task and a cook where nobody needs a lead: there are no arcs then."""
_WHOLE_SHARE = 0.3
"""Of the time left, for the whole problem at once: what is not proven by then seldom is."""
_WHOLE_MOST = 0.8
"""The same where nobody needs a lead: hardly anything else gets on better then."""
_ROUND = Effort(seconds=0.5, deterministic=0.1)
"""Of one neighbourhood: many short tries find more than few long ones."""
_SOLVER_SHARE, _SOLVER_LEAST = 0.4, 0.1
"""Of the time left, for the solver, and at least. The rest is for taking work out and putting it in
again, which gets on faster, and the more so the larger the problem: the share falls with its tasks,
from the number below on."""
_SOLVER_TASKS = 150
_BOUND_SHARE, _BOUND_LEAST = 0.1, 0.5
"""Of the time left, for each relaxation that bounds, and at least so long if half of it allows."""
_PAIRS_PER_SECOND, _ASSIGNED_PER_SECOND, _POURED_PER_SECOND = 15_000, 3_000, 30_000
"""Pairs of a task and a cook, for the kitchen without leads and for the assignment, and variables
of poured work, for each second of a relaxation's share: with more it is not built."""
_STRETCHES = (30, 10, 5)
"""Minutes of the stretches that work is poured into; the shortest only where others said much."""


def refine(run: Run) -> dict[Term, Bound]:
    """Improve the run's plan until it is proven best or the time is up; returns the bounds."""
    if _is_small(run.tables):
        bounds = _solve_whole(run)
        if all(bound.proven for bound in bounds.values()):
            return bounds
        _reinsert(run)
        _bound_lateness(run, bounds)
        _bound_labor(run, bounds)
    else:
        _reinsert(run)
        bounds = _bounds(run)
    if not all(restate(bound, run.best).proven for bound in bounds.values()):
        stated = run.best
        _search(run, bounds)
        if _is_earlier_better(run.best, stated):
            tightest(bounds, simple_bounds(run.tables, run.best)[Term.LABOR])
            _bound_labor(run, bounds)
    return bounds


def _is_earlier_better(score: Score, stated: Score) -> bool:
    """Whether a bound on labor may say more than when it was stated."""
    return (score.short, score.tardiness) < (stated.short, stated.tardiness)


def _reinsert(run: Run) -> None:
    """Take work out and put it in again; for labor alone the solver does better in small ones."""
    scale = min(1.0, _SOLVER_TASKS / max(1, len(run.tables.problem.tasks)))
    share = 1 - max(_SOLVER_LEAST, _SOLVER_SHARE * scale)
    reinsert(run, share, on_time_is_enough=scale == 1.0)


def _is_small(tables: Tables) -> bool:
    problem = tables.problem
    if not _has_orders(tables):
        return sum(len(task.minutes) for task in problem.tasks) <= _WHOLE_PAIRS
    arcs = sum(
        sum(worker in task.minutes for task in problem.tasks) ** 2
        for worker in range(len(problem.workers))
    )
    return len(problem.tasks) <= _WHOLE_TASKS and arcs <= _WHOLE_ARCS


def _has_orders(tables: Tables) -> bool:
    """Whether what comes before what matters anywhere beyond time: for a lead or a clean."""
    if tables.has_leads:
        return True
    families = {
        tables.hold_family(hold)
        for hold in range(len(tables.problem.holds))
        if tables.contact(hold)
    }
    if families and tables.problem.changeovers.clean_every is not None:
        return True
    return any(tables.dirty[one][other] for one in families for other in families)


def _solve_whole(run: Run) -> dict[Term, Bound]:
    """Solve everything at once, term by term; what is proven is exact."""
    tables = run.tables
    bounds = simple_bounds(tables, run.best)
    orders = _has_orders(tables)
    share = _WHOLE_SHARE if orders else _WHOLE_MOST
    effort = run.effort(run.left() * share, run.options.workers)
    answer = improve(
        tables,
        incumbent_of(tables, run.timetable),
        run.best,
        range(len(tables.problem.jobs)),
        range(len(tables.problem.workers)),
        replace(
            effort,
            thorough=not orders,
            repeatable=run.options.deterministic_limit is not None,
        ),
        least={term: bound.bound for term, bound in bounds.items()},
    )
    run.spent += answer.deterministic
    if answer.timetable is not None:
        run.offer(answer.timetable, score_of(tables, answer.timetable), sentence("whole model"))
    bounds = simple_bounds(tables, run.best)
    for level in answer.levels:
        term = level.terms[0]
        tightest(bounds, Bound(term, run.best.term(term), level.bound, "the whole model"))
        if not level.optimal:
            break
    return bounds


def _bounds(run: Run) -> dict[Term, Bound]:
    """Bounds of a problem too large to solve whole; models too large for their share are left."""
    tables = run.tables
    bounds = simple_bounds(tables, run.best)
    pairs = sum(len(task.minutes) for task in tables.problem.tasks)
    fits = pairs <= _PAIRS_PER_SECOND * run.left() * _BOUND_SHARE
    if not bounds[Term.SHORT].proven:
        for found in choice_bounds(tables, run.best, _share(run)):
            tightest(bounds, found)
    late = not bounds[Term.TARDINESS].proven
    # With leads, pouring says more of lateness than the kitchen without them, and sooner.
    exact = late and not tables.has_leads
    if fits and (exact or not bounds[Term.SHORT].proven):
        for found in without_leads(tables, run.timetable, run.best, _share(run)):
            tightest(bounds, found)
    _bound_lateness(run, bounds)
    _bound_labor(run, bounds)
    return bounds


def _bound_lateness(run: Run, bounds: dict[Term, Bound]) -> None:
    """Pour work into stretches, the shorter the more it says, as long as there is time for it."""
    for length in _STRETCHES:
        if restate(bounds[Term.TARDINESS], run.best).proven or run.best.short:
            return
        if size_of(run.tables, run.best, length) > _POURED_PER_SECOND * _share_of(run):
            return
        found = lateness_bound(run.tables, run.best, length, _share(run))
        tightest(bounds, found)
        if not found.bound and length < max(_STRETCHES):
            return


def _bound_labor(run: Run, bounds: dict[Term, Bound]) -> None:
    """Assign tasks to cooks, where there is time for so many pairs of them."""
    pairs = sum(len(task.minutes) for task in run.tables.problem.tasks)
    fits = pairs <= _ASSIGNED_PER_SECOND * _share_of(run)
    if fits and not restate(bounds[Term.LABOR], run.best).proven:
        tightest(bounds, assignment_bound(run.tables, run.best, _share(run)))


def _share_of(run: Run) -> float:
    return max(run.left() * _BOUND_SHARE, min(_BOUND_LEAST, run.left() / 2))


def _share(run: Run) -> Effort:
    return run.effort(_share_of(run), run.options.workers)


def _search(run: Run, bounds: dict[Term, Bound]) -> None:
    """Re-solve neighbourhoods in rounds until the time is up or everything is proven.

    A round's neighbourhoods share no job and all start from the same incumbent, so which thread
    ends first does not matter: the same seed gives the same plan.
    """
    rng = random.Random(run.options.seed)  # noqa: S311 - a search, not a secret
    chooser = Chooser(run.tables, incumbent_of(run.tables, run.timetable))
    side = max(1, run.options.workers)
    building = 0.0
    stated = run.best
    again = _share_of(run)

    def keep(score: Score) -> float:
        """Time to bound labor once more, where that may say more than before."""
        return again if _is_earlier_better(score, stated) else 0.0

    with ThreadPoolExecutor(side) as pool:
        while run.left() > max(_least(run), building, keep(run.best)):
            if all(restate(bounds[term], run.best).proven for term in TERMS):
                return
            picked = _pick(chooser, rng, side)
            if not picked:
                return
            effort = _round_effort(run)
            began = run.elapsed()
            incumbent, score = chooser.incumbent, run.best
            answers = list(
                pool.map(
                    lambda part, i=incumbent, s=score, e=effort: improve(
                        run.tables, i, s, part.jobs, part.workers, e, ROUGH_LEVELS, part.reach
                    ),
                    picked,
                )
            )
            run.spent += sum(answer.deterministic for answer in answers) / side + 0.002
            if run.options.deterministic_limit is None:
                # What building took beyond solving would run past the limit in the last round.
                building = max(0.0, run.elapsed() - began - effort.seconds)
            _take(run, chooser, picked, answers)
            run.tell("round")


def _least(run: Run) -> float:
    """Time below which no round is begun."""
    return 0.05 if run.options.deterministic_limit is not None else LEAST_SECONDS


def _round_effort(run: Run) -> Effort:
    if run.options.deterministic_limit is None:
        seconds = min(_ROUND.seconds, max(LEAST_SECONDS, run.left()))
        return Effort(seconds, _ROUND.deterministic, 1, run.options.seed)
    return Effort(FOREVER, min(_ROUND.deterministic, run.left()), 1, run.options.seed)


def _pick(chooser: Chooser, rng: random.Random, side: int) -> list[Neighbourhood]:
    picked: list[Neighbourhood] = []
    taken: frozenset[int] = frozenset()
    for _ in range(side):
        found = chooser.choose(rng, taken)
        if found.jobs:
            picked.append(found)
            taken |= found.jobs
    return picked


def _take(run: Run, chooser: Chooser, picked: list[Neighbourhood], answers: list[Answer]) -> None:
    """Accept the best of a round, or all of it where the parts go together."""
    tables = run.tables
    start = chooser.incumbent
    before = run.best
    plans: list[tuple[Score, int, Timetable]] = []
    for index, answer in enumerate(answers):
        if answer.timetable is not None:
            plans.append((score_of(tables, answer.timetable), index, answer.timetable))
    plans.sort(key=lambda plan: plan[:2])
    if len(plans) > 1:
        merged = _merge(tables, start, picked, answers)
        score = score_of(tables, merged)
        if score <= plans[0][0] and not check_timetable(tables.problem, merged):
            plans.insert(0, (score, -1, merged))
    if plans and plans[0][0] <= before:
        score, _, timetable = plans[0]
        run.offer(timetable, score, sentence("neighbourhood search"))
        chooser.incumbent = incumbent_of(tables, timetable)
    for part, answer in zip(picked, answers, strict=True):
        helped = answer.timetable is not None and score_of(tables, answer.timetable) < before
        exhausted = bool(answer.levels) and all(level.optimal for level in answer.levels)
        chooser.learn(part.kind, helped=helped, exhausted=exhausted)


def _merge(
    tables: Tables, start: Incumbent, picked: list[Neighbourhood], answers: list[Answer]
) -> Timetable:
    """Each neighbourhood's jobs as its own answer has them, the rest as before."""
    choices = {t: Choice(i.worker, i.start, i.end) for t, i in start.by_task.items()}
    units = dict(start.unit_of)
    cleaned = set(start.cleaned)
    rests = list(start.rests)
    for part, answer in zip(picked, answers, strict=True):
        if answer.timetable is None:
            continue
        after = incumbent_of(tables, answer.timetable)
        cleaned |= after.cleaned
        for worker, slots in enumerate(after.rests):
            if slots != start.rests[worker]:
                rests[worker] = slots
        for job in part.jobs:
            for task in tables.problem.jobs[job].tasks:
                choices.pop(task, None)
                for hold in tables.opens[task]:
                    units.pop(hold, None)
                item = after.by_task.get(task)
                if item is not None:
                    choices[task] = Choice(item.worker, item.start, item.end)
                    units.update(item.units)
    return assemble(tables, choices, units, rests, cleaned)
