"""Sentences of stored plans, in the language of the page.

A plan's sheet holds its sentences as plain text of the source language. ``said`` finds the pattern
that a text was made of, and fills the translation of that pattern with the same values, each said
in its turn. Names of the kitchen are of no pattern and stay as they are.
"""

import re
from collections.abc import Iterator
from functools import cache, lru_cache

from babel import Locale
from babel.dates import get_day_names, get_month_names

from web.language import SOURCE, language, sentences
from web.patterns import Pattern, filled

_LONGEST = 4000
"""Characters beyond which nothing is looked for; the longest sentence has some hundreds."""
_DEEPEST = 10
"""Sentences within sentences; beyond, a text stays as it is."""
_JOINTS = (". ", "; ", ": ", " → ", " = ", " + ", ", ", " and ")
"""What the planner joins texts with, the widest first."""
_BRACKETS = re.compile(r"(.+?) \(([^()]+)\)(\W*)")
_DATE = re.compile(r"([A-Z][a-z]{2}) (\d{1,2}) ([A-Z][a-z]{2})")

_Said = tuple[str, int]
"""A text, and how many characters of its source were known."""


def said(text: str) -> str:
    """``text`` in the language of the page; what no pattern is known of comes back as it is."""
    spoken = language()
    if spoken == SOURCE or not text or len(text) > _LONGEST:
        return text
    return _best(spoken, text, 0)[0]


@lru_cache(maxsize=20_000)
def _best(code: str, text: str, depth: int) -> _Said:
    """The way to say ``text`` that knows most of it; of equals the first."""
    body = text.strip()
    if not body or depth > _DEEPEST:
        return text, 0
    begin = text.index(body)
    before, after = text[:begin], text[begin + len(body) :]
    best, known = body, 0
    for option, found in _options(code, body, depth):
        if found > known:
            best, known = option, found
            if known >= len(body):
                break
    return f"{before}{best}{after}", known


def _options(code: str, text: str, depth: int) -> Iterator[_Said]:
    yield from _whole(code, text)
    yield from _filled(code, text, depth)
    lower = text[:1].lower() + text[1:]
    if lower != text:
        for one, known in (*_whole(code, lower), *_filled(code, lower, depth)):
            yield one[:1].upper() + one[1:], known
    if text.endswith((".", ":")):
        one, known = _best(code, text[:-1], depth + 1)
        yield one + text[-1], known
    if (found := _BRACKETS.fullmatch(text)) is not None:
        (head, first), (inner, second) = (_best(code, found[n], depth + 1) for n in (1, 2))
        yield f"{head} ({inner}){found[3]}", first + second
    for joint in _JOINTS:
        if joint in text:
            parts = [_best(code, part, depth + 1) for part in text.split(joint)]
            join = _joint(code, joint, parts[-1][0])
            yield join.join(part for part, _ in parts), sum(known for _, known in parts)


def _whole(code: str, text: str) -> Iterator[_Said]:
    exact = _exact(code).get(text)
    if exact is not None:
        yield exact, len(text)
    date = _date(code, text)
    if date is not None:
        yield date, len(text)


def _filled(code: str, text: str, depth: int) -> Iterator[_Said]:
    for pattern, translation in _patterns(code):
        values = pattern.match(text)
        if values is None:
            continue
        inner = {place: _best(code, value, depth + 1) for place, value in values.items()}
        known = pattern.weight + sum(count for _, count in inner.values())
        yield filled(translation, {place: one for place, (one, _) in inner.items()}), known


def _joint(code: str, joint: str, following: str) -> str:
    """What joins texts here; Spanish says e for y before the sound of i."""
    if joint != " and ":
        return joint
    if code == "es" and re.match(r"h?[ií](?![aeou])", following.lower()):
        return " e "
    return str(Locale.parse(code).list_patterns["standard"]["2"].format("", ""))


def _date(code: str, text: str) -> str | None:
    """A date as the planner writes it, ``Thu 26 Nov``, with the names of the language."""
    found = _DATE.fullmatch(text)
    if found is None:
        return None
    names, months = _names(code)
    if found[1] not in names or found[3] not in months:
        return None
    return f"{names[found[1]]} {found[2]} {months[found[3]]}"


@cache
def _names(code: str) -> tuple[dict[str, str], dict[str, str]]:
    days, months = (
        {source[key]: own[key].rstrip(".") for key in own}
        for source, own in (
            (
                get_day_names("abbreviated", locale=SOURCE),
                get_day_names("abbreviated", locale=code),
            ),
            (
                get_month_names("abbreviated", locale=SOURCE),
                get_month_names("abbreviated", locale=code),
            ),
        )
    )
    return days, months


@cache
def _exact(code: str) -> dict[str, str]:
    return dict(sentences(code))


@cache
def _patterns(code: str) -> tuple[tuple[Pattern, str], ...]:
    """Patterns with their translations, those that say most first."""
    found = [(Pattern(text), one) for text, one in sentences(code) if "{" in text]
    known = [(pattern, one) for pattern, one in found if pattern.says_something]
    known.sort(key=lambda entry: -entry[0].weight)
    return tuple(known)
