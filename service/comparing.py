"""What-ifs of a day, each planned beside the kitchen as it is in a process of its own."""

import datetime as dt
import logging
import queue
import threading
import traceback
import uuid
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from multiprocessing.connection import Connection
from multiprocessing.synchronize import Event

from planner.kitchen.document import Kitchen
from planner.whatif.compare import Comparison
from service.processes import There, leave_the_terminal, started
from service.stored_words import TRY_ENDED, TRY_FAILED, TRY_OUT_OF_MEMORY
from service.values import PlanChoices
from web.chef.compare_view import Otherwise

_LOOK_SECONDS = 0.1
SEARCHES = 4
"""Of one comparison: each kitchen anew, and once from there."""
_KEPT = 60
"""What-ifs at hand; the oldest go first."""
_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class WhatIf:
    """A changed kitchen beside the kitchen as it is, both as they came out of a check."""

    otherwise: Otherwise
    as_it_is: Kitchen
    changed: Kitchen
    date: dt.date
    choices: PlanChoices


MakeComparison = Callable[[WhatIf], Comparison]
"""A function of a module, since it runs in a process of its own."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A what-if that was asked for: done once ``found`` or ``error`` is there."""

    id: uuid.UUID
    plan_id: uuid.UUID
    otherwise: Otherwise
    running: bool = False
    found: Comparison | None = None
    error: str = ""

    @property
    def ended(self) -> bool:
        """Nothing more will come of it."""
        return self.found is not None or bool(self.error)


def compare_kitchens(what_if: WhatIf) -> Comparison:
    """Plan both with planner's own search.

    Raises
    ------
    ValueError
        One of them cannot be planned on that day; says why.
    """
    # Imported here, in the process that plans.
    from planner.morning import PlanOptions  # noqa: PLC0415
    from planner.whatif.compare import compare  # noqa: PLC0415

    chosen = what_if.choices
    options = PlanOptions(chosen.seconds, chosen.deterministic_limit, chosen.seed, chosen.workers)
    return compare(what_if.as_it_is, what_if.changed, what_if.date, options)


class Comparisons:
    """Does what-ifs one after the other, and keeps what came of them while the program runs.

    They are a look ahead, not a record: nothing of them is stored.

    Parameters
    ----------
    make
        Plans both kitchens and compares them.
    """

    def __init__(self, make: MakeComparison = compare_kitchens) -> None:
        self._make = make
        self._lock = threading.Lock()
        self._asked: dict[uuid.UUID, Asked] = {}
        self._waiting: queue.SimpleQueue[tuple[uuid.UUID, WhatIf] | None] = queue.SimpleQueue()
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._work, name="what-ifs", daemon=True)

    def start(self) -> None:
        """Begin to work."""
        self._thread.start()

    def stop(self) -> None:
        """End what is in hand, and return when its process has ended."""
        self._stop.set()
        self._waiting.put(None)
        self._thread.join()

    def ask(self, plan_id: uuid.UUID, what_if: WhatIf) -> Asked:
        """Take a what-if of a plan. One that was asked for already, and did not fail, is not
        planned again.
        """
        with self._lock:
            for one in self._asked.values():
                same = (one.plan_id, one.otherwise) == (plan_id, what_if.otherwise)
                if same and not one.error:
                    return one
            asked = Asked(uuid.uuid4(), plan_id, what_if.otherwise)
            self._asked[asked.id] = asked
            ended = [one.id for one in self._asked.values() if one.ended]
            for old in ended[: max(0, len(self._asked) - _KEPT)]:
                del self._asked[old]
        self._waiting.put((asked.id, what_if))
        return asked

    def of(self, plan_id: uuid.UUID) -> tuple[Asked, ...]:
        """What was asked of a plan, in the order it was asked."""
        with self._lock:
            return tuple(one for one in self._asked.values() if one.plan_id == plan_id)

    def _work(self) -> None:
        while (waiting := self._waiting.get()) is not None and not self._stop.is_set():
            key, what_if = waiting
            self._note(key, running=True)
            try:
                self._note(key, running=False, found=_compared(what_if, self._make, self._stop))
            except _ComparingError as error:
                self._note(key, running=False, error=str(error))
            except Exception:  # noqa: BLE001 - the next one must still be done
                _log.exception("a what-if could not be compared")
                self._note(key, running=False, error=TRY_FAILED)

    def _note(
        self, key: uuid.UUID, *, running: bool, found: Comparison | None = None, error: str = ""
    ) -> None:
        with self._lock:
            asked = self._asked[key]
            self._asked[key] = replace(asked, running=running, found=found, error=error)


class _ComparingError(Exception):
    """There will be no comparison; the message says why."""


def _compared(what_if: WhatIf, make: MakeComparison, stop: threading.Event) -> Comparison:
    with started(_compare, make, what_if) as there:
        message = _answer(there, stop)
    if isinstance(message, Comparison):
        return message
    raise _ComparingError(message)


def _answer(there: There, stop: threading.Event) -> Comparison | str:
    while not stop.is_set():
        try:
            if there.connection.poll(_LOOK_SECONDS):
                answer: Comparison | str = there.connection.recv()
                return answer
        except EOFError:
            return TRY_OUT_OF_MEMORY
    return TRY_ENDED


def _compare(connection: Connection, asked: Event, make: MakeComparison, what_if: WhatIf) -> None:
    """Compare, over there; nothing worth having comes of half a comparison, so it is just ended."""
    del asked
    leave_the_terminal()
    answer: Comparison | str
    try:
        answer = make(what_if)
    except ValueError as error:
        answer = str(error)
    except Exception:  # noqa: BLE001 - whatever it is, who asked must be told
        _log.error("%s", traceback.format_exc())
        answer = TRY_FAILED
    with suppress(OSError):  # Nobody listens any more where it was stopped.
        connection.send(answer)
