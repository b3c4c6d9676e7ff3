"""Errors as problem details, in one shape for all of them. Source: RFC 9457."""

import logging
import re
from collections.abc import Mapping
from dataclasses import replace
from http import HTTPStatus
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import HTMLResponse, Response
from pydantic import Field
from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.types import Scope

from planner.kitchen.reading import KitchenErrors
from service.api.headers import SECURITY_HEADERS
from service.api.methods import allowed_methods
from service.errors import (
    AskedError,
    ConflictError,
    Fault,
    InvalidError,
    NotFoundError,
    NothingMadeError,
    NotReadyError,
    RequestError,
    StaleError,
    WishError,
)
from service.values import Value
from web.language import _, ngettext
from web.links import Choice
from web.pages import render_problem
from web.reading import Reading, read_as
from web.sentences import said

MEDIA_TYPE = "application/problem+json"
_log = logging.getLogger(__name__)
_FLOOR = re.compile(r"/floor/(?P<slug>[a-z0-9-]+)/(?P<date>\d{4}-\d\d-\d\d)(?:/|$)")
_STATUS_OF: dict[type[RequestError], HTTPStatus] = {
    NotFoundError: HTTPStatus.NOT_FOUND,
    ConflictError: HTTPStatus.CONFLICT,
    StaleError: HTTPStatus.CONFLICT,
    AskedError: HTTPStatus.CONFLICT,
    WishError: HTTPStatus.UNPROCESSABLE_ENTITY,
    InvalidError: HTTPStatus.UNPROCESSABLE_ENTITY,
    NotReadyError: HTTPStatus.CONFLICT,
    NothingMadeError: HTTPStatus.CONFLICT,
}


class ProblemFault(Value):
    """One thing that is wrong."""

    path: str = Field(description="Where: a field, a header, or a place in the kitchen file.")
    value: str = Field(description="What stands there, shortened; empty where nothing does.")
    message: str = Field(description="What is wrong with it.")
    remedy: str = Field(description="What to do instead.")


class Problem(Value):
    """Why a request was not done. Source: RFC 9457, with ``errors`` added."""

    type: str = Field(
        default="about:blank",
        description="Kind of problem; 'about:blank' says no more than the status does.",
    )
    title: str = Field(description="The kind of problem in words.")
    status: int = Field(description="The HTTP status code, again.")
    detail: str = Field(description="What happened to this request, and what to do.")
    instance: str = Field(description="Path of the request.")
    errors: tuple[ProblemFault, ...] = Field(default=(), description="Everything wrong with it.")


def problem(
    path: str,
    status: int,
    detail: str,
    faults: tuple[Fault, ...] = (),
    *,
    kind: str = "about:blank",
    title: str | None = None,
    headers: Mapping[str, str] | None = None,
) -> Response:
    """The response for a problem.

    Parameters
    ----------
    path
        Path of the request.
    status
        HTTP status code.
    detail
        What happened and what to do.
    faults
        Everything wrong with the request.
    kind, title
        Kind of problem, where it is more than the status.
    headers
        Further headers.
    """
    body = Problem(
        type=kind,
        title=title or HTTPStatus(status).phrase,
        status=status,
        detail=detail,
        instance=path,
        errors=tuple(
            ProblemFault(
                path=fault.path, value=fault.value, message=fault.message, remedy=fault.remedy
            )
            for fault in faults
        ),
    )
    return Response(
        body.model_dump_json(),
        status_code=status,
        media_type=MEDIA_TYPE,
        headers=dict(headers or {}),
    )


