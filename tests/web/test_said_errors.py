"""Errors of kitchen files, said in Spanish: none stays English, and none is no pattern."""

import ast
import copy
import json
import random
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from planner.kitchen.errors import FileError, KitchenErrors
from planner.kitchen.reading import read_kitchen
from web.language import speaking
from web.sentences import said

_ROOT = Path(__file__).parents[2]
_SEED = _ROOT / "seed_data" / "small.json"
_WORDS = {
    "error": (1, 2),
    "_whole_file": (1, 2),
    "ConversionError": (2, 3),
    "UnitDefinitionError": (2, 3),
    "FlowError": (0,),
    "PinError": (3, 4),
    "_late_or_early": (1, 2),
}
"""Which arguments of what makes errors are words."""
_ENGLISH = re.compile(
    r"\b(?:the|of|and|is|are|to|for|with|from|by|at|it|its|not|this|that|or|which|must|"
    r"write|enter|leave|add|known|there|what|than|most|least|below|above|every|so|after|"
    r"before|when|where|day|default|how|on)\b",
    re.IGNORECASE,
)
_QUOTED = re.compile(r"'[^']*'")
_NAMED = re.compile(r"(?:aquí|en|uno|una) [\w.]+|: [\w, .\[\]-]+$", re.IGNORECASE)
"""Fields of the file and lists of them, which have no other name in Spanish."""


def _literals(path: Path) -> Iterator[str]:
    for call in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(call, ast.Call):
            continue
        name = getattr(call.func, "attr", getattr(call.func, "id", ""))
        for at in _WORDS.get(name, ()):
            for one in _choices(call.args[at]) if at < len(call.args) else ():
                if isinstance(one, ast.JoinedStr | ast.Constant):
                    yield f"{path.name}:{one.lineno}"


def _choices(words: ast.expr) -> Iterator[ast.expr]:
    """What an argument may be, and what it is put together of."""
    if isinstance(words, ast.IfExp):
        yield from (*_choices(words.body), *_choices(words.orelse))
    elif isinstance(words, ast.BinOp):
        yield from (*_choices(words.left), *_choices(words.right))
    else:
        yield words


def test_every_error_is_made_of_a_sentence() -> None:
    folders = ("planner/kitchen", "planner/pins", "planner/entry", "planner/whatif")
    found = [
        place
        for folder in folders
        for path in sorted((_ROOT / folder).rglob("*.py"))
        for place in _literals(path)
    ]
    assert found == []


_Path = tuple[str | int, ...]


def _places(value: Any, at: _Path = ()) -> Iterator[_Path]:
    yield at
    below = value.items() if isinstance(value, dict) else enumerate(value)
    for key, one in below:
        if isinstance(one, dict | list):
            yield from _places(one, (*at, key))
        else:
            yield (*at, key)


def _wrong(value: object) -> Iterator[object]:
    """What might be typed instead, by mistake."""
    if isinstance(value, bool):
        yield from ("yes", not value)
    elif isinstance(value, int | float):
        yield from (-1, 1e9, "12", 0, value * 40 + 7)
    elif isinstance(value, str):
        yield from ("", 5, "0 g", "3 cups", f"{value}x", "x" * 5000, "2026-02-30", "29:00")
    elif isinstance(value, list):
        yield from ([], {}, [*value, *value])
    elif isinstance(value, dict):
        yield from ([], {**value, "colour": 1})


def _errors() -> dict[tuple[str, str], FileError]:
    """One error of each kind of words, of a good file with one thing changed."""
    seed = json.loads(_SEED.read_text(encoding="utf-8"))
    places = [place for place in _places(seed) if place]
    dice = random.Random(7)  # noqa: S311 - which mistakes are made need not be secret
    chosen = dice.sample(places, 150)
    found: dict[tuple[str, str], FileError] = {}
    for place in chosen:
        for number in range(3):
            changed = copy.deepcopy(seed)
            holder = changed
            for step in place[:-1]:
                holder = holder[step]
            others = list(_wrong(holder[place[-1]]))
            if number == 0:
                del holder[place[-1]]
            elif others:
                holder[place[-1]] = dice.choice(others)
            for error in _found(json.dumps(changed).encode()):
                kind = (_QUOTED.sub("", error.message), _QUOTED.sub("", error.remedy))
                found.setdefault(kind, error)
    return found


def _found(data: bytes) -> tuple[FileError, ...]:
    try:
        read_kitchen(data)
    except KitchenErrors as errors:
        return errors.errors
    return ()


def _names() -> list[str]:
    """What the kitchen and the file's own format call things, the longest first."""
    seed = json.loads(_SEED.read_text(encoding="utf-8"))
    words = {str(step) for place in _places(seed) for step in place}
    texts = [
        one
        for value in (seed,)
        for one in re.findall(r'"(?:name|id)": "([^"]+)"', json.dumps(value))
    ]
    return sorted({*words, *texts, *(text.lower() for text in texts)}, key=len, reverse=True)


def test_no_error_of_a_file_stays_english() -> None:
    errors = _errors()
    assert len(errors) > 60
    names = re.compile("|".join(rf"(?<!\w){re.escape(one)}(?!\w)" for one in _names()))
    left = {}
    with speaking("es"):
        for error in errors.values():
            for text in (error.message, error.remedy):
                told = _QUOTED.sub("", said(text))
                if _ENGLISH.search(_NAMED.sub("", names.sub("", told))):
                    left[text] = said(text)
    assert left == {}


def test_errors_of_a_whole_file_are_said() -> None:
    told = []
    with speaking("es"):
        for data in (
            b"",
            b"[1]",
            b"\xff",
            b'{"a": 1,}',
            b'{"a": 1',
            b'{"format": "x"}',
            b"[" * 999,
        ):
            (error,) = _found(data)
            told.append(said(error.message))
            assert said(error.message) != error.message
            assert said(error.remedy) != error.remedy
    assert "el archivo no es JSON: se esperaba un valor" in told
    assert "empiece con '{' y termine con '}'" in _remedy(b"[1]")


def _remedy(data: bytes) -> str:
    with speaking("es"):
        return said(_found(data)[0].remedy)


def test_what_is_suggested_is_said_with_what_follows() -> None:
    with speaking("es"):
        assert said("did you mean 'dice'? use the id of one, or add it under cuts") == (
            "¿quiso decir 'dice'? use el id de alguno o agréguelo en cuts"
        )
