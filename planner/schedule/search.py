"""From a problem to the best plan in the time given.

A constructive plan comes at once. Where the whole problem is small it is then solved outright,
term by term; beyond that, neighbourhoods of the incumbent are re-solved, two at a time. Bounds come
from relaxations. With a deterministic limit and a seed, every run gives the same plan.
"""

import random
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

from planner.check.timetable import check_timetable
from planner.schedule.assemble import Choice, Incumbent, assemble, incumbent_of
from planner.schedule.bounds import (
    assignment_bound,
    simple_bounds,
    tightest,
    without_leads,
)
from planner.schedule.construct import constructive_plans
from planner.schedule.model import ROUGH_LEVELS, Answer, Effort, improve
from planner.schedule.neighbourhoods import Chooser, Neighbourhood
from planner.schedule.problem import Problem
from planner.schedule.score import score_of
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import (
    TERMS,
    Bound,
    Progress,
    Score,
    Solution,
    Status,
    Term,
    Timetable,
)

OnProgress = Callable[[Progress], None]
_WHOLE_TASKS = 60
"""Up to so many tasks the whole problem is tried as one model first."""
_WHOLE_ARCS = 6_000
_ROUND = Effort(seconds=1.0, deterministic=0.25)
_FOREVER = 1e6


@dataclass(frozen=True, slots=True)
class SearchOptions:
    """How long and how to search.

    Attributes
    ----------
    seconds
        Wall-clock limit; ignored where ``deterministic_limit`` is set.
    deterministic_limit
        CP-SAT deterministic time, about a second each on a desktop; makes runs repeatable.
    seed
        For the choice of neighbourhoods and for CP-SAT.
    workers
        Neighbourhoods solved side by side.
    """

    seconds: float = 10.0
    deterministic_limit: float | None = None
    seed: int = 1
    workers: int = 2


@dataclass
class _Run:
    """What one search knows: the incumbent, the bounds, the clock."""

    tables: Tables
    options: SearchOptions
    on_progress: OnProgress | None
    good_enough: Score | None = None
    began: float = field(default_factory=time.monotonic)
    spent: float = 0.0
    timetable: Timetable = field(default_factory=lambda: Timetable(()))
    score: Score | None = None
    history: list[Progress] = field(default_factory=list)
    stopped: bool = False

    def elapsed(self) -> float:
        return time.monotonic() - self.began

    def left(self) -> float:
        """Seconds, or deterministic time, that may still be used."""
        limit = self.options.deterministic_limit
        if self.stopped or self._enough():
            return 0.0
        return self.options.seconds - self.elapsed() if limit is None else limit - self.spent

    def _enough(self) -> bool:
        if self.good_enough is None or self.score is None:
            return False
        return self.score <= self.good_enough

    def effort(self, share: float, threads: int = 1) -> Effort:
        """An effort of at most ``share`` (seconds or deterministic time) of what is left."""
        amount = max(0.01, min(share, self.left()))
        if self.options.deterministic_limit is None:
            return Effort(amount, _FOREVER, threads, self.options.seed)
        return Effort(_FOREVER, amount, threads, self.options.seed)

    def offer(self, timetable: Timetable, score: Score, origin: str) -> bool:
        """Take a plan that is better, if the independent checker finds nothing wrong with it."""
        if self.score is not None and score >= self.score:
            return False
        if check_timetable(self.tables.problem, timetable):
            raise RuntimeError(f"the search made a plan that breaks a rule ({origin})")
        self.timetable, self.score = timetable, score
        self.report(origin)
        return True

    def report(self, origin: str) -> None:
        if self.score is None:
            return
        progress = Progress(self.elapsed(), self.score, origin)
        self.history.append(progress)
        if self.on_progress is not None:
            try:
                self.on_progress(progress)
            except StopSearch:
                self.stopped = True


class StopSearch(Exception):  # noqa: N818 - a signal, not an error
    """Raised by a progress callback to end the search with the best plan so far."""


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
    run = _Run(tables_of(problem), chosen, on_progress, good_enough)
    for rule, timetable, score in constructive_plans(run.tables):
        run.offer(timetable, score, f"constructive, {rule.by} in {rule.bucket} minutes")
    if start is not None:
        run.offer(start, score_of(run.tables, start), "the plan given")
    assert run.score is not None  # noqa: S101 - every rule yields a plan
    if run.left() <= 0:
        bounds = simple_bounds(run.tables, run.score)
    else:
        bounds = _solve_whole(run) if _is_small(run.tables) else _bounds(run)
    if not all(bound.proven for bound in bounds.values()):
        _search(run, bounds)
    final = tuple(_restate(bounds[term], run.score) for term in TERMS)
    proven = all(bound.proven for bound in final)
    return Solution(
        timetable=run.timetable,
        score=run.score,
        status=Status.OPTIMAL if proven else Status.FEASIBLE,
        bounds=final,
        history=tuple(run.history),
        seconds=run.elapsed(),
        deterministic_time=run.spent,
        seed=chosen.seed,
    )


