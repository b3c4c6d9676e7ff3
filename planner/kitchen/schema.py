"""The kitchen file's JSON Schema (draft 2020-12), made from the models that read it."""

import json
from collections.abc import Iterator, Sequence
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


def description_at(location: Sequence[str | int]) -> str:
    """What a place in the file is for, without the stop; empty where nothing is said of it."""
    return _plain(schema_at(location))


def field_descriptions() -> tuple[str, ...]:
    """What is said of all fields, each once: the catalogues list it."""
    return tuple(dict.fromkeys(filter(None, map(_plain, _fields(_resolved(_cached_schema()))))))


def _fields(part: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """Fields in ``part`` and below; an element of a list is none, its own fields are."""
    for inner in part.get("properties", {}).values():
        found = _resolved(inner)
        yield found
        yield from _fields(_resolved(found.get("items", found)))


def _plain(part: dict[str, Any]) -> str:
    return str(part.get("description", "")).strip().rstrip(".")


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
