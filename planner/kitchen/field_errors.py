"""Field errors in plain words: what is wrong with one value, and what to enter instead."""

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from planner.kitchen.base import ID_PATTERN, TooLargeError
from planner.kitchen.errors import FileError, Place, shown, suggestion
from planner.kitchen.json_text import label
from planner.kitchen.schema import description_at, schema_at
from planner.wording import sentence

Location = tuple[str | int, ...]
_Context = Mapping[str, Any]
_InWords = Callable[[Location, _Context], tuple[str, str]]

_KINDS: Mapping[str, tuple[str, str]] = {
    "string_type": (sentence("this is not text"), sentence("write text in double quotes")),
    "float_type": (sentence("this is not a number"), sentence("write a number without quotes")),
    "bool_type": (
        sentence("this is neither true nor false"),
        sentence("write true or false without quotes"),
    ),
    "finite_number": (
        sentence("NaN and Infinity are no quantities"),
        sentence("write a plain number"),
    ),
    "model_type": (
        sentence("this is not an object"),
        sentence("write fields between '{{' and '}}'"),
    ),
    "tuple_type": (sentence("this is not a list"), sentence("write elements between '[' and ']'")),
    "frozen_set_type": (
        sentence("this is not a list"),
        sentence("write elements between '[' and ']'"),
    ),
    "date_type": (sentence("this is not a date"), sentence("write the date as 'YYYY-MM-DD'")),
    "date_parsing": (
        sentence("this is not a date of the calendar"),
        sentence("write the date as 'YYYY-MM-DD'"),
    ),
    "date_from_datetime_parsing": (
        sentence("this is not a date"),
        sentence("write the date as 'YYYY-MM-DD'"),
    ),
    "date_from_datetime_inexact": (
        sentence("this is a time, not a date"),
        sentence("write it as 'YYYY-MM-DD'"),
    ),
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
        return detail["msg"][:1].lower() + detail["msg"][1:], _described(
            sentence("correct it"), location
        )
    return in_words(location, detail.get("ctx", {}))


def _not_whole(location: Location, value: object) -> tuple[str, str]:
    """A number too far out counts as such, whatever way it is written."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        schema = schema_at(location)
        if value > schema.get("maximum", math.inf):
            return _at_most(schema["maximum"]), _range_remedy(location)
        if value < schema.get("minimum", -math.inf):
            return _at_least(schema["minimum"]), _range_remedy(location)
        if value == int(value):
            return (
                sentence("a whole number has no decimal point or exponent"),
                sentence("write {n}", n=int(value)),
            )
    return sentence("this is not a whole number"), sentence("write a whole number without quotes")


def _missing(location: Location, _: _Context) -> tuple[str, str]:
    return sentence("this field is missing"), _described(sentence("add it"), location)


def _no_such_field(location: Location, _: _Context) -> tuple[str, str]:
    known = sorted(schema_at(location[:-1]).get("properties", {}))
    hint = suggestion(str(location[-1]), known)
    remedy = sentence("fields known here: {fields}", fields=", ".join(known))
    return sentence("no such field"), hint + remedy


def _unknown_word(_: Location, context: _Context) -> tuple[str, str]:
    *others, last = str(context["expected"])[1:-1].split("' or '")
    return (
        sentence("not one of the words known here"),
        sentence("write '{words}' or '{last}'", words=others[0], last=last)
        if others
        else sentence("write '{word}'", word=last),
    )


def _wrong_form(location: Location, context: _Context) -> tuple[str, str]:
    if context["pattern"] == ID_PATTERN:
        return (
            sentence("this is no id"),
            sentence("use lower-case letters, digits and underscores only"),
        )
    return sentence("this text has the wrong form"), _described(sentence("write another"), location)


def _too_short(_: Location, __: _Context) -> tuple[str, str]:
    return sentence("this text is empty"), sentence("fill it in")


def _too_long(_: Location, context: _Context) -> tuple[str, str]:
    remedy = sentence("shorten it to {n} characters", n=context["max_length"])
    return sentence("this text is too long"), remedy


def _too_few(_: Location, context: _Context) -> tuple[str, str]:
    remedy = sentence("enter at least {n}", n=context["min_length"])
    return sentence("this list is too short"), remedy


def _too_many(_: Location, context: _Context) -> tuple[str, str]:
    remedy = sentence("leave at most {n}", n=context["max_length"])
    return sentence("this list is too long"), remedy


def _unreadable(_: Location, context: _Context) -> tuple[str, str]:
    error = context["error"]
    if isinstance(error, TooLargeError):
        return sentence("this number is too large"), str(error)
    return sentence("this cannot be read"), str(error)


def _above(bound: float) -> str:
    return sentence("must be above {n}", n=_plain(bound))


def _at_least(bound: float) -> str:
    return sentence("must be at least {n}", n=_plain(bound))


def _below(bound: float) -> str:
    return sentence("must be below {n}", n=_plain(bound))


def _at_most(bound: float) -> str:
    return sentence("must be at most {n}", n=_plain(bound))


def _out_of_range(words: Callable[[float], str], bound: str) -> _InWords:
    def in_words(location: Location, context: _Context) -> tuple[str, str]:
        return words(context[bound]), _range_remedy(location)

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
    "greater_than": _out_of_range(_above, "gt"),
    "greater_than_equal": _out_of_range(_at_least, "ge"),
    "less_than": _out_of_range(_below, "lt"),
    "less_than_equal": _out_of_range(_at_most, "le"),
}


def _range_remedy(location: Location) -> str:
    schema = schema_at(location)
    low, high = (
        next((_plain(schema[bound]) for bound in bounds if bound in schema), None)
        for bounds in (("minimum", "exclusiveMinimum"), ("maximum", "exclusiveMaximum"))
    )
    above, below = "exclusiveMinimum" in schema, "exclusiveMaximum" in schema
    if schema.get("type") == "integer":
        return _described(_whole_number(low, high), location)
    return _described(_number(low, high, above, below), location)


def _whole_number(low: str | None, high: str | None) -> str:
    """Between what a whole number lies; the schema's bounds of those are their ends."""
    if high is None:
        return sentence("enter a whole number of {n} or more", n=low)
    if low is None:
        return sentence("enter a whole number up to {n}", n=high)
    return sentence("enter a whole number from {n} to {n_2}", n=low, n_2=high)


def _number(low: str | None, high: str | None, above: bool, below: bool) -> str:
    """Between what a number lies; the ends themselves are left out where ``above``, ``below``."""
    if high is None:
        return sentence("enter a number of {n} or more", n=low)
    if low is None:
        return sentence("enter a number up to {n}", n=high)
    if above and below:
        return sentence("enter a number above {n} and below {n_2}", n=low, n_2=high)
    if above:
        return sentence("enter a number above {n} and up to {n_2}", n=low, n_2=high)
    if below:
        return sentence("enter a number from {n} and below {n_2}", n=low, n_2=high)
    return sentence("enter a number from {n} to {n_2}", n=low, n_2=high)


def _plain(number: float) -> str:
    """A bound in digits: nobody reads 1e+06."""
    return f"{number:.15g}"


def _described(remedy: str, location: Sequence[str | int]) -> str:
    description = description_at(location)
    return f"{remedy} ({description})" if description else remedy
