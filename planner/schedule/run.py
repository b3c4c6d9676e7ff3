"""One search under way: the incumbent, the clock, and who is told."""

import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from planner.check.timetable import check_timetable
from planner.schedule.effort import Effort
from planner.schedule.least_labor import least_labor
from planner.schedule.rules import FIRST_RULES
from planner.schedule.spans import spans_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Progress, Score, Timetable

OnProgress = Callable[[Progress], None]
FOREVER = 1e6
LEAST_SECONDS = 0.25
"""Of one call of the solver: one cut off while it still prepared was once seen to crash."""
_CONSTRUCT_SECONDS = 1.0
_CONSTRUCT_SHARE = 0.2
"""Of the limit, at least the seconds above: how much work the constructive rules may do."""
_CONSTRUCT_MOST = 0.4
"""Of the limit by the clock, where the machine is too slow for that."""
WORK_PER_SECOND = 200_000
"""Cooks looked at for a task in a second: turns work into time where the clock plays no part."""


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

    @property
    def limit(self) -> float:
        """Seconds, or deterministic time, that the search may take."""
        return self.seconds if self.deterministic_limit is None else self.deterministic_limit

    def with_limit(self, limit: float) -> "SearchOptions":
        """The same with another limit, in the same kind of time."""
        if self.deterministic_limit is None:
            return replace(self, seconds=limit)
        return replace(self, deterministic_limit=limit)


@dataclass
class Run:
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
    _least: tuple[int, int] | None = None
    """Short portions that a bound on labor was stated at, and the bound."""

    @property
    def best(self) -> Score:
        """Score of the incumbent; there is one once the constructive rules have run."""
        if self.score is None:
            raise RuntimeError("no plan yet")
        return self.score

    def elapsed(self) -> float:
        """Seconds since the search began."""
        return time.monotonic() - self.began

    def left(self) -> float:
        """Seconds, or deterministic time, that may still be used."""
        if self.stopped or self._enough():
            return 0.0
        return self.options.limit - self.used()

    def used(self) -> float:
        """Seconds, or deterministic time, used so far."""
        return self.elapsed() if self.options.deterministic_limit is None else self.spent

    def _enough(self) -> bool:
        if self.good_enough is None or self.score is None:
            return False
        return self.score <= self.good_enough

    def constructive_work(self) -> float:
        """How much work the constructive rules may do, the same on every machine."""
        return WORK_PER_SECOND * max(_CONSTRUCT_SECONDS, self.options.limit * _CONSTRUCT_SHARE)

    def constructed_enough(self, plans: int) -> bool:
        """Whether to stop after so many constructive plans: as wished, or as the clock is far on.

        The clock plays no part in deterministic time.
        """
        if self.stopped or self._enough():
            return True
        if self.options.deterministic_limit is not None or plans < FIRST_RULES:
            return False
        return self.elapsed() > max(_CONSTRUCT_SECONDS, self.options.seconds * _CONSTRUCT_MOST)

    def effort(self, share: float, threads: int = 1) -> Effort:
        """An effort of at most ``share`` (seconds or deterministic time) of what is left."""
        amount = max(0.01, min(share, self.left()))
        if self.options.deterministic_limit is None:
            return Effort(max(LEAST_SECONDS, amount), FOREVER, threads, self.options.seed)
        return Effort(FOREVER, amount, threads, self.options.seed)

    def offer(self, timetable: Timetable, score: Score, origin: str) -> bool:
        """Take a plan that is better, if the independent checker finds nothing wrong with it."""
        if self.score is not None and score >= self.score:
            return False
        if check_timetable(self.tables.problem, timetable):
            raise RuntimeError(f"the search made a plan that breaks a rule ({origin})")
        self.timetable, self.score = timetable, score
        self.history.append(Progress(self.elapsed(), score, origin))
        self.tell(origin)
        return True

    def _least_labor(self) -> int:
        """A bound on labor to tell with a plan; it holds on as plans get better.

        It is stated anew when less is short: more is certain to be made then.
        """
        if self._least is None or self.best.short < self._least[0]:
            bound = least_labor(self.tables, spans_of(self.tables, self.best))
            self._least = (self.best.short, bound)
        return min(self._least[1], self.best.labor)

    def tell(self, origin: str) -> None:
        """Show the incumbent to whoever listens, and take a wish to stop."""
        if self.on_progress is not None:
            progress = Progress(self.elapsed(), self.best, origin, self._least_labor())
            try:
                self.on_progress(progress)
            except StopSearch:
                self.stopped = True


class StopSearch(Exception):  # noqa: N818 - a signal, not an error
    """Raised by a progress callback to end the search with the best plan so far.

    The callback is called with every better plan, and after every round whether better or not.
    """
