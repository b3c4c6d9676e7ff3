"""Run the search in a process of its own: it can be stopped, and a crash takes nothing with it.

The process first sends the plan of the constructive rules, there within seconds, then every
improvement's score, then the plan it ended with.
"""

import datetime as dt
import threading
import time
import traceback
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.synchronize import Event

from planner.kitchen.reading import KitchenErrors, read_kitchen
from planner.rates.types import SkillRates
from planner.schedule.timetable import Progress
from service.nearby import NearOrder, make_near, read_near, with_notes
from service.planning import Made, MakePlan, OnProgress, StopPlanning, with_chances
from service.processes import STOP_SECONDS, There, leave_the_terminal, started
from service.replanning import RestOrder, make_rest
from service.stored_words import STOPPED_BEFORE, program_failed, search_ended, search_silent
from service.values import PlanChoices

_LOOK_SECONDS = 0.1
_GRACE_SECONDS = 3.0


class SolveError(Exception):
    """There will be no plan; the message says why and what to do."""

    def __init__(self, message: str, details: str = "", *, refused: bool = False) -> None:
        super().__init__(message)
        self.details = details
        """The traceback, for whoever mends the program."""
        self.refused = refused
        """The kitchen or the day cannot be planned: nothing is wrong with the program."""


class StoppedError(SolveError):
    """It was stopped before it had a plan."""

    def __init__(self) -> None:
        super().__init__(STOPPED_BEFORE)


@dataclass(frozen=True, slots=True)
class Order:
    """What to plan: all that a process of its own, here or elsewhere, needs to know."""

    kitchen: bytes
    date: dt.date
    choices: PlanChoices
    rest: RestOrder | None = None
    """Where the day is planned anew from; None: from its start."""
    near: NearOrder | None = None
    """What a day from its start is planned beside."""
    learned: tuple[SkillRates, ...] = ()
    """What ticks have taught of rates: how sure a service is of being ready follows from it."""


@dataclass(frozen=True, slots=True)
class Solved:
    """The plan, and whether the search ran to its end."""

    made: Made
    finished: bool


@dataclass(frozen=True, slots=True)
class _Last:
    made: Made


@dataclass(frozen=True, slots=True)
class _Broken:
    message: str
    details: str
    refused: bool


_Message = Progress | Made | _Last | _Broken


def solve(
    order: Order,
    make: MakePlan,
    *,
    on_first: Callable[[Made], None],
    on_progress: Callable[[Progress], None],
    stop: threading.Event,
) -> Solved:
    """Plan in a process of its own and return when it has ended.

    Parameters
    ----------
    order
        What to plan.
    make
        Makes the plan, over there; picklable.
    on_first
        Called here with the plan of the constructive rules.
    on_progress
        Called here with every improvement.
    stop
        Once set, the process is asked for the best plan it has; if it does not answer soon it is
        ended, and the first plan, if there is one, returned.

    Raises
    ------
    SolveError
        The kitchen file is bad, the process crashed, hangs, or was stopped before its first plan.
    """
    if stop.is_set():
        raise StoppedError
    first: Made | None = None
    with started(_work, make, order) as there:
        for message in _messages(there, stop, _patience(order.choices)):
            match message:
                case Progress():
                    on_progress(message)
                case Made():
                    first = message
                    on_first(message)
                case _Last():
                    return Solved(message.made, finished=not there.asked.is_set())
                case _Broken():
                    raise SolveError(message.message, message.details, refused=message.refused)
    if first is None:
        raise StoppedError
    return Solved(first, finished=False)


def _messages(there: There, stop: threading.Event, patience: float) -> Iterator[_Message]:
    deadline = time.monotonic() + patience
    while True:
        if stop.is_set() and not there.asked.is_set():
            there.asked.set()
            deadline = time.monotonic() + _GRACE_SECONDS
        if time.monotonic() > deadline:
            if there.asked.is_set():
                return
            raise SolveError(search_silent(patience))
        try:
            if there.connection.poll(_LOOK_SECONDS):
                yield there.connection.recv()
        except EOFError:
            if there.asked.is_set():
                return
            there.process.join(STOP_SECONDS)
            raise SolveError(search_ended(there.process.exitcode)) from None


def _patience(choices: PlanChoices) -> float:
    """Seconds after which a search counts as hanging: its own time many times over."""
    return 120 + 10 * (choices.deterministic_limit or choices.seconds)


def _work(connection: Connection, asked: Event, make: MakePlan, order: Order) -> None:
    """Plan, over there."""
    leave_the_terminal()
    try:
        kitchen = read_kitchen(order.kitchen)
        if order.rest is not None:
            first = make_rest(kitchen, order.rest, order.choices.first_only, order.learned)
            connection.send(first)
            connection.send(Progress(0.0, first.plan.solution.score, "repaired"))
            if asked.is_set():
                return
            last = make_rest(kitchen, order.rest, order.choices, order.learned)
            connection.send(
                Progress(last.plan.solution.seconds, last.plan.solution.score, "search")
            )
            connection.send(_Last(last))
            return
        near = read_near(order.near)

        def plan(choices: PlanChoices, told: OnProgress | None = None) -> Made:
            if near.empty:
                return with_notes(make(kitchen, order.date, choices, told), near.notes)
            return with_notes(make_near(kitchen, order.date, choices, near, told), near.notes)

        first = plan(order.choices.first_only)
        connection.send(first)
        best = first.plan.solution.score

        def report(progress: Progress) -> None:
            nonlocal best
            # The search begins with the same rules again: only what is better is news.
            if progress.score < best:
                best = progress.score
                connection.send(progress)
            if asked.is_set():
                raise StopPlanning

        for found in first.plan.solution.history[-1:]:
            connection.send(found)
        made = plan(order.choices, report)
        connection.send(
            _Last(with_chances(kitchen, made, order.learned) if order.learned else made)
        )
    except StopPlanning:
        return  # It ended without a plan of its own: the first one stands.
    except (KitchenErrors, ValueError) as error:
        _send_last(connection, str(error), refused=True)
    except Exception as error:  # noqa: BLE001 - whatever it is, the run must be told
        _send_last(
            connection,
            program_failed(error),
            refused=False,
        )


def _send_last(connection: Connection, message: str, *, refused: bool) -> None:
    with suppress(OSError):  # Nobody listens any more where the run was stopped.
        connection.send(_Broken(message, traceback.format_exc(), refused))
