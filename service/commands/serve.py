"""``serve``: the pages and the API, until Ctrl-C."""

import errno
import gc
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress

import uvicorn
from fastapi import FastAPI

from service.addresses import address, names_on
from service.app import create_app
from service.clock import utc_now
from service.commands.exits import Exit
from service.commands.output import say, warn
from service.errors import UserError
from service.planning import MakePlan
from service.settings import Settings
from service.tls import Certificates, certificates

_LAST_SECONDS = 2
"""For answers under way when it ends: pages that listen for changes would never hang up."""


def serve(settings: Settings, make: MakePlan) -> Exit:
    """Serve until interrupted."""
    with listen(settings) as listener:
        serve_on(listener, create_app(settings, make), settings)
    return Exit.ON_TIME


def listen(settings: Settings) -> socket.socket:
    """Take the port; raises as :func:`_take`."""
    return _take(settings, "PREPWRIGHT_PORT", settings.port)


def _take(settings: Settings, name: str, port: int) -> socket.socket:
    """Take a port that the setting ``name`` gives.

    Raises
    ------
    UserError
        It is taken already, not allowed, or the host is not this machine's.
    """
    family = socket.AF_INET6 if ":" in settings.host else socket.AF_INET
    try:
        listener = socket.create_server((settings.host, port), family=family)
    except OSError as error:
        if error.errno == errno.EADDRINUSE:
            raise UserError(
                f"{name}: {port}: another program uses it. End that program, or "
                f"set {name} to another port, such as {port + 1}."
            ) from None
        if error.errno == errno.EACCES:
            raise UserError(
                f"{name}: {port}: it is reserved for the system. "
                f"Set {name} to one above 1023, such as 8000."
            ) from None
        raise UserError(
            f"PREPWRIGHT_HOST: {settings.host}: this machine cannot serve on it "
            f"({error.strerror}). Set PREPWRIGHT_HOST to 127.0.0.1."
        ) from None
    # What is written in two parts is sent as it is: else the second waits for the first to be
    # acknowledged, some 40 ms. The event loop does so by itself only for sockets made otherwise.
    listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    return listener


def address_of(listener: socket.socket, settings: Settings, scheme: str = "http") -> str:
    """The address of the first page, as this machine or, where they may, others reach it."""
    name = settings.host
    if name in ("0.0.0.0", "::"):  # noqa: S104 - what a setting says, not what is bound here
        name = names_on(settings)[0]
    return address(scheme, name, listener.getsockname()[1])


def serve_on(listener: socket.socket, app: FastAPI, settings: Settings) -> None:
    """Serve ``app`` until interrupted, with HTTPS too where the settings say so."""
    if settings.open_to_others:
        warn(
            f"PREPWRIGHT_HOST: {settings.host}: others on the network can read and change plans: "
            "there is no sign-in. Put a proxy with its own in front, or use 127.0.0.1."
        )
    say(f"Serving at {address_of(listener, settings)} (Ctrl-C ends it)")
    keep_what_is_loaded()
    with _tls_too(app, settings), suppress(KeyboardInterrupt):
        uvicorn.Server(_config(app)).run(sockets=[listener])


def keep_what_is_loaded() -> None:
    """Have the garbage collector leave alone what stays for good.

    Modules and tables loaded by now are some hundred thousand objects; looking through them each
    time holds a page up by more than it takes to make.
    """
    gc.collect()
    gc.freeze()


@contextmanager
def _tls_too(app: FastAPI, settings: Settings) -> Iterator[None]:
    """Serve with HTTPS in a thread beside, which ends with what is within."""
    if settings.tls_port is None:
        yield
        return
    try:
        made = certificates(settings.tls_dir, names_on(settings), utc_now)
    except OSError as error:
        raise UserError(
            f"PREPWRIGHT_DATA_DIR: {error.filename}: the certificates cannot be kept "
            f"({error.strerror}). Make the folder writable."
        ) from None
    with _take(settings, "PREPWRIGHT_TLS_PORT", settings.tls_port) as listener:
        server = uvicorn.Server(_config(app, made))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, name="https")
        thread.start()
        say(f"With HTTPS at {address_of(listener, settings, 'https')}")
        say(f"Phones are to trust {made.authority}, once each")
        try:
            yield
        finally:
            server.should_exit = True
            thread.join()


def _config(app: FastAPI, tls: Certificates | None = None) -> uvicorn.Config:
    return uvicorn.Config(
        app,
        log_level="warning",
        server_header=False,
        proxy_headers=False,
        timeout_graceful_shutdown=_LAST_SECONDS,
        ssl_certfile=None if tls is None else tls.chain,
        ssl_keyfile=None if tls is None else tls.key,
        # The application begins and ends once, with the server that has no thread of its own.
        lifespan="on" if tls is None else "off",
    )
