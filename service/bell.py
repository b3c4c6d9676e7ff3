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
        self._said: dict[str, tuple[int, ...]] = {}

    def ring(self, topic: str, said: tuple[int, ...] | None = None) -> None:
        """Wake everybody who listens to ``topic``.

        ``said`` is what they are told, so that none of them has to read it; of two that ring at
        once the larger counts.
        """
        with self._lock:
            before = self._said.pop(topic, None)
            listeners = tuple(self._listeners.get(topic, ()))
            if said is not None and listeners:
                self._said[topic] = said if before is None else max(before, said)
        for loop, event in listeners:
            loop.call_soon_threadsafe(event.set)

    def said(self, topic: str) -> tuple[int, ...] | None:
        """What was said when the topic last rang, where it was and somebody listened."""
        return self._said.get(topic)

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
                    self._said.pop(topic, None)
