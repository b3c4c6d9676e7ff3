"""The best score of a tiny problem, found by trying every timetable.

Tasks are placed one by one in order of their start, each at every minute, with every able cook, on
every unit. No start is skipped: with freshness, longest waits and earliest ends, the best timetable
need not be pushed to the left. What comes before a task is known when it is placed, so its lead is,
and with it every term so far; a branch is dropped only when its terms so far, with the least that
what is still to be done must add, are no better than those of a whole timetable that was found.
Every term can only grow as tasks are added, so nothing better is dropped.

Shares no code with the solver or the checker, so that the three can disagree.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import combinations, product

from planner.schedule.problem import Hygiene, Problem, Rest, Worker
from planner.schedule.timetable import Score

Terms = tuple[int, int, int, int]
"""Tardiness, labor, freshness, finish."""


@dataclass(frozen=True)
class Placed:
    """A task in the making: its cook's stretch runs from ``begin`` (the lead) to ``end``."""

    task: int
    worker: int
    begin: int
    start: int
    end: int
    units: tuple[int, ...]
    """Per contact hold that opens with the task, in order of the holds."""
    cleaned: tuple[int, ...] = ()
    """Those of these holds whose unit is cleaned first."""


Choice = tuple[int, int, int, tuple[int, ...], tuple[int, ...]]
"""Task, cook, start, units, holds cleaned for."""


@dataclass
class _Trial:
    """What is placed so far, and the best terms found yet; or, where ``all_of_them``, every one."""

    all_of_them: bool = False
    placed: list[Placed] = field(default_factory=list)
    best: Terms | None = None
    found: dict[frozenset[Choice], Terms] = field(default_factory=dict)


def best_score(problem: Problem) -> Score:
    """Return the least score of all feasible timetables of ``problem``, wherever the rests are."""
    return min(_best_score(fixed) for fixed in _rests_fixed(problem))


def _rests_fixed(problem: Problem) -> Iterator[Problem]:
    """The problem with every rest that can move at every place where it may be."""
    places = [
        list(product(*(range(rest.earliest, rest.latest + 1) for rest in worker.rests)))
        for worker in problem.workers
    ]
    for starts in product(*places):
        workers = tuple(
            replace(
                worker,
                rests=tuple(
                    Rest(rest.minutes, at, at) for rest, at in zip(worker.rests, own, strict=True)
                ),
            )
            for worker, own in zip(problem.workers, starts, strict=True)
        )
        if all(map(_are_apart, problem.workers, workers)):
            yield replace(problem, workers=workers)


def _are_apart(asked: Worker, worker: Worker) -> bool:
    """Whether no rest that had a choice lies in another or in what is blocked."""
    slots = [(rest.earliest, rest.earliest + rest.minutes) for rest in worker.rests]
    for index, rest in enumerate(asked.rests):
        if rest.earliest < rest.latest:
            begin, end = slots[index]
            for since, until in [*worker.blocked, *slots[:index], *slots[index + 1 :]]:
                if begin < until and since < end:
                    return False
    return True


def _best_score(problem: Problem) -> Score:
    by_short: dict[int, list[frozenset[int]]] = defaultdict(list)
    for jobs in _allowed_sets(problem):
        by_short[_short(problem, jobs)].append(jobs)
    for short in sorted(by_short):
        trial = _Trial()
        for jobs in by_short[short]:
            _try_all(problem, jobs, trial)
        if trial.best is not None:
            return Score(short, *trial.best)
    raise AssertionError("doing nothing is always feasible")


def all_timetables(problem: Problem) -> dict[frozenset[Choice], Score]:
    """Return every feasible timetable of ``problem`` with its score."""
    scores: dict[frozenset[Choice], Score] = {}
    for jobs in _allowed_sets(problem):
        trial = _Trial(all_of_them=True)
        _try_all(problem, jobs, trial)
        short = _short(problem, jobs)
        scores.update({choices: Score(short, *terms) for choices, terms in trial.found.items()})
    return scores


def _try_all(problem: Problem, jobs: frozenset[int], trial: _Trial) -> None:
    assert all(wait.minimum >= 0 for wait in problem.waits)
    tasks = frozenset(task for job in jobs for task in problem.jobs[job].tasks)
    _Search(problem, tasks, trial).place(problem.start, -1)


