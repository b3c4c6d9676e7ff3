"""Tells those who listen that something has changed, from any thread, within one server."""

import asyncio
import threading
import uuid
from collections import defaultdict
from collections.abc import Iterator
from contextlib import contextmanager


def plan_topic(plan_id: uuid.UUID) -> str:
    """What rings when something new of a run is stored."""
    return f"plan/{plan_id}"


class Bell:
    """Rings by topic. A ring that comes while nobody waits is heard at the next wait."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._listeners: dict[str, set[tuple[asyncio.AbstractEventLoop, asyncio.Event]]] = (
            defaultdict(set)
        )

    def ring(self, topic: str) -> None:
        """Wake everybody who listens to ``topic``."""
        with self._lock:
            listeners = tuple(self._listeners.get(topic, ()))
        for loop, event in listeners:
            loop.call_soon_threadsafe(event.set)

    @contextmanager
    def listening(self, topic: str) -> Iterator[asyncio.Event]:
        """An event that is set whenever ``topic`` rings; whoever waits clears it first."""
        listener = (asyncio.get_running_loop(), asyncio.Event())
        with self._lock:
            self._listeners[topic].add(listener)
        try:
            yield listener[1]
        finally:
            with self._lock:
                self._listeners[topic].discard(listener)
                if not self._listeners[topic]:
                    del self._listeners[topic]
