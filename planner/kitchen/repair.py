"""Stand-ins for wrong values, so that one wrong field hides no error elsewhere in the file.

Nothing repaired is ever planned with: a file that needed it is refused.
"""

import copy
from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from planner.kitchen.field_errors import Location

_INSIDE = 0.5
"""A strict bound of the file is 0 or 1; half a unit inside lies within every such range."""


def repaired(document: Mapping[str, Any], error: ValidationError) -> dict[str, Any] | None:
    """Return ``document`` with numbers moved into their range and unknown fields taken out.

    None where something else is wrong, for which no stand-in would be sensible.
    """
    made = copy.deepcopy(dict(document))
    for detail in error.errors(include_url=False):
        if detail["type"] == "too_short":
            continue  # Empty only for its elements' errors, or still found on the next reading.
        context = detail.get("ctx", {})
        match detail["type"]:
            case "extra_forbidden":
                _take_out(made, detail["loc"])
            case "greater_than_equal":
                _put(made, detail["loc"], context["ge"])
            case "less_than_equal":
                _put(made, detail["loc"], context["le"])
            case "greater_than":
                _put(made, detail["loc"], context["gt"] + _INSIDE)
            case "less_than":
                _put(made, detail["loc"], context["lt"] - _INSIDE)
            case _:
                return None
    return made


def _parent(document: dict[str, Any], location: Location) -> Any:
    here: Any = document
    for step in location[:-1]:
        here = here[step]
    return here


def _put(document: dict[str, Any], location: Location, value: float) -> None:
    _parent(document, location)[location[-1]] = value


def _take_out(document: dict[str, Any], location: Location) -> None:
    del _parent(document, location)[location[-1]]
