"""One what-if, planned beside the kitchen as it is in a process of its own."""

import datetime as dt
import logging
import threading
import traceback
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.synchronize import Event

from planner.kitchen.document import Kitchen
from planner.whatif.compare import Comparison
from service.processes import There, leave_the_terminal, started
from service.stored_words import TRY_FAILED, TRY_OUT_OF_MEMORY
from service.values import PlanChoices, WhatIfState

_LOOK_SECONDS = 0.1
SEARCHES = 4
"""Of one comparison: each kitchen anew, and once from there."""
_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class WhatIf:
    """A changed kitchen beside the kitchen as it is, both as they came out of a check."""

    as_it_is: Kitchen
    changed: Kitchen
    date: dt.date
    choices: PlanChoices


MakeComparison = Callable[[WhatIf], Comparison]
"""A function of a module, since it runs in a process of its own."""


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


@dataclass(frozen=True, slots=True)
class Nothing:
    """There will be no comparison, and why."""

    state: WhatIfState
    error: str


Answer = Comparison | Nothing


def compared(what_if: WhatIf, make: MakeComparison, stop: threading.Event) -> Answer | None:
    """Have it compared; None where ``stop`` was set before it was done."""
    with started(_compare, make, what_if) as there:
        return _answer(there, stop)


def _answer(there: There, stop: threading.Event) -> Answer | None:
    while not stop.is_set():
        try:
            if there.connection.poll(_LOOK_SECONDS):
                answer: Answer = there.connection.recv()
                return answer
        except EOFError:
            return Nothing(WhatIfState.FAILED, TRY_OUT_OF_MEMORY)
    return None


def _compare(connection: Connection, asked: Event, make: MakeComparison, what_if: WhatIf) -> None:
    """Compare, over there; nothing worth having comes of half a comparison, so it is just ended."""
    del asked
    leave_the_terminal()
    answer: Answer
    try:
        answer = make(what_if)
    except ValueError as error:
        answer = Nothing(WhatIfState.REFUSED, str(error))
    except Exception:  # noqa: BLE001 - whatever it is, who asked must be told
        _log.error("%s", traceback.format_exc())
        answer = Nothing(WhatIfState.FAILED, TRY_FAILED)
    with suppress(OSError):  # Nobody listens any more where it was stopped.
        connection.send(answer)
