"""Sentences of stored plans, in the language, units and clock of whoever reads the page.

A plan's sheet holds its sentences as plain text of the source language, metric and on the 24 h
clock. ``said`` finds the pattern that a text was made of, and fills the translation of that pattern
with the same values, each said in its turn (figures: `web.figures`). Names of the kitchen are of no
pattern and stay as they are.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from babel import Locale
from babel.dates import get_day_names, get_month_names

from web.figures import mass_again, times_again, warmth_again
from web.language import SOURCE, language, sentences
from web.patterns import Pattern, filled, kind_of, places_of, plain
from web.presenters.preferences import Preferences
from web.reading import preferences

_LONGEST = 4000
"""Characters beyond which nothing is looked for; the longest sentence has some hundreds."""
_COLONS = 4
"""Colons of a text at which it may be parted."""
_DEEPEST = 10
"""Sentences within sentences; beyond, a text stays as it is."""
_ENDED = frozenset({". ", "? "})
"""Joints whose mark is of the sentence before: what joins is the space."""
_JOINTS = (". ", "? ", "; ", " → ", " = ", " + ", " - ", " x ", ", ", " and ")
"""What the planner joins texts with, the widest first."""
_LISTING = frozenset({", ", " and "})
"""Joints that names of the kitchen have too."""
_BRACKETS = re.compile(r"(.+?) \(((?:[^()]|\([^()]*\))+)\)(\W*)")
_AMOUNT = re.compile(r"(\d[\d.,]* k?g) (\w.*)")
_DATE = re.compile(r"([A-Z][a-z]{2}) (\d{1,2}) ([A-Z][a-z]{2})")

_Said = tuple[str, int]
"""A text, and how many characters of its source were known."""


@dataclass(frozen=True, slots=True)
class _Reader:
    """How a text is to be said.

    ``reckoning``: masses that stand by themselves in it are the program's, not of a name.
    """

    code: str
    preferences: Preferences
    reckoning: bool = False


_AS_STORED = Preferences()


def said(text: str, *, reckoning: bool = False) -> str:
    """``text`` as the reader of the page reads; what no pattern is known of stays as it is.

    ``reckoning``: the text is a line of what a quantity follows from, of which every mass between
    colons, signs and the like is the program's own. Elsewhere only places of a pattern are.
    """
    spoken, wanted = language(), preferences()
    if (spoken == SOURCE and wanted == _AS_STORED) or not text or len(text) > _LONGEST:
        return text
    return _best(_Reader(spoken, wanted, reckoning), text, 0)[0]


@lru_cache(maxsize=20_000)
def _best(reader: _Reader, text: str, depth: int) -> _Said:
    """The way to say ``text`` that knows most of it; of equals the first."""
    body = text.strip()
    if not body or depth > _DEEPEST:
        return text, 0
    begin = text.index(body)
    before, after = text[:begin], text[begin + len(body) :]
    best, known = body, 0
    for option, found in _options(reader, body, depth):
        if found > known:
            best, known = option, found
            if known >= len(body):
                break
    return f"{before}{best}{after}", known


def _options(reader: _Reader, text: str, depth: int) -> Iterator[_Said]:
    yield from _whole(reader, text)
    yield from _filled(reader, text, depth)
    lower = text[:1].lower() + text[1:]
    if lower != text:
        # Within a sentence, words with a capital are a name rather than the program's.
        phrases = _whole(reader, lower) if depth == 0 and " " in text else ()
        for one, known in (*phrases, *_filled(reader, lower, depth)):
            yield one[:1].upper() + one[1:], known
    if text.endswith((".", ":")):
        one, known = _best(reader, text[:-1], depth + 1)
        yield one + text[-1], known
    if (found := _BRACKETS.fullmatch(text)) is not None:
        (head, first), (inner, second) = (_best(reader, found[n], depth + 1) for n in (1, 2))
        yield f"{head} ({inner}){found[3]}", first + second
    if (found := _AMOUNT.fullmatch(text)) is not None:
        rest, count = _best(reader, found[2], depth + 1)
        amount = _own_mass(reader, found[1])
        yield f"{amount or found[1]} {rest}", count + len(amount)
    for head, tail in _halves(text):
        before, after = (_best(reader, half, depth + 1) for half in (head, tail))
        yield f"{before[0]}: {after[0]}", before[1] + after[1]
    for joint in _JOINTS:
        if joint in text:
            within = replace(reader, reckoning=False) if joint in _LISTING else reader
            pieces = text.split(joint)
            if joint in _ENDED:
                pieces = [f"{piece}{joint[0]}" for piece in pieces[:-1]] + pieces[-1:]
            parts = [_best(within, piece, depth + 1) for piece in pieces]
            join = _joint(reader.code, joint, parts[-1][0])
            yield join.join(part for part, _ in parts), sum(known for _, known in parts)


def _halves(text: str) -> Iterator[tuple[str, str]]:
    """What stands before and after a colon; a sentence may have one of its own."""
    at = -1
    for _ in range(_COLONS):
        at = text.find(": ", at + 1)
        if at < 0:
            return
        yield text[:at], text[at + 2 :]


def _whole(reader: _Reader, text: str) -> Iterator[_Said]:
    exact = _exact(reader.code).get(text)
    if exact is not None:
        yield exact, len(text)
    date = _date(reader.code, text)
    if date is not None:
        yield date, len(text)
    amount = _own_mass(reader, text)
    if amount:
        yield amount, len(text)


def _own_mass(reader: _Reader, text: str) -> str:
    """A mass that stands by itself, told again; empty where it is none or may be of a name."""
    return (mass_again(text, reader.preferences) or "") if reader.reckoning else ""


def _filled(reader: _Reader, text: str, depth: int) -> Iterator[_Said]:
    for pattern, translation in _candidates(reader.code, text[0], text[-1]):
        values = pattern.match(text)
        if values is None:
            continue
        inner = {place: _value(reader, place, value, depth) for place, value in values.items()}
        known = pattern.weight + sum(count for _, count in inner.values())
        yield filled(translation, {place: one for place, (one, _) in inner.items()}), known


def _value(reader: _Reader, place: str, value: str, depth: int) -> _Said:
    """What stands in a place: a figure of the planner's own, or any text."""
    kind, wanted = kind_of(place), reader.preferences
    if kind == "amount":
        amount = mass_again(value, wanted)
        if amount is not None:
            return amount, len(value)
    elif kind == "pulled":
        head, joint, last = value.rpartition(" = ")
        amount = mass_again(last, wanted, pulled=True)
        if amount is not None:
            return f"{_best(reader, head, depth + 1)[0]}{joint}{amount}", len(value)
    elif kind == "warm":
        return warmth_again(value, wanted), len(value)
    said_, known = _best(reader, value, depth + 1)
    return (times_again(said_, wanted), len(value)) if kind == "at" else (said_, known)


def _joint(code: str, joint: str, following: str) -> str:
    """What joins texts here; Spanish says e for y before the sound of i."""
    if joint in _ENDED:
        return " "
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
    texts = ((plain(text), plain(one)) for text, one in sentences(code) if not places_of(text))
    return dict(texts)


@lru_cache(maxsize=20_000)
def _candidates(code: str, first: str, last: str) -> tuple[tuple[Pattern, str], ...]:
    """The patterns of texts that begin and end so: a look at each of them would take long."""
    return tuple((pattern, one) for pattern, one in _patterns(code) if pattern.may_be(first, last))


@cache
def _patterns(code: str) -> tuple[tuple[Pattern, str], ...]:
    """Patterns with their translations, those that say most first."""
    found = [(Pattern(text), one) for text, one in sentences(code) if places_of(text)]
    known = [(pattern, one) for pattern, one in found if pattern.says_something]
    known.sort(key=lambda entry: -entry[0].weight)
    return tuple(known)
