"""Which methods an address answers to, over all of its routes."""

from fastapi import Request
from starlette.routing import Match, Mount

_METHODS = ("DELETE", "GET", "HEAD", "OPTIONS", "PATCH", "POST", "PUT")
_OF_FILES = frozenset({"GET", "HEAD"})


def allowed_methods(request: Request) -> str:
    """The Allow header of a request's address. Source: RFC 9110, 10.2.1 and 15.5.6."""
    # What a mounted part has taken off the path is put back: all routes are asked.
    scope = {**request.scope, "root_path": request.scope.get("app_root_path", "")}
    return ", ".join(
        method
        for method in _METHODS
        if any(
            route.matches({**scope, "method": method})[0] is Match.FULL
            and (method in _OF_FILES or not isinstance(route, Mount))
            for route in request.app.routes
        )
    )
