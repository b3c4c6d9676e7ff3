"""Does the runs that are asked for, one after the other, in the background of a server.

A queue of its own would take this place where one machine is not enough: whatever has ``submit``.
"""

import logging
import queue
import threading
import uuid
from collections.abc import Callable

from service.solving import SolveError
from service.usecases.running import RunTools, Watcher, run_plan, settle_lost_runs

_BEAT_SECONDS = 5.0
_log = logging.getLogger(__name__)


def _tell_nobody(plan_id: uuid.UUID) -> None:
    del plan_id


class Runner:
    """Takes runs and does them, one at a time.

    Parameters
    ----------
    tools
        What a run needs. Its ``stop`` is set when this stops.
    beat_seconds
        How often to tell the database that this lives, and to look for runs of programs that do
        not any more.
    tell
        Called with a run whenever something new of it is stored, in the thread that runs it.
    """

    def __init__(
        self,
        tools: RunTools,
        beat_seconds: float = _BEAT_SECONDS,
        tell: Callable[[uuid.UUID], None] = _tell_nobody,
    ) -> None:
        self._tools = tools
        self._tell = tell
        self._beat_seconds = beat_seconds
        self._waiting: queue.SimpleQueue[uuid.UUID | None] = queue.SimpleQueue()
        self._stops: dict[uuid.UUID, threading.Event] = {}
        self._lock = threading.Lock()
        self._threads = (
            threading.Thread(target=self._work, name="plans", daemon=True),
            threading.Thread(target=self._beat, name="heartbeat", daemon=True),
        )

    def start(self) -> None:
        """Begin to work."""
        for thread in self._threads:
            thread.start()

    def submit(self, plan_id: uuid.UUID) -> None:
        """Take a stored, queued run."""
        with self._lock:
            self._stops[plan_id] = threading.Event()
            if self._tools.stop.is_set():
                self._stops[plan_id].set()
        self._waiting.put(plan_id)

    def enough(self, plan_id: uuid.UUID) -> bool:
        """End one run with the best plan it has; False where it is not being done here."""
        with self._lock:
            stop = self._stops.get(plan_id)
        if stop is None:
            return False
        stop.set()
        self._tell(plan_id)
        return True

    def stopping(self, plan_id: uuid.UUID) -> bool:
        """Whether a run that is not over yet was asked to end."""
        with self._lock:
            stop = self._stops.get(plan_id)
        return stop is not None and stop.is_set()

    def stop(self) -> None:
        """End the run in hand and return when its state is stored; runs that wait are failed."""
        with self._lock:
            self._tools.stop.set()
            for stop in self._stops.values():
                stop.set()
        self._waiting.put(None)
        for thread in self._threads:
            thread.join()

    def _work(self) -> None:
        while (plan_id := self._waiting.get()) is not None:
            try:
                run_plan(self._tools, plan_id, self._watcher(plan_id), self._stops[plan_id])
            except SolveError:
                pass  # It is logged and stored with the run.
            except Exception:  # noqa: BLE001 - the next run must still be done
                _log.exception("plan %s could not be done", plan_id)
            finally:
                with self._lock:
                    del self._stops[plan_id]
                self._tell(plan_id)

    def _watcher(self, plan_id: uuid.UUID) -> Watcher:
        def tell(_: object) -> None:
            self._tell(plan_id)

        return Watcher(on_first=tell, on_progress=tell)

    def _beat(self) -> None:
        while not self._tools.stop.is_set():
            try:
                with self._lock:
                    mine = tuple(self._stops)
                with self._tools.database.writing() as unit:
                    unit.runs.beat(mine, self._tools.now())
                    unit.commit()
                settle_lost_runs(self._tools.database, self._tools.now)
            except Exception:  # noqa: BLE001 - the next beat may succeed
                _log.exception("the heartbeat failed; it is tried again")
            self._tools.stop.wait(self._beat_seconds)
