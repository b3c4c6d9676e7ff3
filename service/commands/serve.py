"""``serve``: the pages and the API, until Ctrl-C."""

import errno
import socket
from contextlib import suppress

import uvicorn
from fastapi import FastAPI

from service.app import create_app
from service.commands.exits import Exit
from service.commands.output import say, warn
from service.errors import UserError
from service.planning import MakePlan
from service.settings import LOOPBACK, Settings

_LAST_SECONDS = 2
"""For answers under way when it ends: pages that listen for changes would never hang up."""


def serve(settings: Settings, make: MakePlan) -> Exit:
    """Serve until interrupted."""
    with listen(settings) as listener:
        serve_on(listener, create_app(settings, make), settings)
    return Exit.ON_TIME


def listen(settings: Settings) -> socket.socket:
    """Take the port.

    Raises
    ------
    UserError
        It is taken already, not allowed, or the host is not this machine's.
    """
    family = socket.AF_INET6 if ":" in settings.host else socket.AF_INET
    try:
        return socket.create_server((settings.host, settings.port), family=family)
    except OSError as error:
        if error.errno == errno.EADDRINUSE:
            raise UserError(
                f"PREPWRIGHT_PORT: {settings.port}: another program uses it. End that program, or "
                f"set PREPWRIGHT_PORT to another port, such as {settings.port + 1}."
            ) from None
        if error.errno == errno.EACCES:
            raise UserError(
                f"PREPWRIGHT_PORT: {settings.port}: it is reserved for the system. "
                "Set PREPWRIGHT_PORT to one above 1023, such as 8000."
            ) from None
        raise UserError(
            f"PREPWRIGHT_HOST: {settings.host}: this machine cannot serve on it "
            f"({error.strerror}). Set PREPWRIGHT_HOST to 127.0.0.1."
        ) from None


def address_of(listener: socket.socket, settings: Settings) -> str:
    """The address of the first page."""
    host = f"[{settings.host}]" if ":" in settings.host else settings.host
    return f"http://{host}:{listener.getsockname()[1]}/"


def serve_on(listener: socket.socket, app: FastAPI, settings: Settings) -> None:
    """Serve ``app`` until interrupted."""
    if settings.host not in LOOPBACK:
        warn(
            f"PREPWRIGHT_HOST: {settings.host}: others on the network can read and change plans: "
            "there is no sign-in. Put a proxy with its own in front, or use 127.0.0.1."
        )
    say(f"Serving at {address_of(listener, settings)} (Ctrl-C ends it)")
    config = uvicorn.Config(
        app,
        log_level="warning",
        server_header=False,
        proxy_headers=False,
        timeout_graceful_shutdown=_LAST_SECONDS,
    )
    with suppress(KeyboardInterrupt):
        uvicorn.Server(config).run(sockets=[listener])
