"""One label: its words set as large as its room allows.

Food and allergens are never cut short; what has no room at the least size is an error.
"""

import math
from bisect import bisect_left
from dataclasses import dataclass
from itertools import count, takewhile

from web.language import _
from web.presenters.labels import PrintedLabel, amount_words, storage_words
from web.printing.shapes import Rule, Shape
from web.printing.stock import LabelRoll
from web.printing.words import Line, Run, line_height, set_lines, wrapped

LEAST_POINTS = 6.0
"""Smaller words on a container nobody reads. Starting guess."""
_FOOD, _USE_BY, _REST = 12.0, 10.5, 8.0
_LARGEST, _STEP = 1.6, 0.05
_SCALES = tuple(
    takewhile(lambda scale: scale * _REST >= LEAST_POINTS - 1e-9, count(_LARGEST, -_STEP))
)
"""From the largest down to what can just be read."""
_ROLL_SCALE = 1.15
_GAP, _RULE = 0.5, 0.35
"""Above and below the line under the food, and its width, mm."""
_DOT = "\N{MIDDLE DOT}"

_Words = tuple[tuple[float, tuple[Run, ...]], ...]
"""(font size at scale 1, words) from the top."""


class LabelRoomError(ValueError):
    """A label's words do not fit; its message names the food and what to do."""


@dataclass(frozen=True, slots=True)
class _Set:
    """A label's words at one scale."""

    blocks: tuple[tuple[float, tuple[Line, ...]], ...]
    """(font size, lines) from the top."""

    @property
    def height(self) -> float:
        """Height of all lines and of the rule below the first block, mm."""
        return 2 * _GAP + sum(len(lines) * line_height(size) for size, lines in self.blocks)


def label_in(label: PrintedLabel, width: float, height: float) -> tuple[Shape, ...]:
    """The label's words within ``width`` by ``height`` mm, as large as they fit.

    Raises
    ------
    LabelRoomError
        They do not, at the least size that can be read.
    """
    for flowing in (False, True):
        words = _words(label, flowing=flowing)
        # Smaller words never take more room: the largest scale that fits is found by halves.
        first = bisect_left(
            _SCALES, True, key=lambda scale: _set(words, width, scale).height <= height
        )
        if first < len(_SCALES):
            return _shapes(_set(words, width, _SCALES[first]), width)
    wide, high = f"{width:g}", f"{height:g}"
    raise LabelRoomError(
        _(
            "The label of %(food)s has no room on %(width)s by %(height)s mm: "
            "choose larger labels or the roll.",
            food=label.kind.food,
            width=wide,
            height=high,
        )
    )


def label_on_roll(label: PrintedLabel, roll: LabelRoll) -> tuple[float, tuple[Shape, ...]]:
    """Length of the label, mm, and its words, from its upper left corner within the insets.

    Raises
    ------
    LabelRoomError
        It would be longer than the longest.
    """
    width = roll.width - 2 * roll.inset
    found = _set(_words(label), width, _ROLL_SCALE)
    steps = max(0, math.ceil((found.height + 2 * roll.inset - roll.least) / roll.step))
    length = roll.least + steps * roll.step
    if length > roll.most:
        return roll.most, label_in(label, width, roll.most - 2 * roll.inset)
    return length, _shapes(found, width)


def _words(label: PrintedLabel, *, flowing: bool = False) -> _Words:
    """What the label says; ``flowing``, the small print runs on in place of a line for each."""
    kind = label.kind
    use_by = (
        Run(_("Use by")),
        Run(f"{_kept(kind.use_by)},", bold=True),
        Run(_kept(_("end of day"))),
    )
    small: tuple[tuple[Run, ...], ...] = (
        (Run(_("Made")), Run(f"{kind.made},"), Run(kind.initials, bold=True)),
        (Run(amount_words(label)),),
        (Run(_("Allergens:")), Run(kind.allergens, bold=True)),
        (
            Run(
                _(
                    "%(storage)s, batch %(batch)s",
                    storage=storage_words(kind.storage),
                    batch=kind.batch,
                )
            ),
        ),
    )
    if flowing:
        ends = (Run(_DOT),)
        small = (tuple(run for part in small for run in (*part, *ends))[:-1],)
    return (
        (_FOOD, (Run(kind.food, bold=True),)),
        (_USE_BY, use_by),
        *((_REST, runs) for runs in small),
    )


def _set(words: _Words, width: float, scale: float) -> _Set:
    """The words at a scale."""
    sizes = [(max(LEAST_POINTS, points * scale), runs) for points, runs in words]
    return _Set(tuple((size, wrapped(runs, width, size)) for size, runs in sizes))


def _kept(words: str) -> str:
    """Words that stay on one line."""
    return words.replace(" ", "\N{NO-BREAK SPACE}")


def _shapes(found: _Set, width: float) -> tuple[Shape, ...]:
    shapes: list[Shape] = []
    top = 0.0
    for number, (size, lines) in enumerate(found.blocks):
        shapes += set_lines(lines, 0, top, size)
        top += len(lines) * line_height(size)
        if number == 0:
            # Clear of the letters that reach below their line.
            y = top + _GAP
            shapes.append(Rule(0, y, width, y, _RULE))
            top += 2 * _GAP
    return tuple(shapes)
