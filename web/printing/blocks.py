"""Rows that several printed sheets are made of: heads, paragraphs, lines to tick."""

from collections.abc import Iterable, Sequence

from web.printing.paper import Row
from web.printing.shapes import Box, Rule, Shape, moved
from web.printing.words import Run, line_height, set_lines, wrapped

BODY = 8.5
"""Size of what is read from near, points."""
TICK = 3.6
"""Side of a box to tick, mm."""
DOT = "\N{MIDDLE DOT}"
ARROW = "\N{RIGHTWARDS ARROW}"


def heading(text: str, width: float, points: float = 11, gap: float = 3.0) -> Row:
    """A heading, which stays with what it is the head of."""
    lines = wrapped([Run(text, bold=True)], width, points)
    return Row(
        len(lines) * line_height(points) + 0.6,
        tuple(set_lines(lines, 0, 0, points)),
        with_next=True,
        gap=gap,
    )


def paragraph(
    runs: Iterable[Run], width: float, points: float = BODY, gap: float = 0.6, x: float = 0.0
) -> tuple[Row, ...]:
    """Words, a row for each line."""
    return tuple(
        Row(line_height(points), tuple(set_lines([line], x, 0, points)), gap=gap * (number == 0))
        for number, line in enumerate(wrapped(runs, width - x, points))
    )


def with_dots(parts: Sequence[Sequence[Run]]) -> list[Run]:
    """Parts one after the other with a dot between them; the dot stays with the word before it."""
    runs: list[Run] = []
    for number, part in enumerate(part for part in parts if part):
        if number:
            last = runs.pop()
            runs.append(Run(f"{last.text}\N{NO-BREAK SPACE}{DOT}", last.bold))
        runs += part
    return runs


def tick_box(x: float, y: float) -> Box:
    """An empty box to tick with a pen."""
    return Box(x, y, TICK, TICK, edge=0.35)


def title_row(title: str, under: str, width: float) -> Row:
    """What the sheet is, large, and below it whose and for which day."""
    lines = wrapped([Run(title, bold=True)], width, 18)
    below = wrapped([Run(under)], width, 10)
    top = len(lines) * line_height(18)
    height = top + len(below) * line_height(10) + 1.2
    return Row(
        height + 1,
        (
            *set_lines(lines, 0, 0, 18),
            *set_lines(below, 0, top, 10),
            Rule(0, height, width, height, 0.6),
        ),
    )


def again_row(text: str, width: float) -> Row:
    """What stands at the head of every page but the first."""
    lines = wrapped([Run(text, bold=True)], width, 9)
    return Row(len(lines) * line_height(9) + 1.5, tuple(set_lines(lines, 0, 0, 9)))


def in_two_columns(rows: Sequence[Row], width: float, gap: float) -> Row:
    """Rows of ``(width - gap) / 2`` in two columns of about one height, not parted by pages.

    A column does not end with a row that stays with the next one.
    """
    tops = [0.0]
    for row in rows:
        tops.append(tops[-1] + row.gap + row.height)
    ends = [number for number in range(1, len(rows)) if not rows[number - 1].with_next]
    half = min(ends, key=lambda end: abs(tops[end] - tops[-1] / 2), default=len(rows))
    right = (width + gap) / 2
    shapes: list[Shape] = []
    for number, row in enumerate(rows):
        second = number >= half
        top = tops[number] + row.gap - (tops[half] if second else 0.0)
        shapes += (moved(shape, right if second else 0.0, top) for shape in row.shapes)
    return Row(max(tops[half], tops[-1] - tops[half]), tuple(shapes))
