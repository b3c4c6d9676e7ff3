"""Better plans by taking a little work out of the plan and putting it back in another way.

No solver: some pieces of work come out, and go in again one by one where they fit best, what was
left out or late before the rest. A try takes about a millisecond, so there are thousands. Plans a
little worse are gone on from, at first more of them and in the end hardly any, as a smith lets a
blade cool: what is best only after two changes is not found by asking each to be better alone.
"""

import random
from heapq import heapify, heappop, heappush

from planner.check.timetable import check_timetable
from planner.schedule.assemble import Choice, assemble
from planner.schedule.clusters import clusters_of, linked
from planner.schedule.homes import UNCHANGED, Changed, Homes
from planner.schedule.removal import refit, state_of, take_out
from planner.schedule.ruins import RUINS, Scene
from planner.schedule.run import WORK_PER_SECOND, Run
from planner.schedule.score import Scorer, score_of
from planner.schedule.state import State
from planner.schedule.tables import Tables
from planner.schedule.timetable import Score, Timetable
from planner.schedule.together import place_cluster
from planner.wording import sentence

_THRIFTS = (0.0, 0.5, 1.0, 2.0, 4.0)
"""Minutes later that a cluster may end to save a minute of work or lead."""
_FEWEST = 2
_MOST = (4, 8, 12)
"""Clusters taken out at a time: any number up to one of these."""
_SHAKEN = (0, 60, 240)
"""Minutes by which the order of going in is shaken."""
_WARMTH, _COOLED = 30.0, 0.03
"""Weighted minutes late by which a plan may be worse, on average, at first, and the part of that in
the end."""
_MILD, _TENTH = 2.0, 0.1
"""But at first no more than this and this part of what the best plan costs, labor apart."""
_LABOR, _FRESHNESS = 0.2, 0.02
"""Weighted minutes late that a minute of labor and one of freshness count for when it is asked how
much worse a plan is; which plan is best goes by strict order."""
_PRICE, _DEARER, _DEAREST = 20.0, 1.002, 2000.0
"""The same for a portion short, at least; it grows by this factor with every try while more is
short than in the best plan, to the last figure at most, and falls again after."""
_WANTING = 0.3
"""Of that, for each portion of each component left out: a promise that lacks two is as short with
one of them, but nearer."""
_MOVED = 2.0
"""The same for a task that is not with its own cook, where tasks have one."""
_REVERSED = 0.1
"""The same for two tasks of one cook that have changed places in their day."""
_OWN = 0.7
"""Odds that work which has a cook of its own is tried with that cook first."""
_STALE = 5.0
"""What leads that have shrunk may be worth, in the same measure."""
_OFFERED = 20
"""Times that the best plan is offered: the checker takes a while."""
_TOLD = 40_000
"""Work between two words to whoever listens, about a fifth of a second."""
_IDLE = 10
"""Work that is counted for a try beyond the cooks looked at."""


