"""Do a stored run: start the search, keep what it finds, write the sheets."""

import datetime as dt
import logging
import threading
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field

from planner.schedule.timetable import Progress
from service.clock import Now
from service.db.unit_of_work import Database
from service.planning import Made, MakePlan
from service.solving import Order, Solved, SolveError, solve
from service.stored_words import (
    PROGRAM_ENDED,
    PROGRAM_INTERRUPTED,
    STOPPED_EARLY,
    no_files,
)
from service.usecases.happened import rest_order
from service.usecases.moving import move_order, near_order
from service.usecases.rates import learned_before

_log = logging.getLogger(__name__)

LOST_AFTER = dt.timedelta(seconds=30)
"""A program that runs plans says so much oftener that it lives."""

WriteSheet = Callable[[uuid.UUID, Made, bool], None]
"""Writes a plan's files, all of them or those that come first; raises OSError where it cannot."""


def _ignore(_: object) -> None:
    """Nobody watches."""


@dataclass(frozen=True, slots=True)
class Watcher:
    """Whoever looks on while a plan is made."""

    on_first: Callable[[Made], None] = _ignore
    on_progress: Callable[[Progress], None] = _ignore


@dataclass(frozen=True, slots=True)
class RunTools:
    """What a run needs from outside, chosen where the program is put together."""

    database: Database
    make: MakePlan
    write: WriteSheet
    now: Now
    stop: threading.Event = field(default_factory=threading.Event)


def run_plan(
    tools: RunTools,
    plan_id: uuid.UUID,
    watcher: Watcher | None = None,
    stop: threading.Event | None = None,
) -> Solved:
    """Do a queued run to its end, and return its plan.

    Parameters
    ----------
    tools
        Database, planner, writer, clock.
    plan_id
        The run.
    watcher
        Told what is found, as it is found and after it is stored.
    stop
        Once set, the search ends early, with the best it has; default: ``tools.stop``.

    Raises
    ------
    SolveError
        There is no plan; the run is marked as failed with the same message.
    """
    return _Run(tools, plan_id, watcher or Watcher(), stop or tools.stop).to_end()


def settle_lost_runs(database: Database, now: Now) -> None:
    """Mark runs as failed whose program ended without a word."""
    with database.writing() as unit:
        for plan_id in unit.runs.silent_since(now() - LOST_AFTER):
            unit.runs.end(
                plan_id,
                now(),
                error=PROGRAM_ENDED,
                note=None,
            )
        unit.commit()


class _Run:
    def __init__(
        self, tools: RunTools, plan_id: uuid.UUID, watcher: Watcher, stop: threading.Event
    ) -> None:
        self._tools = tools
        self._plan_id = plan_id
        self._watcher = watcher
        self._stop = stop
        self._notes: list[str] = []

    def to_end(self) -> Solved:
        order = self._begin()
        try:
            solved = solve(
                order,
                self._tools.make,
                on_first=self._first,
                on_progress=self._progress,
                stop=self._stop,
            )
        except SolveError as error:
            _log.error("plan %s failed: %s\n%s", self._plan_id, error, error.details)
            self._end(str(error))
            raise
        except BaseException:
            self._end(PROGRAM_INTERRUPTED)
            raise
        self._keep(solved.made)
        self._write(solved.made, whole=True)
        if not solved.finished:
            self._notes.append(STOPPED_EARLY)
        self._end(None)
        return solved

    def _begin(self) -> Order:
        with self._tools.database.reading() as unit:
            version_id, date, choices = unit.plans.inputs(self._plan_id)
            document = unit.kitchens.version(version_id).document
            now = self._tools.now()
            rest = move_order(unit, self._plan_id, now)
            if rest is None:
                rest = rest_order(unit, self._plan_id, date, now)
            near = None if rest is not None else near_order(unit, self._plan_id)
            slug = unit.plans.kitchen_of(self._plan_id)
            learned = learned_before(unit, slug, document, date)
        with self._tools.database.writing() as unit:
            unit.runs.start(self._plan_id, self._tools.now())
            unit.commit()
        return Order(document, date, choices, rest, near, learned)

    def _first(self, made: Made) -> None:
        self._keep(made)
        self._watcher.on_first(made)
        self._write(made, whole=False)

    def _progress(self, progress: Progress) -> None:
        with self._tools.database.writing() as unit:
            unit.runs.step(self._plan_id, progress, self._tools.now())
            unit.commit()
        self._watcher.on_progress(progress)

    def _keep(self, made: Made) -> None:
        with self._tools.database.writing() as unit:
            unit.runs.keep(self._plan_id, made.texts, self._tools.now())
            unit.commit()

    def _write(self, made: Made, *, whole: bool) -> None:
        try:
            self._tools.write(self._plan_id, made, whole)
        except OSError as error:
            # The plan itself is stored and can be read; only its files are missing.
            self._notes.append(no_files(error))

    def _end(self, error: str | None) -> None:
        note = " ".join(dict.fromkeys(self._notes)) or None
        with self._tools.database.writing() as unit:
            unit.runs.end(self._plan_id, self._tools.now(), error=error, note=note)
            unit.commit()
