"""Patterns with places, found again in the texts that were made of them.

A pattern is its literal pieces and, between them, places. Matching walks the pieces from left to
right and remembers where it has failed, so its work is bounded whatever the text.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

_PLACE = re.compile(r"\{(\w+)[^{}]*\}")
_FIGURE = re.compile(r"[-+]?\d[\d.,:]*(?:e[-+]?\d+)?")
_AMOUNT = re.compile(r"[-+]?\d[\d.,]*(?: [\w%]+){0,2}")
_WARM = re.compile(r"-?\d+(?:\.\d+)? C(?: \(-?\d+ F\))?")
_CLOCK = re.compile(r"(?:[-+]\d+ )?\d\d:\d\d(?:, [A-Z][a-z]{2} \d{1,2} [A-Z][a-z]{2})?")
_WHOLE = {"n": _FIGURE, "amount": _AMOUNT, "warm": _WARM, "at": _CLOCK}
"""Kinds of places of which all that stands there has one form."""
_MEASURED = frozenset({*_WHOLE, "pulled", "numbers"})
"""Kinds of places that begin with a figure: what is pulled and numbers of units too."""
_LONGEST_FIGURE = 20
_LETTER = re.compile(r"[^\W\d_]")


def places_of(text: str) -> tuple[str, ...]:
    """Names of the places of a pattern, as they come."""
    return tuple(_PLACE.findall(text))


def kind_of(place: str) -> str:
    """What a place takes, by its name (`planner.wording.sentence`)."""
    return place.partition("_")[0]


def plain(text: str) -> str:
    """A text without places as it is shown: its braces are written twice."""
    return text.replace("{{", "{").replace("}}", "}")


def filled(text: str, values: dict[str, str]) -> str:
    """A pattern with texts in its places; how a figure is to be written is not asked again."""
    parts = _PLACE.split(text)
    return "".join(values[one] if at % 2 else plain(one) for at, one in enumerate(parts))


@dataclass(frozen=True)
class Pattern:
    """A text with places, in the source language."""

    text: str

    @cached_property
    def places(self) -> tuple[str, ...]:
        """Names of the places, as they come."""
        return places_of(self.text)

    @cached_property
    def kinds(self) -> tuple[str, ...]:
        """What the places take, as they come."""
        return tuple(map(kind_of, self.places))

    @cached_property
    def pieces(self) -> tuple[str, ...]:
        """What stands before, between and after the places."""
        return tuple(plain(_PLACE.sub("\0", self.text)).split("\0"))

    @cached_property
    def key(self) -> str:
        """The longest piece: no text without it can be of this pattern."""
        return max(self.pieces, key=len)

    @cached_property
    def weight(self) -> int:
        """Characters of all pieces."""
        return sum(map(len, self.pieces))

    @cached_property
    def has_figures(self) -> bool:
        """Whether a place does not take any text."""
        return not _MEASURED.isdisjoint(self.kinds)

    @property
    def says_something(self) -> bool:
        """Whether it has a place and a word of its own; what only joins texts is no sentence."""
        return bool(self.places) and bool(_LETTER.search("".join(self.pieces)))

    def may_be(self, first: str, last: str) -> bool:
        """Whether a text with this first and this last character can be of this pattern."""
        if self.pieces[0]:
            begins = self.pieces[0][0] == first
        else:
            begins = self.kinds[0] not in _MEASURED or first in "+-" or first.isdigit()
        return begins and (not self.pieces[-1] or self.pieces[-1][-1] == last)

    def match(self, text: str) -> dict[str, str] | None:
        """What stands in the places of ``text``, each as short as can be from the left, or None.

        A place is never empty. One that comes twice has the same text both times.
        """
        if self.key not in text or not text.startswith(self.pieces[0]):
            return None
        last = self.pieces[-1]
        if not text.endswith(last) or len(text) < self.weight + len(self.places):
            return None
        found = _walk(self, text, len(self.pieces[0]), len(text) - len(last))
        if found is None:
            return None
        values: dict[str, str] = {}
        for place, value in zip(self.places, found, strict=True):
            if values.setdefault(place, value) != value:
                return None
        return values


def _walk(pattern: Pattern, text: str, start: int, end: int) -> list[str] | None:
    last = len(pattern.places) - 1
    failed: set[tuple[int, int]] = set()

    def values(place: int, at: int) -> list[str] | None:
        if (place, at) in failed:
            return None
        for stop in _stops(pattern, text, place, at, end):
            if place == last:
                return [text[at:stop]]
            after = values(place + 1, stop + len(pattern.pieces[place + 1]))
            if after is not None:
                return [text[at:stop], *after]
            if not pattern.has_figures:
                break  # What does not follow here follows nowhere further on.
        failed.add((place, at))
        return None

    return values(0, start)


def _stops(pattern: Pattern, text: str, place: int, at: int, end: int) -> Iterator[int]:
    """Where the value that begins ``at`` may end, the nearest first."""
    kind = pattern.kinds[place]
    whole = _WHOLE.get(kind)
    if kind in _MEASURED and not _FIGURE.match(text, at, end):
        return
    if place == len(pattern.places) - 1:
        if at < end and (whole is None or whole.fullmatch(text, at, end)):
            yield end
        return
    piece = pattern.pieces[place + 1]
    stop = text.find(piece, at + 1, end)
    while stop >= 0:
        if whole is None or whole.fullmatch(text, at, stop):
            yield stop
        elif stop - at > _LONGEST_FIGURE:
            return
        stop = text.find(piece, stop + 1, end)
