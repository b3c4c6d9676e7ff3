"""What every request passes on its way in: for whom it is, from where, how large."""

from http import HTTPStatus

from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.api.problems import answer
from service.errors import Fault
from web.language import _

BODY_LIMIT = 5_000_000
"""Bytes. As much as a kitchen file may have."""

_SAFE = frozenset({"GET", "HEAD", "OPTIONS"})


class RequestGuard:
    """Refuses requests for other hosts, from other sites' pages, and too large ones.

    Without sign-in, the host name is what keeps a web page elsewhere from reading this server: a
    name of its own that it points at the loopback address is not on the list.

    Parameters
    ----------
    app
        What is guarded.
    hosts
        Host names, without port, that requests may carry.
    """

    def __init__(self, app: ASGIApp, hosts: frozenset[str]) -> None:
        self._app = app
        self._hosts = hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refusal = self._refusal(scope["method"], headers)
        if refusal is None:
            await self._app(scope, _counted(receive), send)
            return
        status, fault = refusal
        response = answer(scope, status, str(fault), (fault,))
        await response(scope, receive, send)

    def _refusal(self, method: str, headers: Headers) -> tuple[HTTPStatus, Fault] | None:
        host = headers.get("host", "")
        if _name(host) not in self._hosts:
            return HTTPStatus.MISDIRECTED_REQUEST, Fault(
                "Host",
                host[:60],
                _("this server does not answer for that name"),
                _("Add it to PREPWRIGHT_ALLOWED_HOSTS if it is yours"),
            )
        site = headers.get("sec-fetch-site", "none")
        if method not in _SAFE and site not in ("same-origin", "none"):
            return HTTPStatus.FORBIDDEN, Fault(
                "Sec-Fetch-Site",
                site[:60],
                _("another site's page may not change anything here"),
                _("Send it from a page of this server or from a program"),
            )
        length = headers.get("content-length", "0")
        if not length.isdecimal():
            return HTTPStatus.BAD_REQUEST, Fault(
                "Content-Length",
                length[:60],
                _("this is no length"),
                _("Send a whole number of bytes"),
            )
        if int(length) > BODY_LIMIT:
            return HTTPStatus.REQUEST_ENTITY_TOO_LARGE, Fault(
                "Content-Length", length[:60], *_too_large()
            )
        return None


def _too_large() -> tuple[str, str]:
    return _("the body is too large"), _("Send at most %(n)s bytes", n=BODY_LIMIT)


def _counted(receive: Receive) -> Receive:
    """``receive`` that gives up once more has come than may: a length can be left out."""
    received = 0

    async def counting() -> Message:
        nonlocal received
        message = await receive()
        received += len(message.get("body", b""))
        if received > BODY_LIMIT:
            raise HTTPException(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, ". ".join(_too_large()))
        return message

    return counting


def _name(host: str) -> str:
    """The name in a Host header, without port and without an IPv6 address's brackets."""
    name = host.lower()
    if name.startswith("["):
        return name[1:].partition("]")[0]
    return name.partition(":")[0]
