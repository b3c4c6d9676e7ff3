"""Ctrl-C as a wish to stop, not as an accident."""

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType


@contextmanager
def stop_on_interrupt(stop: threading.Event) -> Iterator[None]:
    """Let the first Ctrl-C set ``stop``; a second one interrupts as usual."""

    def on_interrupt(number: int, frame: FrameType | None) -> None:
        del number, frame
        signal.signal(signal.SIGINT, before)
        stop.set()

    before = signal.getsignal(signal.SIGINT)
    signal.signal(signal.SIGINT, on_interrupt)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
