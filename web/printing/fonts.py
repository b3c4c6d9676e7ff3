"""The font that is printed with, and the room that its words need.

It stands beside the pages' other kept files (``web/static/vendor``), so that a label on a page and
one in a PDF are set in the same face and take the same room.
"""

from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path

from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

FAMILY = "DejaVu Sans Condensed"
MM_PER_POINT = 25.4 / 72
"""A point is 1/72 in. Source: CSS Values and Units Level 4, absolute lengths; PDF, user space."""

_VENDOR = Path(__file__).parent.parent / "static" / "vendor"
_FILES = {
    False: _VENDOR / "dejavu-sans-condensed-2.37.ttf",
    True: _VENDOR / "dejavu-sans-condensed-bold-2.37.ttf",
}
_MISSING = "\N{WHITE SQUARE}"
_KEPT = 4096
"""Texts whose measure is kept."""


@dataclass(frozen=True, slots=True)
class _Face:
    """Advance widths by code point, in ems."""

    widths: dict[int, float]


def font_file(bold: bool) -> Path:
    """The TrueType file of the face."""
    return _FILES[bold]


def text_width(text: str, points: float, bold: bool = False) -> float:
    """Width of a line of ``text`` in millimetres."""
    return _ems(text, bold) * points * MM_PER_POINT


# Words are set at one size after the other until they fit their place.
@lru_cache(maxsize=_KEPT)
def _ems(text: str, bold: bool) -> float:
    widths = _face(bold).widths
    missing = widths[ord(_MISSING)]
    return sum(widths.get(ord(sign), missing) for sign in text)


@lru_cache(maxsize=_KEPT)
def printable(text: str) -> str:
    """``text`` with an open square for each sign that the font has not: none is lost unseen.

    Line breaks and other white space become spaces.
    """
    widths = _face(True).widths
    return "".join(
        " " if sign.isspace() and sign != "\N{NO-BREAK SPACE}" else _of(sign, widths)
        for sign in text
    )


def _of(sign: str, widths: dict[int, float]) -> str:
    return sign if ord(sign) in widths else _MISSING


@cache
def _face(bold: bool) -> _Face:
    with TTFont(_FILES[bold], lazy=True) as font:
        em = font["head"].unitsPerEm
        metrics = font["hmtx"].metrics
        names: dict[int, str] = font.getBestCmap()
        return _Face({code: metrics[name][0] / em for code, name in names.items()})
