"""Read a kitchen file: the one way in. Everything wrong with it is reported, not the first."""

import json
import re
from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import ValidationError

from planner.kitchen.checking import check_kitchen
from planner.kitchen.document import FORMAT, VERSION, Kitchen
from planner.kitchen.errors import FileError, KitchenErrors, Place
from planner.kitchen.field_errors import field_errors
from planner.kitchen.json_text import parse_document
from planner.kitchen.repair import repaired
from planner.wording import sentence

__all__ = ["FileError", "KitchenErrors", "read_kitchen"]


def read_kitchen(data: bytes) -> Kitchen:
    """Return the kitchen that the bytes of a kitchen file describe.

    Parameters
    ----------
    data
        UTF-8 JSON, at most 5 MB.

    Raises
    ------
    KitchenErrors
        With everything that is wrong. Where a field is of the wrong kind or missing, references
        between elements are only checked once that is put right.
    """
    document = parse_document(data)
    _refuse_other_formats(document.values)
    errors = list(document.errors)
    try:
        kitchen = _validated(document.values)
    except ValidationError as error:
        located = field_errors(document.values, error)
        errors.extend(found for _, found in located)
        errors.extend(_found_behind(document.values, error, {found.path for _, found in located}))
    else:
        errors.extend(check_kitchen(kitchen))
    if errors:
        raise KitchenErrors(errors)
    return kitchen


def _validated(document: Mapping[str, Any]) -> Kitchen:
    # Strict JSON mode: a number in quotes or a time stamp for a date is no slip to guess about.
    return Kitchen.model_validate_json(json.dumps(document), strict=True)


def _found_behind(
    document: Mapping[str, Any], error: ValidationError, reported: set[str]
) -> Iterator[FileError]:
    """Errors that show once the fields already ``reported`` are put right."""
    stand_in = repaired(document, error)
    if stand_in is None:
        return
    try:
        kitchen = _validated(stand_in)
    except ValidationError:
        return
    for found in check_kitchen(kitchen):
        if not _inside(found.path, reported):
            yield found


def _inside(path: str, reported: set[str]) -> bool:
    beginnings = (path[: mark.start()] for mark in re.finditer(r"[.\[]", path))
    return path in reported or any(beginning in reported for beginning in beginnings)


def _refuse_other_formats(document: Mapping[str, Any]) -> None:
    found = document.get("format")
    if found != FORMAT:
        raise KitchenErrors(
            [
                Place("format").error(
                    found,
                    sentence("this is not marked as a kitchen file"),
                    sentence("check that it is one; then write '{format}'", format=FORMAT),
                )
            ]
        )
    version = document.get("version")
    if isinstance(version, bool) or version != VERSION:
        raise KitchenErrors(
            [
                Place("version").error(
                    version,
                    sentence("only version {n} of the kitchen file is known here", n=VERSION),
                    sentence("write {n}, or read it with the release it was made for", n=VERSION),
                )
            ]
        )