def _is_small(tables: Tables) -> bool:
    problem = tables.problem
    arcs = sum(
        sum(worker in task.minutes for task in problem.tasks) ** 2
        for worker in range(len(problem.workers))
    )
    return len(problem.tasks) <= _WHOLE_TASKS and arcs <= _WHOLE_ARCS


def _solve_whole(run: _Run) -> dict[Term, Bound]:
    """Solve everything at once, term by term; what is proven is exact."""
    assert run.score is not None  # noqa: S101
    tables = run.tables
    answer = improve(
        tables,
        incumbent_of(tables, run.timetable),
        run.score,
        range(len(tables.problem.jobs)),
        range(len(tables.problem.workers)),
        run.effort(run.left() / 2, run.options.workers),
    )
    run.spent += answer.deterministic
    if answer.timetable is not None:
        run.offer(answer.timetable, score_of(tables, answer.timetable), "whole model")
    bounds = simple_bounds(tables, run.score)
    for level in answer.levels:
        term = level.terms[0]
        tightest(bounds, Bound(term, run.score.term(term), level.bound, "the whole model"))
        if not level.optimal:
            break
    return bounds


def _bounds(run: _Run) -> dict[Term, Bound]:
    """Bounds of a problem too large to solve whole."""
    assert run.score is not None  # noqa: S101
    bounds = simple_bounds(run.tables, run.score)
    worse = any(not bounds[term].proven for term in (Term.SHORT, Term.TARDINESS))
    if worse:
        effort = run.effort(run.left() / 6, run.options.workers)
        for found in without_leads(run.tables, run.timetable, run.score, effort):
            tightest(bounds, found)
    if not bounds[Term.LABOR].proven:
        effort = run.effort(run.left() / 6, run.options.workers)
        tightest(bounds, assignment_bound(run.tables, run.score, effort))
    return bounds


def _search(run: _Run, bounds: dict[Term, Bound]) -> None:
    """Re-solve neighbourhoods in rounds until the time is up or everything is proven.

    A round's neighbourhoods share no job and all start from the same incumbent, so which thread
    ends first does not matter: the same seed gives the same plan.
    """
    rng = random.Random(run.options.seed)  # noqa: S311 - a search, not a secret
    chooser = Chooser(run.tables, incumbent_of(run.tables, run.timetable))
    side = max(1, run.options.workers)
    with ThreadPoolExecutor(side) as pool:
        while run.left() > 0.05:
            if all(_restate(bounds[term], _score(run)).proven for term in TERMS):
                return
            picked = _pick(chooser, rng, side)
            if not picked:
                return
            effort = _round_effort(run)
            incumbent, score = chooser.incumbent, _score(run)
            answers = list(
                pool.map(
                    lambda part, i=incumbent, s=score, e=effort: improve(
                        run.tables, i, s, part.jobs, part.workers, e, ROUGH_LEVELS, part.reach
                    ),
                    picked,
                )
            )
            run.spent += sum(answer.deterministic for answer in answers) / side + 0.002
            _take(run, chooser, picked, answers)


def _score(run: _Run) -> Score:
    assert run.score is not None  # noqa: S101
    return run.score


def _round_effort(run: _Run) -> Effort:
    if run.options.deterministic_limit is None:
        return Effort(min(_ROUND.seconds, max(0.05, run.left())), _FOREVER, 1, run.options.seed)
    return Effort(_FOREVER, min(_ROUND.deterministic, run.left()), 1, run.options.seed)


def _pick(chooser: Chooser, rng: random.Random, side: int) -> list[Neighbourhood]:
    picked: list[Neighbourhood] = []
    taken: frozenset[int] = frozenset()
    for _ in range(side):
        found = chooser.choose(rng, taken)
        if found.jobs:
            picked.append(found)
            taken |= found.jobs
    return picked


def _take(run: _Run, chooser: Chooser, picked: list[Neighbourhood], answers: list[Answer]) -> None:
    """Accept the best of a round, or all of it where the parts go together."""
    tables = run.tables
    start = chooser.incumbent
    before = _score(run)
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
        run.offer(timetable, score, "neighbourhood search")
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
    for part, answer in zip(picked, answers, strict=True):
        if answer.timetable is None:
            continue
        after = incumbent_of(tables, answer.timetable)
        for job in part.jobs:
            for task in tables.problem.jobs[job].tasks:
                choices.pop(task, None)
                for hold in tables.opens[task]:
                    units.pop(hold, None)
                item = after.by_task.get(task)
                if item is not None:
                    choices[task] = Choice(item.worker, item.start, item.end)
                    units.update(item.units)
    return assemble(tables, choices, units)


def _restate(bound: Bound, score: Score) -> Bound:
    """The bound against the plan as it is now; valid still, since the plan only got better."""
    value = score.term(bound.term)
    return Bound(bound.term, value, min(bound.bound, value), bound.relaxation)