RETRY_AFTER = {
    "Retry-After": {
        "description": "Seconds after which it is worth looking again.",
        "schema": {"type": "integer"},
    }
}
LOCATION: dict[str, Any] = {
    "headers": {
        "Location": {
            "description": "Path of what was made.",
            "schema": {"type": "string", "format": "uri-reference"},
        }
    }
}
_ALLOW = {
    "Allow": {"description": "The methods this address has.", "schema": {"type": "string"}},
}
_HEADERS = {405: _ALLOW, 409: RETRY_AFTER}
_ANYWHERE = (400, 405, 413, 421, 500)
_MEANINGS = {
    400: "The request's length is no number, or its body is no UTF-8 text or nested too deeply.",
    403: "A page of another site asked for it, and may not change anything here.",
    404: "There is nothing at this address.",
    405: "Any other method of this address.",
    409: "It contradicts what is stored, or is not there: with Retry-After, it may yet come.",
    413: "The body is larger than 5 MB.",
    415: "The body is not sent as application/json.",
    421: "The Host header has a name that this server does not answer for.",
    422: "What was sent has values that cannot be: 'errors' names each, with what to do.",
    500: "The program failed; nothing was changed.",
}


def documented(*statuses: int) -> dict[int | str, dict[str, Any]]:
    """OpenAPI responses for these statuses and for those that any request may meet."""
    schema = {"schema": {"$ref": "#/components/schemas/Problem"}}
    return {
        status: {
            "description": _MEANINGS[status],
            "content": {MEDIA_TYPE: schema},
            **({"headers": _HEADERS[status]} if status in _HEADERS else {}),
        }
        for status in sorted({*statuses, *_ANYWHERE})
    }


def install(app: FastAPI) -> None:
    """Answer every error of ``app`` with problem details."""
    app.add_exception_handler(RequestError, _request_error)
    app.add_exception_handler(KitchenErrors, _kitchen_errors)
    app.add_exception_handler(RequestValidationError, _validation_error)
    app.add_exception_handler(HTTPException, _http_error)
    app.add_exception_handler(Exception, _unexpected)


async def _request_error(request: Request, error: Exception) -> Response:
    assert isinstance(error, RequestError)  # noqa: S101 - registered for this type alone
    again = {"Retry-After": "2"} if isinstance(error, NotReadyError) else {}
    status = next(_STATUS_OF[kind] for kind in type(error).__mro__ if kind in _STATUS_OF)
    faults = tuple(map(told, error.faults))
    detail = "\n".join(map(str, faults))
    return answer(request.scope, status, detail, faults, headers=again)


async def _kitchen_errors(request: Request, error: Exception) -> Response:
    assert isinstance(error, KitchenErrors)  # noqa: S101 - registered for this type alone
    return answer(
        request.scope,
        HTTPStatus.UNPROCESSABLE_ENTITY,
        ngettext(
            "The kitchen file has %(n)s error; nothing was stored. Mend what 'errors' names and "
            "send it again.",
            "The kitchen file has %(n)s errors; nothing was stored. Mend what 'errors' names and "
            "send it again.",
            len(error.errors),
        ),
        file_faults(error),
        kind="urn:prepwright:problem:kitchen-file",
        title=_("The kitchen file cannot be used"),
    )


async def _validation_error(request: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)  # noqa: S101 - registered for this type alone
    faults = tuple(_fault(each) for each in error.errors())
    if any(each["loc"][0] == "path" for each in error.errors()):
        return answer(request.scope, HTTPStatus.NOT_FOUND, _("There is nothing here."), faults)
    return answer(
        request.scope,
        HTTPStatus.UNPROCESSABLE_ENTITY,
        _("The request has values that cannot be; mend what 'errors' names."),
        faults,
    )


def _fault(found: Mapping[str, Any]) -> Fault:
    if found["type"] == "json_invalid":
        place = f"body, character {found['loc'][-1]}"
        message = _("this is not JSON: %(why)s", why=found["ctx"]["error"])
        return Fault(place, "", message, _("Send one JSON object, such as {}"))
    return Fault(
        ".".join(str(part) for part in found["loc"]),
        str(found.get("input", ""))[:60],
        str(found["msg"]),
        _("See %(address)s for what may stand here", address="/api/v1/openapi.json"),
    )


