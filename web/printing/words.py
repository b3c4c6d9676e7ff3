"""Words set in lines: wrapped to a width, some of them bold."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from web.printing.fonts import MM_PER_POINT, printable, text_width
from web.printing.shapes import Text

LEADING = 1.18
"""From one base line to the next, by the font size."""
ASCENT = 0.78
"""From the top of a line to its base line, by the font size: capitals and accents stay below."""
_ELLIPSIS = "\N{HORIZONTAL ELLIPSIS}"


@dataclass(frozen=True, slots=True)
class Run:
    """Words of one weight."""

    text: str
    bold: bool = False


Line = tuple[Run, ...]


def line_height(points: float) -> float:
    """Height of a line, mm."""
    return points * LEADING * MM_PER_POINT


def wrapped(runs: Iterable[Run], width: float, points: float) -> tuple[Line, ...]:
    """The runs in lines no wider than ``width`` mm; a word that is wider is broken.

    No-break spaces keep together what they stand between.
    """
    lines: list[list[tuple[str, bool]]] = [[]]
    used = 0.0
    for word, bold in _words(runs, width, points):
        glue = text_width(" ", points, bold) if lines[-1] else 0.0
        room = text_width(word, points, bold)
        if lines[-1] and used + glue + room > width:
            lines.append([])
            used = glue = 0.0
        lines[-1].append((word, bold))
        used += glue + room
    return tuple(_joined(line) for line in lines if line)


def wrapped_text(text: str, width: float, points: float, bold: bool = False) -> tuple[str, ...]:
    """A text of one weight in lines no wider than ``width`` mm."""
    return tuple(
        " ".join(run.text for run in line) for line in wrapped([Run(text, bold)], width, points)
    )


def cut_short(text: str, width: float, points: float, bold: bool = False) -> str:
    """``text`` in one line no wider than ``width`` mm, an ellipsis for what has no room."""
    shown = printable(text)
    if text_width(shown, points, bold) <= width:
        return shown
    while shown and text_width(f"{shown}{_ELLIPSIS}", points, bold) > width:
        shown = shown[:-1].rstrip()
    return f"{shown}{_ELLIPSIS}"


def set_lines(
    lines: Sequence[Line], x: float, top: float, points: float, *, on_ink: bool = False
) -> list[Text]:
    """The lines one below the other, the first one's top at ``top``."""
    found = []
    for number, line in enumerate(lines):
        left = x
        y = top + number * line_height(points) + points * ASCENT * MM_PER_POINT
        for run in line:
            found.append(Text(left, y, run.text, points, run.bold, on_ink))
            left += text_width(f"{run.text} ", points, run.bold)
    return found


def _words(runs: Iterable[Run], width: float, points: float) -> Iterable[tuple[str, bool]]:
    for run in runs:
        for word in printable(run.text).split(" "):
            if word:
                for part in _broken(word, width, points, run.bold):
                    yield part, run.bold


def _broken(word: str, width: float, points: float, bold: bool) -> Iterable[str]:
    """A word in parts that fit; nearly always one."""
    while text_width(word, points, bold) > width and len(word) > 1:
        fits = 1
        while text_width(word[: fits + 1], points, bold) <= width:
            fits += 1
        yield word[:fits]
        word = word[fits:]
    yield word


def _joined(line: list[tuple[str, bool]]) -> Line:
    """Neighbours of one weight as one run."""
    runs: list[Run] = []
    for word, bold in line:
        if runs and runs[-1].bold == bold:
            runs[-1] = Run(f"{runs[-1].text} {word}", bold)
        else:
            runs.append(Run(word, bold))
    return tuple(runs)
