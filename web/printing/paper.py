"""Rows on pages of A4 or Letter: where a page ends, what stands at its head and foot."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from web.language import _
from web.printing.fonts import text_width
from web.printing.shapes import Page, Rule, Shape, Text, moved
from web.printing.words import cut_short

_FOOT = 8.0
_SMALL = 7.5


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper and the room within its margins, millimetres."""

    id: str
    """In addresses: ``a4``."""
    name: str
    """What it is called."""
    width: float
    height: float
    margin: float = 10.0

    @property
    def room(self) -> float:
        """Width within the margins."""
        return self.width - 2 * self.margin

    @property
    def depth(self) -> float:
        """Height within the margins, above the foot."""
        return self.height - 2 * self.margin - _FOOT


A4 = Paper("a4", "A4", 210, 297)
LETTER = Paper("letter", "Letter", 215.9, 279.4)
A3_SIDEWAYS = Paper("a3", "A3", 420, 297)
"""Sizes: ISO 216; ANSI/ASME Y14.1 A."""

PAPERS = {paper.id: paper for paper in (A4, LETTER)}
"""What sheets and lists are printed on."""


@dataclass(frozen=True, slots=True)
class Row:
    """What stands side by side, from its own upper left corner."""

    height: float
    shapes: tuple[Shape, ...]
    with_next: bool = False
    """Whether it is not parted from the row below it."""
    gap: float = 0.0
    """Room above it, but at the head of a page, mm."""


def pages_of(
    rows: Sequence[Row], paper: Paper, whose: str, again: Callable[[], Row] | None = None
) -> tuple[Page, ...]:
    """The rows on as many pages as they need, numbered ``Ada 1/2``.

    Rows that stay with the next one go to a new page together; only what is longer than a page is
    parted.

    Parameters
    ----------
    whose
        Whose pages they are, or what they are.
    again
        Makes the row that stands at the head of each page after the first.
    """
    bodies = _bodies(rows, paper, again)
    return tuple(
        Page(
            paper.width,
            paper.height,
            (*body, *foot(paper, f"{whose} {number}/{len(bodies)}")),
        )
        for number, body in enumerate(bodies, start=1)
    )


def foot(paper: Paper, mark: str) -> tuple[Shape, ...]:
    """The usual caution and the page's number, at the foot of a page."""
    y = paper.height - paper.margin
    right = paper.width - paper.margin
    shown = cut_short(mark, paper.room / 3, _SMALL, bold=True)
    room = text_width(shown, _SMALL, bold=True)
    caution = _(
        "Usual limits: your local food code decides. Ask the person in charge when in doubt."
    )
    left = cut_short(caution, paper.room - room - 4, _SMALL)
    return (
        Rule(paper.margin, y - 4, right, y - 4, 0.2, grey=True),
        Text(paper.margin, y, left, _SMALL),
        Text(right - room, y, shown, _SMALL, bold=True),
    )


def joined(rows: Sequence[Row], gap: float = 0.0) -> tuple[Row, ...]:
    """The rows as one that is not parted, ``gap`` above it."""
    last = len(rows) - 1
    return tuple(
        replace(row, with_next=number < last, gap=gap if number == 0 else row.gap)
        for number, row in enumerate(rows)
    )


def _bodies(
    rows: Sequence[Row], paper: Paper, again: Callable[[], Row] | None
) -> list[tuple[Shape, ...]]:
    writer = _Writer(paper, again)
    for group in _groups(rows):
        height = sum(row.height for row in group) + sum(row.gap for row in group[1:])
        if not writer.holds(group[0].gap + height) and writer.fresh_holds(height):
            writer.turn()
        for row in group:
            # Only of a group that no page has room for.
            if not writer.holds(row.gap + row.height):
                writer.turn()
            writer.put(row)
    return [tuple(body) for body in writer.bodies]


def _groups(rows: Sequence[Row]) -> Iterator[list[Row]]:
    group: list[Row] = []
    for row in rows:
        group.append(row)
        if not row.with_next:
            yield group
            group = []
    if group:
        yield group


class _Writer:
    """Puts rows one below the other, page after page."""

    def __init__(self, paper: Paper, again: Callable[[], Row] | None) -> None:
        self.bodies: list[list[Shape]] = [[]]
        self._paper = paper
        self._again = again
        self._at = self._head = 0.0

    def holds(self, height: float) -> bool:
        """Whether so much has room on the page as it is."""
        return self._at + height <= self._paper.depth or self._at <= self._head

    def fresh_holds(self, height: float) -> bool:
        """Whether so much has room on a page of its own."""
        return self._head + height <= self._paper.depth

    def turn(self) -> None:
        """Begin a page."""
        self.bodies.append([])
        self._at = self._head = 0.0
        if self._again is not None:
            row = self._again()
            self.put(row)
            self._head = row.height

    def put(self, row: Row) -> None:
        """Put a row below what stands there; there is no gap at the head of a page."""
        margin = self._paper.margin
        top = self._at + (row.gap if self._at > self._head else 0.0)
        self.bodies[-1] += (moved(shape, margin, margin + top) for shape in row.shapes)
        self._at = top + row.height
