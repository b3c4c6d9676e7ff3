"""Room that text needs on the chart. A server cannot measure a reader's font, so it estimates."""

import re
from functools import lru_cache
from itertools import accumulate

ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"
_NARROW = frozenset("fijlrtI.,:;'|!()[]- ")
_WIDE = frozenset("mwMW@%&")
_WORD = re.compile(r"(\s*)([^\s-]*-|[^\s-]+)")


# A chart is drawn several times over, each with the same words, until it fits its place.
_KEPT = 8192


@lru_cache(maxsize=_KEPT)
def text_width(text: str, size: float) -> float:
    """Estimated width of ``text`` at a font ``size``, in the same unit; errs on the wide side."""
    return size * sum(_share(sign) for sign in text)


@lru_cache(maxsize=_KEPT)
def wrap(text: str, room: float, size: float, lines: int) -> tuple[str, ...] | None:
    """``text`` in at most so many lines no wider than ``room``, or None where it does not fit.

    A line ends at a space or after a hyphen.
    """
    done: list[str] = []
    for space, word in _WORD.findall(text):
        longer = f"{done[-1]}{' ' if space else ''}{word}" if done else word
        if done and text_width(longer, size) <= room:
            done[-1] = longer
        else:
            done.append(word)
    if len(done) > lines or any(text_width(line, size) > room for line in done):
        return None
    return tuple(done)


@lru_cache(maxsize=_KEPT)
def shorten(text: str, room: float, size: float) -> str:
    """``text`` cut to ``room`` with an ellipsis; whole where it fits."""
    if text_width(text, size) <= room:
        return text
    ends = accumulate((_share(sign) * size for sign in text), initial=_share(ELLIPSIS) * size)
    kept = sum(end <= room for end in ends) - 1
    return f"{text[: max(0, kept)].rstrip()}{ELLIPSIS}"


def shorten_name(name: str, room: float, size: float) -> str:
    """A name cut to ``room``, but for the number at its end: it tells one burner from the next."""
    head, space, number = name.rpartition(" ")
    if not space or not number.isdigit():
        return shorten(name, room, size)
    if text_width(name, size) <= room:
        return name
    return f"{shorten(head, room - text_width(f' {number}', size), size)} {number}"


def _share(sign: str) -> float:
    # Shares of the font size, from memory, of the widest of the common system fonts.
    if sign in _NARROW:
        return 0.38
    if sign in _WIDE:
        return 0.92
    return 0.7 if sign.isupper() or sign.isdigit() else 0.6
