"""How whoever asks reads pages, from the address, the device or its browser."""

from collections.abc import Mapping
from http import HTTPStatus
from http.cookies import CookieError, SimpleCookie
from typing import Annotated, cast
from urllib.parse import parse_qsl

from babel import negotiate_locale
from fastapi import Depends, Request
from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from service.api.problems import answer
from service.errors import Fault
from web.language import LANGUAGES, SOURCE, _, speaking
from web.presenters.preferences import Preferences
from web.reading import CHOICES, Clock, Reading, Units, read_as

_KEPT = 365 * 24 * 3600
"""Seconds for which a device keeps what was chosen on it."""


class ReadingLayer:
    """Has every answer written in its reader's language, units and clock.

    What an address asks for comes first and is kept on the device; then what the device has kept;
    then, of languages, what its browser prefers.

    Parameters
    ----------
    app
        What answers.
    """

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        query = dict(parse_qsl(scope["query_string"].decode("latin-1")))
        asked = _possible(query)
        kept = _possible(_cookies(headers.get("cookie", "")))
        reading = _reading(kept | asked, headers.get("accept-language", ""))
        with speaking(reading.language):
            wrong = _impossible(query, asked)
            if wrong:
                status = HTTPStatus.UNPROCESSABLE_ENTITY
                await answer(scope, status, str(wrong[0]), wrong)(scope, receive, send)
                return
        scope.setdefault("state", {})["reading"] = reading

        async def send_and_keep(message: Message) -> None:
            if message["type"] == "http.response.start":
                answer = MutableHeaders(scope=message)
                if answer.get("content-type", "").startswith("text/html"):
                    answer.add_vary_header("Cookie")
                    answer.add_vary_header("Accept-Language")
                    answer.setdefault("Content-Language", reading.language)
                for name, value in asked.items():
                    if kept.get(name) != value:
                        answer.append("set-cookie", _cookie(name, value))
            await send(message)

        with read_as(reading):
            await self._app(scope, receive, send_and_keep)


def _possible(chosen: Mapping[str, str]) -> dict[str, str]:
    """What may be chosen of what a device says."""
    return {name: chosen[name] for name, values in CHOICES.items() if chosen.get(name) in values}


def _impossible(query: Mapping[str, str], asked: Mapping[str, str]) -> tuple[Fault, ...]:
    """What an address asks for that nobody can choose."""
    return tuple(
        Fault(
            name,
            query[name][:60],
            _("this cannot be chosen"),
            _("Choose one of: %(known)s", known=", ".join(of)),
        )
        for name, of in CHOICES.items()
        if name in query and name not in asked
    )


def _reading(chosen: Mapping[str, str], accepted: str) -> Reading:
    return Reading(
        language=chosen.get("language") or _preferred(accepted),
        units=cast("Units", chosen.get("units", "metric")),
        clock=cast("Clock", chosen.get("clock", "24")),
    )


def _preferred(accepted: str) -> str:
    """The first language of an Accept-Language header that there is; the best comes first."""
    wanted = [part.partition(";")[0].strip() for part in accepted.split(",")]
    return negotiate_locale(wanted, list(LANGUAGES), sep="-") or SOURCE


def _cookies(header: str) -> dict[str, str]:
    try:
        return {name: morsel.value for name, morsel in SimpleCookie(header).items()}
    except CookieError:
        return {}


def _cookie(name: str, value: str) -> str:
    return f"{name}={value}; Path=/; Max-Age={_KEPT}; SameSite=Lax; HttpOnly"


def _of(request: Request) -> Preferences:
    return cast("Reading", request.state.reading).preferences


PreferencesDep = Annotated[Preferences, Depends(_of)]
"""Units and clock of whoever asks."""