def _allowed_sets(problem: Problem) -> Iterator[frozenset[int]]:
    """Sets of jobs in which none is impossible and none lacks what it needs."""
    possible = [index for index, job in enumerate(problem.jobs) if not job.impossible]
    for size in range(len(possible) + 1):
        for jobs in combinations(possible, size):
            if all(need in jobs for job in jobs for need in problem.jobs[job].needs):
                yield frozenset(jobs)


def _short(problem: Problem, jobs: frozenset[int]) -> int:
    total = 0
    for index, promise in enumerate(problem.promises):
        missing: dict[str, int] = {}
        for number, job in enumerate(problem.jobs):
            for serving in job.serves:
                if serving.promise == index and number not in jobs:
                    missing[serving.component] = (
                        missing.get(serving.component, 0) + serving.portions
                    )
        total += promise.weight * max(missing.values(), default=0)
    return total


def _must_wash(old: Hygiene, new: Hygiene) -> bool:
    if old.raw_animal and old.raw_animal != new.raw_animal:
        return True
    return any(allergen not in new.allergens for allergen in old.allergens)


class _Search:
    """All timetables in which exactly ``tasks`` are done."""

    def __init__(self, problem: Problem, tasks: frozenset[int], trial: _Trial) -> None:
        self.problem = problem
        self.tasks = tasks
        self.trial = trial
        self.trial.placed = []
        self.least = {t: min(problem.tasks[t].minutes.values(), default=0) for t in tasks}
        self.opened = {
            t: [h for h, hold in enumerate(problem.holds) if hold.first == t] for t in tasks
        }

    def place(self, earliest: int, after: int) -> None:
        """Place what is left, no earlier than ``earliest``; at that minute, only tasks > ``after``.

        The order among equal starts says nothing (they are on different cooks and units), so one
        order is enough.
        """
        placed = self.trial.placed
        left = sorted(self.tasks - {p.task for p in placed})
        if not left:
            terms = self._terms({})
            if self._improves(terms) and self._whole():
                self._keep(terms)
            return
        for start in range(earliest, self.problem.horizon):
            if not self._improves(self._terms(self._soonest(left, start))):
                return
            for task in left:
                if start == earliest and task <= after:
                    continue
                for each in self._ways(task, start):
                    placed.append(each)
                    self.place(start, task)
                    placed.pop()

    def _keep(self, terms: Terms) -> None:
        if self.trial.all_of_them:
            choices = frozenset(
                (p.task, p.worker, p.start, p.units, p.cleaned) for p in self.trial.placed
            )
            assert choices not in self.trial.found
            self.trial.found[choices] = terms
        else:
            self.trial.best = terms

    def _improves(self, terms: Terms) -> bool:
        return self.trial.best is None or terms < self.trial.best

    def _soonest(self, left: list[int], earliest: int) -> dict[int, int]:
        """Ends of what is left that cannot be undercut: none starts before ``earliest``."""
        tasks = self.problem.tasks
        ends = {p.task: p.end for p in self.trial.placed}
        soonest = {t: max(earliest, tasks[t].release) + self.least[t] for t in left}
        for _ in left:
            for wait in self.problem.waits:
                before = soonest.get(wait.before, ends.get(wait.before))
                if wait.after in soonest and before is not None:
                    least = before + wait.minimum + self.least[wait.after]
                    soonest[wait.after] = max(soonest[wait.after], least)
        return soonest

    def _ways(self, index: int, start: int) -> Iterator[Placed]:
        """Every cook and choice of units with which ``index`` can start at ``start``."""
        contact = [
            h
            for h in self.opened[index]
            if self.problem.resources[self.problem.holds[h].resource].contact
        ]
        choices = [
            range(self.problem.resources[self.problem.holds[h].resource].capacity) for h in contact
        ]
        for worker, minutes in self.problem.tasks[index].minutes.items():
            for units in product(*choices):
                taken = [
                    (self.problem.holds[h].resource, unit)
                    for h, unit in zip(contact, units, strict=True)
                ]
                if len(set(taken)) < len(taken):
                    continue
                end = start + minutes + self._paused(index, worker, start, minutes)
                lead = self._lead(index, worker)
                for cleaned in self._cleans(index, dict(zip(contact, units, strict=True))):
                    begin = start - lead - len(cleaned) * self.problem.changeovers.clean
                    each = Placed(index, worker, begin, start, end, units, cleaned)
                    if self._fits(each):
                        yield each

    def _cleans(self, index: int, units: dict[int, int]) -> Iterator[tuple[int, ...]]:
        """Holds to clean for: those that another food has left unclean, and any others."""
        family = self.problem.families[self.problem.tasks[index].family]
        dirty = set()
        for hold, unit in units.items():
            on_unit = self._users(self.problem.holds[hold].resource, unit)
            if on_unit:
                old = self.problem.families[self.problem.tasks[on_unit[-1][1].task].family]
                if _must_wash(old.hygiene, family.hygiene):
                    dirty.add(hold)
        others = [hold for hold in units if hold not in dirty]
        most = 0 if self.problem.changeovers.clean_every is None else len(others)
        for size in range(most + 1):
            for more in combinations(others, size):
                yield tuple(sorted({*dirty, *more}))

    def _rests(self, worker: int) -> list[tuple[int, int]]:
        """Every rest where it must be: those that can move are tried one place after the other."""
        rests = self.problem.workers[worker].rests
        return sorted((rest.earliest, rest.earliest + rest.minutes) for rest in rests)

    def _paused(self, index: int, worker: int, start: int, minutes: int) -> int:
        """Minutes of rests that begin after so long a task does and before it is done."""
        paused = 0
        if self.problem.tasks[index].pausable:
            for begin, end in self._rests(worker):
                if start < begin < start + minutes + paused:
                    paused += end - begin
        return paused

    def _lead(self, index: int, worker: int) -> int:
        """Minutes of the lead, cleaning apart."""
        family = self.problem.families[self.problem.tasks[index].family]
        costs = self.problem.changeovers
        minutes = 0
        own = [p for p in self.trial.placed if p.worker == worker]
        if not own:
            minutes += family.set_up
        elif self.problem.tasks[own[-1].task].family != self.problem.tasks[index].family:
            old = self.problem.families[self.problem.tasks[own[-1].task].family]
            minutes += family.set_up
            if old.station != family.station:
                walk = {frozenset((w.station, w.other)): w.minutes for w in costs.walks}
                pair = frozenset((old.station, family.station))
                minutes += walk.get(pair, costs.another_station)
            elif old.operation != family.operation:
                minutes += costs.another_operation
            elif old.food != family.food:
                minutes += costs.another_food
            if _must_wash(old.hygiene, family.hygiene):
                minutes += costs.hand_wash
        return minutes

    def _users(self, resource: int, unit: int | None) -> list[tuple[int, Placed]]:
        """(hold, opener) on a resource, or on one unit of it, in order of start."""
        found = []
        for p in self.trial.placed:
            units = iter(p.units)
            for h in self.opened[p.task]:
                where = self.problem.holds[h].resource
                own = next(units) if self.problem.resources[where].contact else None
                if where == resource and (unit is None or own == unit):
                    found.append((h, p))
        return found

    def _freed(self, hold: int) -> int | None:
        """When a hold ends, or None while its last task is not placed."""
        for p in self.trial.placed:
            if p.task == self.problem.holds[hold].last:
                return p.end + self.problem.holds[hold].tail
        return None

    def _fits(self, each: Placed) -> bool:
        """Whether a task fits its own limits, its cook and its units, after what is placed."""
        return (
            self._in_time(each)
            and self._cook_is_free(each)
            and self._has_waited(each)
            and self._units_are_free(each)
        )

    def _in_time(self, each: Placed) -> bool:
        task, cook = self.problem.tasks[each.task], self.problem.workers[each.worker]
        latest = [self.problem.horizon, cook.latest_end]
        if task.until is not None:
            latest.append(task.until)
        earliest_end = each.end if task.earliest_end is None else task.earliest_end
        start_by = each.start if task.start_by is None else task.start_by
        return (
            each.begin >= max(self.problem.start, cook.start)
            and task.release <= each.start <= start_by
            and earliest_end <= each.end <= min(latest)
        )

    def _cook_is_free(self, each: Placed) -> bool:
        away = self.problem.workers[each.worker].blocked
        own = [p for p in self.trial.placed if p.worker == each.worker]
        pausable = self.problem.tasks[each.task].pausable
        return (
            all(each.end <= start or end <= each.begin for start, end in away)
            and all(
                each.end <= start
                or end <= each.begin
                or (pausable and each.start < start and end < each.end)
                for start, end in self._rests(each.worker)
            )
            and all(p.end <= each.begin for p in own)
        )

    def _has_waited(self, each: Placed) -> bool:
        ends = {p.task: p.end for p in self.trial.placed}
        for wait in self.problem.waits:
            if wait.after == each.task and wait.before in self.tasks:
                # Waits are never negative and work takes time, so ``before`` starts first.
                minutes = each.start - ends[wait.before] if wait.before in ends else -1
                longest = minutes if wait.maximum is None else wait.maximum
                if not wait.minimum <= minutes <= longest:
                    return False
        return True

    def _units_are_free(self, each: Placed) -> bool:
        units = iter(each.units)
        for h in self.opened[each.task]:
            resource = self.problem.holds[h].resource
            if self.problem.resources[resource].contact:
                for other, _ in self._users(resource, next(units)):
                    freed = self._freed(other)
                    if freed is None or freed > each.begin:
                        return False
        return True

    def _terms(self, soonest: dict[int, int]) -> Terms:
        """The terms of what is placed, with the least that what is left adds to them."""
        late = labor = fresh = finish = 0
        for index, end in soonest.items():
            task = self.problem.tasks[index]
            labor += self.least[index]
            finish = max(finish, end - self.problem.start)
            if task.due is not None:
                late += task.due_weight * max(0, end - task.due)
        last: dict[int, int] = {}
        for p in self.trial.placed:
            task = self.problem.tasks[p.task]
            labor += p.start - p.begin + task.minutes[p.worker]
            last[p.worker] = max(last.get(p.worker, 0), p.end)
            finish = max(finish, p.end - self.problem.start)
            if task.due is not None:
                if p.end > task.due:
                    late += task.due_weight * (p.end - task.due)
                else:
                    fresh += task.fresh_weight * (task.due - p.end)
        for worker, end in last.items():
            labor += max(0, end - self.problem.workers[worker].end)
        return late, labor, fresh, finish

    def _whole(self) -> bool:
        """Whether counted resources are enough at every moment, and no food is out too long."""
        if not self._cold_enough() or not self._clean_enough():
            return False
        for resource, what in enumerate(self.problem.resources):
            stays = []
            for h, p in self._users(resource, None):
                freed = self._freed(h)
                assert freed is not None
                stays.append((p.begin, freed, self.problem.holds[h].units))
            if what.contact:
                continue
            for moment, _, _ in stays:
                used = sum(units for begin, end, units in stays if begin <= moment < end)
                if used > what.capacity:
                    return False
        return True

    def _clean_enough(self) -> bool:
        """Whether no unit is in use for too long after it was clean, but by one thing alone."""
        every = self.problem.changeovers.clean_every
        for resource, what in enumerate(self.problem.resources):
            for unit in range(what.capacity if what.contact and every is not None else 0):
                begun: int | None = None
                for h, p in self._users(resource, unit):
                    freed = self._freed(h)
                    assert freed is not None
                    assert every is not None
                    if begun is None or h in p.cleaned:
                        since = self.problem.holds[h].since
                        begun = p.begin if since is None else min(p.begin, since)
                    elif freed > begun + every:
                        return False
        return True

    def _cold_enough(self) -> bool:
        """Whether every sum of minutes out of temperature control is within its limit."""
        when = {p.task: p for p in self.trial.placed}
        sums: list[int] = []
        for exposure in self.problem.exposures:
            if exposure.first not in when or exposure.last not in when:
                sums.append(0)
                continue
            begin = when[exposure.first].start if exposure.since is None else exposure.since
            before = max([exposure.spent, *(sums[other] for other in exposure.after)])
            sums.append(before + when[exposure.last].end - begin)
            if sums[-1] > exposure.limit:
                return False
        return True
