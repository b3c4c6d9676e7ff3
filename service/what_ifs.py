"""Does the what-ifs that are asked for, one after the other, in the background of a server."""

import logging
import queue
import threading
import uuid
from contextlib import suppress
from dataclasses import dataclass

from planner.whatif.compare import Comparison
from service.comparing import MakeComparison, Nothing, WhatIf, compare_kitchens, compared
from service.db.unit_of_work import Database
from service.stored_words import TRY_FAILED
from service.values import WhatIfState

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class _Work:
    key: uuid.UUID
    what_if: WhatIf
    stop: threading.Event


class Comparisons:
    """Does what-ifs that are stored, one after the other, and stores what comes of them.

    What waits is waited for here: what a program leaves undone is not taken up by the next one,
    which marks it as cut off when it starts.

    Parameters
    ----------
    database
        Where they are stored.
    make
        Plans both kitchens and compares them.
    """

    def __init__(self, database: Database, make: MakeComparison = compare_kitchens) -> None:
        self._database = database
        self._make = make
        self._lock = threading.Lock()
        self._stops: dict[uuid.UUID, threading.Event] = {}
        self._waiting: queue.SimpleQueue[_Work | None] = queue.SimpleQueue()
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._work, name="what-ifs", daemon=True)

    def start(self) -> None:
        """Settle what an earlier program left, and begin to work."""
        self._cut_off()
        self._thread.start()

    def stop(self) -> None:
        """End what is in hand, and return when its process has ended; what waits is cut off."""
        with self._lock:
            self._stop.set()
            for stop in self._stops.values():
                stop.set()
        self._waiting.put(None)
        self._thread.join()
        self._cut_off()

    def submit(self, key: uuid.UUID, what_if: WhatIf) -> None:
        """Take a stored what-if that waits."""
        stop = threading.Event()
        with self._lock:
            self._stops[key] = stop
            if self._stop.is_set():
                stop.set()
        self._waiting.put(_Work(key, what_if, stop))

    def drop(self, key: uuid.UUID) -> None:
        """End one that waits or is in hand; nothing of it is stored any more."""
        with self._lock:
            stop = self._stops.get(key)
        if stop is not None:
            stop.set()

    def _cut_off(self) -> None:
        with self._database.writing() as unit:
            unit.what_ifs.cut_off()
            unit.commit()

    def _work(self) -> None:
        while (waiting := self._waiting.get()) is not None and not self._stop.is_set():
            key = waiting.key
            try:
                self._do(key, waiting.what_if, waiting.stop)
            except Exception:  # noqa: BLE001 - the next one must still be done
                _log.exception("what-if %s could not be done", key)
                with suppress(Exception):
                    self._end(key, WhatIfState.FAILED, TRY_FAILED)
            finally:
                with self._lock:
                    # Asked again meanwhile, it has a stop of its own.
                    if self._stops[key] is waiting.stop:
                        del self._stops[key]

    def _do(self, key: uuid.UUID, what_if: WhatIf, stop: threading.Event) -> None:
        with self._database.writing() as unit:
            there = unit.what_ifs.start(key)
            unit.commit()
        if not there:
            return
        answer = compared(what_if, self._make, stop)
        match answer:
            case Comparison():
                with self._database.writing() as unit:
                    unit.what_ifs.keep(key, answer)
                    unit.commit()
            case Nothing(state, error):
                self._end(key, state, error)
            case None:
                self._end(key, WhatIfState.CUT_OFF)

    def _end(self, key: uuid.UUID, state: WhatIfState, error: str = "") -> None:
        with self._database.writing() as unit:
            unit.what_ifs.end(key, state, error)
            unit.commit()
