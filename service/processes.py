"""Processes for work that takes long: begun so that they can be asked to end, and always ended."""

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from multiprocessing.synchronize import Event

STOP_SECONDS = 3.0
"""For a process to end once it is told to."""


@dataclass(frozen=True, slots=True)
class There:
    """A process, as seen from here; ``asked`` tells it to come to an end."""

    process: BaseProcess
    connection: Connection
    asked: Event


@contextmanager
def started(work: Callable[..., None], *orders: object) -> Iterator[There]:
    """Run ``work`` in a process of its own, which is ended at the latest when this is left.

    It is called there with the connection on which it answers, the event that asks it to end, and
    ``orders``. All of them, and ``work`` itself, can be pickled.
    """
    # Spawned, not forked: a fork would carry along threads, locks and the database's connections.
    context = multiprocessing.get_context("spawn")
    here, there = context.Pipe(duplex=False)
    asked = context.Event()
    process = context.Process(target=work, args=(there, asked, *orders), daemon=True)
    try:
        with _interrupts_held_back():
            process.start()
        there.close()
        yield There(process, here, asked)
    finally:
        _end(process)
        here.close()


def leave_the_terminal() -> None:
    """Let Ctrl-C reach only the process that asked for this one.

    Ignoring the signal would not do: the solver's library takes it over, and then ends by it.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "setsid"):
        os.setsid()


def _end(process: BaseProcess) -> None:
    if process.pid is None:
        return
    for end in (process.terminate, process.kill):
        if process.is_alive():
            end()
            process.join(STOP_SECONDS)
    process.join()
    process.close()


@contextmanager
def _interrupts_held_back() -> Iterator[None]:
    """Let a process begin that leaves Ctrl-C to this one: it goes to both.

    A signal that is held back is inherited as such, and reaches this process when it is let go
    again; one that is ignored meanwhile would be lost.
    """
    if not hasattr(signal, "pthread_sigmask"):  # Windows: the new process ignores it by itself
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
