"""A form with a file, read from a body that is sent as one (RFC 7578)."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException

from service.api.guards import BODY_LIMIT
from web.language import _

_FORM = "multipart/form-data"
_MOST_FIELDS = 500


@dataclass(frozen=True, slots=True)
class Upload:
    """The fields by name, and the file's name and bytes; both empty where there is none."""

    fields: Mapping[str, str]
    name: str
    data: bytes


async def _upload(request: Request) -> Upload:
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
    name, data = "", b""
    fields = {}
    async with request.form(max_files=1, max_fields=_MOST_FIELDS, max_part_size=BODY_LIMIT) as form:
        for key, value in form.multi_items():
            if isinstance(value, UploadFile):
                name, data = value.filename or "", await value.read()
            else:
                fields[key] = value
    return Upload(fields, name, data)


UploadDep = Annotated[Upload, Depends(_upload)]
"""The fields, of several of one name the last, and the file."""