class Reinsertion:
    """One plan under way, the best one met, and the odds of the ways of taking work out.

    With ``homes``, of plans as short and as late the one that changes least for people is the best.
    """

    def __init__(
        self, tables: Tables, timetable: Timetable, seed: int, homes: Homes | None = None
    ) -> None:
        self.tables = tables
        self.homes = homes
        self.rng = random.Random(seed)  # noqa: S311 - a search, not a secret
        self.clusters = linked(tables, clusters_of(tables))
        self.scorer = Scorer(tables)
        self.odds = dict.fromkeys(RUINS, 1.0)
        self.state = state_of(tables, timetable)
        self.best = self.scorer.score(self.state)
        self.kept = self.state
        self.score, self.wanting = self.best, self.scorer.wanting
        self.changed = self.fewest = self._changed(self.state)
        self.price = _PRICE
        """Weighted minutes late that a portion short counts for."""

    def _changed(self, state: State) -> Changed:
        return UNCHANGED if self.homes is None else self.homes.changed(state)

    def _is_better(self, score: Score, changed: Changed) -> bool:
        """Whether a plan is better than the best met."""
        best = self.best
        felt = score.short, score.tardiness, changed
        least = best.short, best.tardiness, self.fewest
        return felt < least or (felt == least and score < best)

    def _energy(self, score: Score, wanting: int, changed: Changed) -> float:
        return (
            self.price * (score.short + _WANTING * wanting)
            + score.tardiness
            + _LABOR * score.labor
            + _FRESHNESS * score.freshness
            + _MOVED * changed.moved
            + _REVERSED * changed.turned
        )

    def is_on_time(self) -> bool:
        """Whether the best plan has nothing short and nothing late."""
        return not self.best.short and not self.best.tardiness

    def timetable(self) -> Timetable:
        """The best plan met, with exact leads, and without what is for nobody after all.

        Work for what could not be finished stays in while the search goes on: the rest may follow.
        """
        state, links = self.kept.copy(), self.clusters
        found = True
        while found:
            found = False
            for c, tasks in enumerate(links.tasks):
                idle = links.is_in(state, c) and not links.serving[c]
                if idle and links.takers[c] and not links.is_taken(state, c):
                    trial = state.copy()
                    if take_out(trial, tasks[:1], links.tied) == set(tasks):
                        state, found = trial, True
        choices = {t: Choice(e.worker, e.start, e.end) for t, e in state.entries.items()}
        return assemble(self.tables, choices, state.unit_of, state.rests, state.cleaned())

    def step(self, part: float) -> int:
        """Try once, ``part`` of the time being over, and return the work it took."""
        rng = self.rng
        trouble = self.best.tardiness + _PRICE * self.best.short
        warmth = min(_WARMTH, _MILD + _TENTH * trouble) * _COOLED**part
        kind = rng.choices(list(RUINS), list(self.odds.values()))[0]
        scene = Scene(self.tables, self.clusters, self.state, rng)
        out, first = RUINS[kind](scene, rng.randint(_FEWEST, rng.choice(_MOST)))
        trial = self.state.copy()
        trial.dice = rng
        gone = take_out(trial, [self.clusters.tasks[c][0] for c in out], self.clusters.tied)
        loose = {self.clusters.of_task[task] for task in gone}
        better = False
        if (loose or first) and self._put_in(trial, loose, first):
            bar = self._energy(self.score, self.wanting, self.changed)
            bar += warmth * rng.expovariate(1.0)
            score, changed = self.scorer.score(trial), self._changed(trial)
            near = self._energy(score, self.scorer.wanting, changed) <= bar + _STALE
            if near or self._is_better(score, changed):
                _close_leads(trial)
                score = self.scorer.score(trial)
            better = self._is_better(score, changed)
            if better:
                self.best, self.fewest, self.kept = score, changed, trial
            if better or self._energy(score, self.scorer.wanting, changed) <= bar:
                self.state, self.score, self.changed = trial, score, changed
                self.wanting = self.scorer.wanting
        dearer = self.score.short > self.best.short
        price = self.price * (_DEARER if dearer else 1 / _DEARER)
        self.price = min(_DEAREST, max(_PRICE, price))
        self.odds[kind] = 0.98 * self.odds[kind] + (0.4 if better else 0.004)
        return trial.work + _IDLE

    def _put_in(self, state: State, loose: set[int], first: list[int]) -> bool:
        """Put clusters in again, those of ``first`` before the others; False: it is no plan."""
        rng, links = self.rng, self.clusters
        wanted = sorted(loose | {c for c in first if not links.is_in(state, c)})
        rank = {c: at - len(first) for at, c in enumerate(first)}
        thrift, shaken = rng.choice(_THRIFTS), rng.choice(_SHAKEN)
        keys = {
            c: (0, rank[c]) if c in rank else (1, links.urgency[c] + rng.randint(-shaken, shaken))
            for c in wanted
        }
        waiting = {c: sum(need in keys for need in links.needs[c]) for c in wanted}
        ready = [(keys[c], c) for c in wanted if waiting[c] == 0]
        heapify(ready)
        while ready:
            _, c = heappop(ready)
            if not (
                links.possible[c]
                and all(links.is_in(state, need) for need in links.needs[c])
                and self._place(state, c, thrift)
            ) and links.is_taken(state, c):
                return False
            for taker in links.takers[c]:
                if taker in waiting:
                    waiting[taker] -= 1
                    if waiting[taker] == 0:
                        heappush(ready, (keys[taker], taker))
        return True

    def _place(self, state: State, cluster: int, thrift: float) -> bool:
        """Put a cluster in, with its own cook or with anybody."""
        tasks = self.clusters.tasks[cluster]
        homes = self.homes
        if homes is not None and self.rng.random() < _OWN:
            state.tables = homes.tables
            placed = place_cluster(state, tasks, thrift)
            state.tables = self.tables
            if placed:
                return True
        return place_cluster(state, tasks, thrift)


def reinsert(run: Run, share: float, *, on_time_is_enough: bool = False) -> None:
    """Better the run's plan in ``share`` of the time that is left, or until it is on time."""
    search = Reinsertion(run.tables, run.timetable, run.options.seed)
    _search(run, search, share, on_time_is_enough=on_time_is_enough)
    _offer(run, search)


def reinsert_near(run: Run, homes: Homes) -> Timetable:
    """Better the run's plan until it is on time, with few tasks moved from their old places.

    The plan returned is no shorter and no later than the run's; it may take more labor, for a task
    that stays.
    """
    before = run.timetable
    search = Reinsertion(run.tables, before, run.options.seed, homes)
    _search(run, search, 1.0, on_time_is_enough=True)
    found = search.timetable()
    return before if check_timetable(run.tables.problem, found) else found


def _search(run: Run, search: Reinsertion, share: float, *, on_time_is_enough: bool) -> None:
    limit = run.left() * share
    begun, offered, untold = run.used(), 0, 0
    while run.left() > 0:
        part = (run.used() - begun) / max(limit, 1e-9)
        if part >= 1 or (on_time_is_enough and search.is_on_time()):
            break
        if search.homes is None and part * _OFFERED >= offered + 1:
            offered = int(part * _OFFERED)
            _offer(run, search)
        if untold >= _TOLD:
            untold = 0
            run.tell("round")
        work = search.step(part)
        untold += work
        run.spent += work / WORK_PER_SECOND


def _offer(run: Run, search: Reinsertion) -> None:
    timetable = search.timetable()
    run.offer(timetable, score_of(run.tables, timetable), sentence("taken out and put in again"))


def _close_leads(state: State) -> None:
    """Give every task the lead it needs where it stands, which is never more than it has."""
    for line in state.lines:
        for entry in line.copy():
            refit(state, entry.task)
