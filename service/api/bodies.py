"""What a body must be sent as, checked before anything is read from it."""

from typing import Annotated

from fastapi import Depends, Request
from starlette.exceptions import HTTPException

from web.language import _

_JSON = "application/json"


async def json_only(request: Request) -> None:
    """Refuse a body that is not sent as JSON, whatever it holds."""
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind != _JSON:
        raise HTTPException(
            415,
            _(
                "Content-Type: %(kind)s: the body must be JSON. Send it as %(wanted)s.",
                kind=kind[:60] or _("missing"),
                wanted=_JSON,
            ),
            headers={"Accept": _JSON},
        )


async def _json_bytes(request: Request) -> bytes:
    await json_only(request)
    return await request.body()


JsonBytes = Annotated[bytes, Depends(_json_bytes)]
"""The body as it is sent, unread."""
