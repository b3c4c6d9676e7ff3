"""Field errors in plain words: what is wrong with one value, and what to enter instead."""

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from planner.kitchen.base import ID_PATTERN, TooLargeError
from planner.kitchen.errors import FileError, Place, shown, suggestion
from planner.kitchen.json_text import label
from planner.kitchen.schema import schema_at

Location = tuple[str | int, ...]
_Context = Mapping[str, Any]
_InWords = Callable[[Location, _Context], tuple[str, str]]

_KINDS: Mapping[str, tuple[str, str]] = {
    "string_type": ("this is not text", "write text in double quotes"),
    "float_type": ("this is not a number", "write a number without quotes"),
    "bool_type": ("this is neither true nor false", "write true or false without quotes"),
    "finite_number": ("NaN and Infinity are no quantities", "write a plain number"),
    "model_type": ("this is not an object", "write fields between '{' and '}'"),
    "tuple_type": ("this is not a list", "write elements between '[' and ']'"),
    "frozen_set_type": ("this is not a list", "write elements between '[' and ']'"),
    "date_type": ("this is not a date", "write the date as 'YYYY-MM-DD'"),
    "date_parsing": ("this is not a date of the calendar", "write the date as 'YYYY-MM-DD'"),
    "date_from_datetime_parsing": ("this is not a date", "write the date as 'YYYY-MM-DD'"),
    "date_from_datetime_inexact": ("this is a time, not a date", "write it as 'YYYY-MM-DD'"),
}

_WHOLE = frozenset({"int_type", "int_from_float", "int_parsing_size"})


def field_errors(
    document: Mapping[str, Any], error: ValidationError
) -> tuple[tuple[Location, FileError], ...]:
    """Each field's error in ``document``, with where it is as pydantic says it."""
    details = error.errors(include_url=False)
    return tuple(
        (detail["loc"], _field_error(document, detail))
        for detail in details
        if not _follows_from_others(detail)
    )


def place_of(document: Mapping[str, Any], location: Location) -> Place:
    """The place of a pydantic location, named by the list element it leads into."""
    path, element = "", ""
    here: object = document
    for step in location:
        if isinstance(step, int):
            path += f"[{step}]"
            here = here[step] if isinstance(here, list) and step < len(here) else None
            element = element or label(here)
        else:
            path += f".{shown(step)}" if path else shown(step)
            here = here.get(step) if isinstance(here, dict) else None
    return Place(path, element)


def _follows_from_others(detail: ErrorDetails) -> bool:
    """Whether a list counts as empty only because its elements have errors of their own."""
    return (
        detail["type"] == "too_short"
        and isinstance(detail["input"], list | tuple)
        and len(detail["input"]) >= detail["ctx"]["min_length"]
    )


def _field_error(document: Mapping[str, Any], detail: ErrorDetails) -> FileError:
    location, kind, value = detail["loc"], detail["type"], detail["input"]
    message, remedy = _words(location, kind, value, detail)
    return place_of(document, location).error(None if kind == "missing" else value, message, remedy)


def _words(location: Location, kind: str, value: object, detail: ErrorDetails) -> tuple[str, str]:
    """What is wrong and what to do, by pydantic's kind of error."""
    if isinstance(value, float) and not math.isfinite(value):
        return _KINDS["finite_number"]
    if kind in _WHOLE:
        return _not_whole(location, value)
    if kind in _KINDS:
        return _KINDS[kind]
    in_words = _IN_WORDS.get(kind)
    if in_words is None:
        return detail["msg"][:1].lower() + detail["msg"][1:], _described("correct it", location)
    return in_words(location, detail.get("ctx", {}))


def _not_whole(location: Location, value: object) -> tuple[str, str]:
    """A number too far out counts as such, whatever way it is written."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        schema = schema_at(location)
        if value > schema.get("maximum", math.inf):
            return f"must be at most {_plain(schema['maximum'])}", _range_remedy(location)
        if value < schema.get("minimum", -math.inf):
            return f"must be at least {_plain(schema['minimum'])}", _range_remedy(location)
        if value == int(value):
            return "a whole number has no decimal point or exponent", f"write {int(value)}"
    return "this is not a whole number", "write a whole number without quotes"


def _missing(location: Location, _: _Context) -> tuple[str, str]:
    return "this field is missing", _described("add it", location)


def _no_such_field(location: Location, _: _Context) -> tuple[str, str]:
    known = sorted(schema_at(location[:-1]).get("properties", {}))
    hint = suggestion(str(location[-1]), known)
    return "no such field", f"{hint}fields known here: {', '.join(known)}"


def _unknown_word(_: Location, context: _Context) -> tuple[str, str]:
    return "not one of the words known here", f"write {context['expected']}"


def _wrong_form(location: Location, context: _Context) -> tuple[str, str]:
    if context["pattern"] == ID_PATTERN:
        return "this is no id", "use lower-case letters, digits and underscores only"
    return "this text has the wrong form", _described("write another", location)


def _too_short(_: Location, __: _Context) -> tuple[str, str]:
    return "this text is empty", "fill it in"


def _too_long(_: Location, context: _Context) -> tuple[str, str]:
    return "this text is too long", f"shorten it to {context['max_length']} characters"


def _too_few(_: Location, context: _Context) -> tuple[str, str]:
    return "this list is too short", f"enter at least {context['min_length']}"


def _too_many(_: Location, context: _Context) -> tuple[str, str]:
    return "this list is too long", f"leave at most {context['max_length']}"


def _unreadable(_: Location, context: _Context) -> tuple[str, str]:
    error = context["error"]
    if isinstance(error, TooLargeError):
        return "this number is too large", str(error)
    return "this cannot be read", str(error)


def _out_of_range(words: str, bound: str) -> _InWords:
    def in_words(location: Location, context: _Context) -> tuple[str, str]:
        return f"{words} {_plain(context[bound])}", _range_remedy(location)

    return in_words


_IN_WORDS: Mapping[str, _InWords] = {
    "missing": _missing,
    "extra_forbidden": _no_such_field,
    "enum": _unknown_word,
    "literal_error": _unknown_word,
    "string_pattern_mismatch": _wrong_form,
    "string_too_short": _too_short,
    "string_too_long": _too_long,
    "too_short": _too_few,
    "too_long": _too_many,
    "value_error": _unreadable,
    "greater_than": _out_of_range("must be above", "gt"),
    "greater_than_equal": _out_of_range("must be at least", "ge"),
    "less_than": _out_of_range("must be below", "lt"),
    "less_than_equal": _out_of_range("must be at most", "le"),
}


def _range_remedy(location: Location) -> str:
    schema = schema_at(location)
    low, high = (
        next((_plain(schema[bound]) for bound in bounds if bound in schema), None)
        for bounds in (("minimum", "exclusiveMinimum"), ("maximum", "exclusiveMaximum"))
    )
    above = "above " if "exclusiveMinimum" in schema else ""
    below = "below " if "exclusiveMaximum" in schema else ""
    number = "a whole number" if schema.get("type") == "integer" else "a number"
    if low is None or high is None:
        bounds = f"of {low} or more" if high is None else f"up to {high}"
    elif above or below:
        bounds = f"{above or 'from '}{low} and {below or 'up to '}{high}"
    else:
        bounds = f"from {low} to {high}"
    return _described(f"enter {number} {bounds}", location)


def _plain(number: float) -> str:
    """A bound in digits: nobody reads 1e+06."""
    return f"{number:.15g}"


def _described(remedy: str, location: Sequence[str | int]) -> str:
    description = schema_at(location).get("description", "")
    return f"{remedy} ({description.strip().rstrip('.')})" if description else remedy