async def _http_error(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)  # noqa: S101 - registered for this type alone
    details = {
        HTTPStatus.BAD_REQUEST: _(
            "The body is no UTF-8 text, or its brackets are nested too deeply. Send plain JSON as "
            "UTF-8."
        ),
        HTTPStatus.NOT_FOUND: _("There is nothing here."),
        HTTPStatus.METHOD_NOT_ALLOWED: _(
            "%(method)s is not possible here; the Allow header names what is.",
            method=request.method,
        ),
    }
    detail = details.get(HTTPStatus(error.status_code), error.detail)
    headers = error.headers
    if error.status_code == HTTPStatus.METHOD_NOT_ALLOWED:
        # The framework names the methods of the first route of the address, not of all.
        headers = {"Allow": allowed_methods(request)}
    return answer(request.scope, error.status_code, detail, headers=headers)


async def _unexpected(request: Request, error: Exception) -> Response:
    _log.error("%s %s failed", request.method, request.url.path, exc_info=error)
    # This answer passes none of the application's own layers on its way out.
    with read_as(getattr(request.state, "reading", Reading())):
        response = answer(
            request.scope,
            HTTPStatus.INTERNAL_SERVER_ERROR,
            _("The program failed; nothing was changed. The server's log has the details."),
        )
    response.headers.update(SECURITY_HEADERS)
    return response


def _phrase(status: HTTPStatus) -> str:
    """A status in the words of the page; those that no page should ever show stay in English."""
    words = {
        HTTPStatus.BAD_REQUEST: _("Bad Request"),
        HTTPStatus.FORBIDDEN: _("Forbidden"),
        HTTPStatus.NOT_FOUND: _("Not Found"),
        HTTPStatus.METHOD_NOT_ALLOWED: _("Method Not Allowed"),
        HTTPStatus.CONFLICT: _("Conflict"),
        HTTPStatus.MISDIRECTED_REQUEST: _("Misdirected Request"),
        HTTPStatus.REQUEST_ENTITY_TOO_LARGE: _("Request Entity Too Large"),
        HTTPStatus.UNSUPPORTED_MEDIA_TYPE: _("Unsupported Media Type"),
        HTTPStatus.UNPROCESSABLE_ENTITY: _("Unprocessable Entity"),
        HTTPStatus.INTERNAL_SERVER_ERROR: _("Internal Server Error"),
    }
    return words.get(status, status.phrase)


def told(fault: Fault) -> Fault:
    """A fault in the language of whoever asks; the planner's words come in the source's."""
    return replace(fault, message=said(fault.message), remedy=said(fault.remedy))


def file_faults(errors: KitchenErrors) -> tuple[Fault, ...]:
    """What is wrong with a kitchen file, in the language of whoever asks."""
    return tuple(
        told(
            Fault(
                # A path is of the file's own words; only the file as a whole has none.
                each.where if each.path else said(each.where),
                each.value,
                each.message,
                each.remedy,
            )
        )
        for each in errors.errors
    )


def answer(
    scope: Scope,
    status: int,
    detail: str,
    faults: tuple[Fault, ...] = (),
    *,
    kind: str = "about:blank",
    title: str | None = None,
    headers: Mapping[str, str] | None = None,
) -> Response:
    """Problem details, or a page of them where a person looks at one of the pages.

    Both are in the language of whoever asks.
    """
    path = scope["path"]
    accepted = Headers(scope=scope).get("accept", "")
    if path.startswith("/api/") or "text/html" not in accepted:
        return problem(path, status, detail, faults, kind=kind, title=title, headers=headers)
    lines = [f"{fault.path}: {fault.value}: {fault.message.rstrip('.')}." for fault in faults]
    page = HTMLResponse(
        render_problem(
            int(status),
            title or _phrase(HTTPStatus(status)),
            " ".join(lines) or detail,
            " ".join(f"{fault.remedy}." for fault in faults),
            first=_first(path, faults),
        ),
        status_code=status,
        headers=dict(headers or {}),
    )
    if "Retry-After" in page.headers:
        page.headers["Refresh"] = page.headers["Retry-After"]
    return page


def _first(path: str, faults: tuple[Fault, ...]) -> Choice | None:
    """Where to go first: nothing is on the floor of a day yet, so its plans are what is missing."""
    found = _FLOOR.match(path)
    if found is None or not faults or faults[0].path != "release":
        return None
    return Choice(_("The day"), f"/kitchens/{found['slug']}/days/{found['date']}")
