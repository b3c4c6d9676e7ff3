"""A form's fields, read from a body that is sent as one."""

from collections.abc import Mapping
from typing import Annotated
from urllib.parse import parse_qsl

from fastapi import Depends, Request
from starlette.exceptions import HTTPException

from web.language import _

_FORM = "application/x-www-form-urlencoded"
_MOST_FIELDS = 5000
"""A count of a thousand foods has three fields each."""


async def _form_fields(request: Request) -> Mapping[str, str]:
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind != _FORM:
        raise HTTPException(
            415,
            _(
                "Content-Type: %(kind)s: the body must be a form. Send it as %(wanted)s.",
                kind=kind[:60] or _("missing"),
                wanted=_FORM,
            ),
            headers={"Accept": _FORM},
        )
    body = await request.body()
    try:
        pairs = parse_qsl(
            body.decode(), keep_blank_values=True, max_num_fields=_MOST_FIELDS, errors="strict"
        )
    except ValueError:
        raise HTTPException(400) from None
    return dict(pairs)


FormFields = Annotated[Mapping[str, str], Depends(_form_fields)]
"""The fields by name; of several of one name the last."""
