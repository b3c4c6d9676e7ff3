"""The kitchen file's JSON Schema (draft 2020-12), made from the models that read it."""

import json
from collections.abc import Sequence
from functools import cache
from typing import Any

from planner.kitchen.document import Kitchen

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def kitchen_schema() -> dict[str, Any]:
    """Return the schema as JSON values. It states shapes and ranges, not cross-references."""
    return {"$schema": _DIALECT, **Kitchen.model_json_schema()}


def schema_text() -> str:
    """The schema as it is published, with a final line break."""
    return json.dumps(kitchen_schema(), indent=2, ensure_ascii=False) + "\n"


@cache
def _cached_schema() -> dict[str, Any]:
    return kitchen_schema()


def schema_at(location: Sequence[str | int]) -> dict[str, Any]:
    """What the schema says about a place in the file; empty where it knows no such place.

    Parameters
    ----------
    location
        Field names and list indexes from the top, such as ``("dishes", 0, "name")``.
    """
    here = _resolved(_cached_schema())
    for step in location:
        if isinstance(step, int):
            here = here.get("items", {})
        else:
            here = here.get("properties", {}).get(step, {})
        here = _resolved(here)
    return here


def _resolved(part: dict[str, Any]) -> dict[str, Any]:
    """Follow references and look through 'or null', keeping a field's own description."""
    for option in part.get("anyOf", ()):
        if option.get("type") != "null":
            return _resolved({**option, **_described(part)})
    if "$ref" in part:
        name = str(part["$ref"]).rsplit("/", 1)[-1]
        return {**_cached_schema()["$defs"][name], **_described(part)}
    return part


def _described(part: dict[str, Any]) -> dict[str, Any]:
    return {"description": part["description"]} if "description" in part else {}
