"""Bytes to JSON values, strict about all that JSON readers differ on."""

import json
import re
from dataclasses import dataclass
from typing import Any

from planner.kitchen.errors import FileError, KitchenErrors, Place, shown
from planner.wording import sentence

MAX_BYTES = 5_000_000
"""A starting guess: thousands of recipes fit in; more is likely another file."""

_UNSTORABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff]")
_NEAR = 20
JSON_ERRORS = (
    sentence("expecting value"),
    sentence("expecting property name enclosed in double quotes"),
    sentence("expecting ':' delimiter"),
    sentence("expecting ',' delimiter"),
    sentence("extra data"),
    sentence("unterminated string starting at"),
    sentence("invalid control character at"),
    sentence("invalid \\escape"),
    sentence("invalid \\uXXXX escape"),
    sentence("illegal trailing comma before end of object"),
    sentence("illegal trailing comma before end of array"),
)
"""What Python's reader says is wrong with JSON; here the catalogues find it."""
_DEEPEST = 20


@dataclass(frozen=True, slots=True)
class Document:
    """The parsed file, and what is wrong with it that does not stop further reading."""

    values: dict[str, Any]
    errors: tuple[FileError, ...]


def parse_document(data: bytes) -> Document:
    """Parse a kitchen file's bytes; NaN and Infinity are left for the fields to refuse.

    Raises
    ------
    KitchenErrors
        Too large, not UTF-8, not JSON, not an object, nested too deeply, or with characters that
        no database holds.
    """
    repeats = _Repeats()
    values = _parsed(_decoded(data), repeats)
    if not isinstance(values, dict):
        raise _whole_file(
            values,
            sentence("a kitchen file is one JSON object"),
            sentence("begin with '{{' and end with '}}'"),
        )
    walk = _walked(values, repeats)
    if walk.unstorable:
        raise KitchenErrors((*walk.repeated, *walk.unstorable))
    return Document(values, tuple(walk.repeated))


class _Repeats:
    """Objects in which a key stands twice: JSON readers differ on which value they take."""

    def __init__(self) -> None:
        self.keys: dict[int, list[str]] = {}
        self.objects: list[dict[str, Any]] = []

    def hook(self, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        made = dict(pairs)
        if len(made) < len(pairs):
            seen: set[str] = set()
            twice = [key for key, _ in pairs if key in seen or seen.add(key)]  # type: ignore[func-returns-value]
            self.keys[id(made)] = list(dict.fromkeys(twice))
            self.objects.append(made)  # Kept alive, so that its id stays its own.
        return made


def _decoded(data: bytes) -> str:
    if len(data) > MAX_BYTES:
        raise _whole_file(
            f"{len(data) / 1e6:.1f} MB",
            sentence("the file is larger than {n:g} MB", n=MAX_BYTES / 1e6),
            sentence("leave out past services and stock, or check that it is the kitchen file"),
        )
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _whole_file(
            f"byte 0x{data[error.start]:02x} at {error.start}",
            sentence("the file is not UTF-8 text"),
            sentence("save it as UTF-8"),
        ) from None


def _parsed(text: str, repeats: _Repeats) -> object:
    try:
        return json.loads(text, object_pairs_hook=repeats.hook)
    except json.JSONDecodeError as error:
        near = text[max(0, error.pos - _NEAR) : error.pos + _NEAR]
        place = Place(f"line {error.lineno}, column {error.colno}")
        why = error.msg[:1].lower() + error.msg[1:]
        raise KitchenErrors(
            [
                place.error(
                    near,
                    sentence("the file is not JSON: {why}", why=why),
                    sentence(
                        "check for a missing quote, bracket or comma just before, and for a "
                        "comma after the last element of a list"
                    ),
                )
            ]
        ) from None
    except RecursionError:
        raise _too_deep() from None
    except ValueError:  # Python refuses whole numbers of thousands of digits.
        raise _whole_file(
            None,
            sentence("a number has thousands of digits"),
            sentence("check that it is the kitchen file"),
        ) from None


@dataclass(slots=True)
class _Walk:
    repeated: list[FileError]
    unstorable: list[FileError]


def _walked(values: dict[str, Any], repeats: _Repeats) -> _Walk:
    walk = _Walk([], [])
    waiting: list[tuple[Place, object, int]] = [(Place(""), values, 0)]
    while waiting:
        place, value, depth = waiting.pop()
        if depth > _DEEPEST:
            raise _too_deep()
        if isinstance(value, str):
            _look_at_text(place, value, walk)
        elif isinstance(value, list):
            found = [
                (Place(f"{place.path}[{index}]", place.element or label(item)), item, depth + 1)
                for index, item in enumerate(value)
            ]
            waiting.extend(reversed(found))
        elif isinstance(value, dict):
            for key in repeats.keys.get(id(value), ()):
                walk.repeated.append(
                    place.field(shown(key)).error(
                        value[key],
                        sentence("this field stands twice in one object"),
                        sentence("keep one of the two"),
                    )
                )
            for key in value:
                _look_at_text(place.field(shown(key)), key, walk)
            waiting.extend(
                (place.field(shown(key)), value[key], depth + 1) for key in reversed(value)
            )
    return walk


def _look_at_text(place: Place, text: str, walk: _Walk) -> None:
    found = _UNSTORABLE.search(text)
    if found:
        walk.unstorable.append(
            place.error(
                text,
                sentence(
                    "the text holds the control character U+{code}", code=f"{ord(found[0]):04X}"
                ),
                sentence("remove it; a line break or a tab is allowed"),
            )
        )


def label(element: object) -> str:
    """What an element of a list, as JSON values, is known by: its id, item or name."""
    if isinstance(element, dict):
        for key in ("id", "item", "name"):
            if isinstance(element.get(key), str):
                return shown(element[key])
    return ""


def _too_deep() -> KitchenErrors:
    return _whole_file(
        None,
        sentence("brackets are nested more than {n} deep", n=_DEEPEST),
        sentence("check that it is the kitchen file"),
    )


def _whole_file(value: object, message: str, remedy: str) -> KitchenErrors:
    return KitchenErrors([Place("").error(value, message, remedy)])
