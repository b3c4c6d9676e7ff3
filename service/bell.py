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
        self._kept: dict[str, object] = {}
        self._rings = 0

    def ring(self, topic: str) -> None:
        """Wake everybody who listens to ``topic``."""
        with self._lock:
            self._kept.pop(topic, None)
            self._rings += 1
            listeners = tuple(self._listeners.get(topic, ()))
        for loop, event in listeners:
            loop.call_soon_threadsafe(event.set)

    @property
    def rings(self) -> int:
        """How often anything has rung."""
        return self._rings

    def keep(self, topic: str, said: object, rings: int) -> None:
        """Keep what listeners are told, so that one of them reads it for all, until the next ring.

        Nothing is kept where something has rung since there were ``rings``: it may be old.
        """
        with self._lock:
            if topic in self._listeners and rings == self._rings:
                self._kept[topic] = said

    def kept(self, topic: str) -> object | None:
        """What is kept of a topic since it last rang."""
        return self._kept.get(topic)

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
                    self._kept.pop(topic, None)
