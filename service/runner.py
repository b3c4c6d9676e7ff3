"""Does the runs that are asked for, one after the other, in the background of a server.

A queue of its own would take this place where one machine is not enough: whatever has ``submit``.
"""

import logging
import queue
import threading
import uuid

from service.solving import SolveError
from service.usecases.running import RunTools, run_plan, settle_lost_runs

_BEAT_SECONDS = 5.0
_log = logging.getLogger(__name__)


class Runner:
    """Takes runs and does them, one at a time.

    Parameters
    ----------
    tools
        What a run needs. Its ``stop`` is set when this stops.
    beat_seconds
        How often to tell the database that this lives, and to look for runs of programs that do
        not any more.
    """

    def __init__(self, tools: RunTools, beat_seconds: float = _BEAT_SECONDS) -> None:
        self._tools = tools
        self._beat_seconds = beat_seconds
        self._waiting: queue.SimpleQueue[uuid.UUID | None] = queue.SimpleQueue()
        self._mine: set[uuid.UUID] = set()
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
        self._mine.add(plan_id)
        self._waiting.put(plan_id)

    def stop(self) -> None:
        """End the run in hand and return when its state is stored; runs that wait are failed."""
        self._tools.stop.set()
        self._waiting.put(None)
        for thread in self._threads:
            thread.join()

    def _work(self) -> None:
        while (plan_id := self._waiting.get()) is not None:
            try:
                run_plan(self._tools, plan_id)
            except SolveError:
                pass  # It is logged and stored with the run.
            except Exception:  # noqa: BLE001 - the next run must still be done
                _log.exception("plan %s could not be done", plan_id)
            finally:
                self._mine.discard(plan_id)

    def _beat(self) -> None:
        while not self._tools.stop.is_set():
            try:
                with self._tools.database.writing() as unit:
                    unit.runs.beat(tuple(self._mine), self._tools.now())
                    unit.commit()
                settle_lost_runs(self._tools.database, self._tools.now)
            except Exception:  # noqa: BLE001 - the next beat may succeed
                _log.exception("the heartbeat failed; it is tried again")
            self._tools.stop.wait(self._beat_seconds)
