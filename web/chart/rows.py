"""Lanes: where each stretch lies, and what is written in it or below it."""

from collections.abc import Iterable, Set
from dataclasses import dataclass, replace

from planner.sheet.types import Lane, LaneBlock
from web.chart.axis import Axis
from web.chart.shapes import Bar, Row, Words
from web.chart.words import ELLIPSIS, shorten, shorten_name, text_width, wrap
from web.language import _
from web.presenters.clock import clock, span
from web.presenters.preferences import Preferences

SIZE = 18.0
"""Font size of the words in and below the bars."""

TITLE_SIZE = 22.0
UPRIGHT_SIZE = 13.0
_LINE = 21.0
_PAD = 5.0
_LEAST_BAR = 3.0
_LABEL_GAP = 12.0
_BOLD = 1.15
"""How much wider bold words are, from memory."""

STYLES = {
    "lead": "lead",
    "work": "work",
    "unattended": "unattended",
    "break": "break",
    "on the line": "line",
    "station set-up": "station",
}


@dataclass(frozen=True, slots=True)
class _Shape:
    bar: float
    """Height of a bar."""
    gap: float
    lines: int
    """Lines of text in a bar."""
    labels: bool
    """Whether words that do not fit go below."""


_COOK = _Shape(bar=46.0, gap=14.0, lines=2, labels=True)
_EQUIPMENT = _Shape(bar=27.0, gap=8.0, lines=1, labels=False)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A block with all that it says, on its track beside those it overlaps."""

    block: LaneBlock
    track: int
    says: str


@dataclass(frozen=True, slots=True)
class Laid:
    """A lane with all of it that no width changes."""

    lane: Lane
    shape: _Shape
    stretches: tuple[Stretch, ...]
    tracks: int

    def first(self, y: float) -> float:
        """Top of the first track of the lane at ``y``."""
        return y + self.shape.gap / 2

    def bottom(self, y: float) -> float:
        """Where the last track ends."""
        return self.first(y) + self.tracks * (self.shape.bar + 4) - 4

    def height(self, y: float, levels: int) -> float:
        """Height of the lane with so many levels of words below its bars."""
        return self.bottom(y) - y + levels * _LINE + self.shape.gap / 2 + (4 if levels else 0)


@dataclass(frozen=True, slots=True)
class Measure:
    """Where lanes end, characters that should stand below bars, and those that had no room."""

    bottom: float
    wanted: int
    lost: int


def laid(lanes: Iterable[Lane]) -> tuple[Laid, ...]:
    """Lanes made ready to be measured and drawn at any width."""
    return tuple(map(_laid, lanes))


def measured(
    lanes: Iterable[Laid], axis: Axis, top: float, levels: int, preferences: Preferences
) -> Measure:
    """What ``rows`` would come to: nothing is drawn, so that many widths can be tried."""
    y = top
    wanted = lost = 0
    for lane in lanes:
        below, used, asked = _below(lane, axis, y, levels, preferences)
        wanted += asked
        lost += _lost(below, asked)
        y += lane.height(y, used)
    return Measure(y, wanted, lost)


def rows(
    lanes: Iterable[Laid],
    axis: Axis,
    top: float,
    title_room: float,
    levels: int,
    preferences: Preferences,
    done: Set[int] = frozenset(),
) -> tuple[Row, ...]:
    """All lanes, one below the other from ``top``, with at most ``levels`` of words below bars.

    Work of batches with a number in ``done`` is drawn as done.
    """
    placed: list[Row] = []
    y = top
    for lane in lanes:
        row = _row(lane, axis, y, title_room, levels, preferences, done)
        placed.append(row)
        y += row.height
    return tuple(placed)


def _laid(lane: Lane) -> Laid:
    tracks = _tracks(lane.blocks)
    return Laid(
        lane,
        _COOK if lane.kind == "cook" else _EQUIPMENT,
        tuple(Stretch(block, track, _words(block)) for block, track in tracks),
        max((track for _block, track in tracks), default=0) + 1,
    )


def _row(
    lane: Laid,
    axis: Axis,
    y: float,
    title_room: float,
    levels: int,
    preferences: Preferences,
    done: Set[int],
) -> Row:
    first = lane.first(y)
    bars: list[Bar] = []
    for stretch in lane.stretches:
        bar_y = first + stretch.track * (lane.shape.bar + 4)
        bar = _bar(stretch, axis, bar_y, lane.shape, preferences)
        if bar.style == "work" and stretch.block.batch in done:
            bar = replace(bar, style="done", tip=_("%(batch)s (done)", batch=bar.tip))
        bars.append(bar)
    below, used, _asked = _below(lane, axis, y, levels, preferences)
    title = _title(lane.lane.title, first, lane.shape, title_room)
    cook = lane.lane.kind == "cook"
    return Row(y, lane.height(y, used), title, cook, tuple(bars), below)


def _below(
    lane: Laid, axis: Axis, y: float, levels: int, preferences: Preferences
) -> tuple[tuple[Words, ...], int, int]:
    """Words below the bars, the levels they take, and the characters that should stand there."""
    if not lane.shape.labels or not levels:
        return (), 0, 0
    homeless = [
        (axis.x(stretch.block.start), stretch.says)
        for stretch in lane.stretches
        if stretch.block.batch is not None
        # A lead is told with its batch's work.
        and stretch.block.kind != "lead"
        and len(" ".join(_lines(stretch, axis, lane.shape, preferences))) < len(stretch.says)
    ]
    below, used = _labels(homeless, lane.bottom(y), axis.right, levels)
    return below, used, sum(len(text) for _x, text in homeless)


def _lost(below: Iterable[Words], wanted: int) -> int:
    return wanted - sum(len(words.text.rstrip(ELLIPSIS)) for words in below)


def _tracks(blocks: tuple[LaneBlock, ...]) -> list[tuple[LaneBlock, int]]:
    """Blocks that overlap (two pots on one range) go side by side, on the first free track."""
    free_from: list[int] = []
    placed = []
    for block in sorted(blocks, key=lambda one: (one.start, one.end)):
        track = next((t for t, end in enumerate(free_from) if end <= block.start), len(free_from))
        free_from[track : track + 1] = [block.end]
        placed.append((block, track))
    return placed


def _bar(
    stretch: Stretch,
    axis: Axis,
    y: float,
    shape: _Shape,
    preferences: Preferences,
) -> Bar:
    block = stretch.block
    lines = _lines(stretch, axis, shape, preferences)
    x = axis.x(block.start)
    base = y + shape.bar / 2 + SIZE * 0.36 - (len(lines) - 1) * _LINE / 2
    inside = tuple(
        Words(x + _PAD, round(base + index * _LINE, 1), line) for index, line in enumerate(lines)
    )
    width = max(_LEAST_BAR, round(axis.x(block.end) - x, 1))
    tip = f"{span(block.start, block.end, preferences)} {stretch.says}"
    if block.kind == "unattended":
        tip = _("%(batch)s (unattended)", batch=tip)
    style = STYLES.get(block.kind, "work")
    upright = None
    word = _upright(block.kind)
    if word and not inside and width >= UPRIGHT_SIZE:
        upright = Words(round(x + width / 2, 1), round(y + shape.bar / 2, 1), word)
    return Bar(x, y, width, shape.bar, style, block.late, tip, inside, upright)


def _upright(kind: str) -> str:
    """A word for a bar that is too narrow for a line of text."""
    return {"break": _("break"), "station set-up": _("set up"), "on the line": _("line")}.get(
        kind, ""
    )


def _lines(
    stretch: Stretch, axis: Axis, shape: _Shape, preferences: Preferences
) -> tuple[str, ...]:
    """What stands in a bar: the whole text where it fits, else the batch's number, else nothing."""
    block = stretch.block
    if block.kind == "lead":
        return ()
    room = axis.x(block.end) - axis.x(block.start) - 2 * _PAD
    text = stretch.says
    if block.end > axis.end:
        text = _("%(text)s, until %(time)s", text=text, time=clock(block.end, preferences))
    lines = wrap(text, room, SIZE, shape.lines)
    if lines is None and shape.lines == 1:
        cut = shorten(text, room, SIZE)
        lines = (cut,) if len(cut) > 6 else None
    if lines is None and block.batch is not None:
        lines = wrap(str(block.batch), room + _PAD, SIZE, 1)
    return lines or ()


def _words(block: LaneBlock) -> str:
    number = f"{block.batch} " if block.batch is not None else ""
    late = f"{_late()} " if block.late else ""
    text = block.text[:1].upper() + block.text[1:]
    return f"{late}{number}{text}"


def _late() -> str:
    return _("LATE")


def _labels(
    homeless: list[tuple[float, str]], bottom: float, right: float, most_levels: int
) -> tuple[tuple[Words, ...], int]:
    """Words below the bars, on the first level with room; where none has, some are shortened.

    Where even the number of a batch has no room its words are left out: over others nobody could
    read either.
    """
    levels: list[list[tuple[float, str]]] = []
    free_from: list[float] = []
    for start, text in sorted(homeless):
        x = max(0.0, min(start, right - _label_width(text)))
        level = next((n for n, free in enumerate(free_from) if free <= x), len(levels))
        if level == most_levels:
            # The one that began first has most room to be shortened in.
            level = min(range(most_levels), key=lambda one: levels[one][-1][0])
            _squeeze(levels[level], x, text, right)
        elif level == len(levels):
            levels.append([(x, text)])
            free_from.append(0.0)
        else:
            levels[level].append((x, text))
        free_from[level] = _free_from(levels[level])
    placed = tuple(
        Words(
            round(x, 1),
            round(bottom + (depth + 1) * _LINE - 1, 1),
            text,
            _is_late(text),
        )
        for depth, level in enumerate(levels)
        for x, text in level
    )
    return placed, len(levels)


def _squeeze(level: list[tuple[float, str]], x: float, text: str, right: float) -> None:
    """Add words to a level that has no room, by taking some from the words before."""
    before, long = level[-1]
    short = _shortened(long, x - before - _LABEL_GAP)
    if not short and _is_late(long) and not _is_late(text):
        return
    level[-1:] = [(before, short)] if short else []
    start = max(x, _free_from(level))
    if kept := _shortened(text, right - start):
        level.append((start, kept))


def _shortened(text: str, room: float) -> str:
    """As much of the words as has room, the batch's number at the least; else nothing."""
    size = SIZE * _BOLD if _is_late(text) else SIZE
    head = " ".join(text.split()[: 2 if _is_late(text) else 1])
    cut = shorten(text, room, size)
    if len(cut) > len(head) + 2:
        return cut
    return head if text_width(head, size) <= room else ""


def _is_late(text: str) -> bool:
    return text.startswith(_late())


def _free_from(level: list[tuple[float, str]]) -> float:
    if not level:
        return 0.0
    x, text = level[-1]
    return x + _label_width(text) + _LABEL_GAP


def _label_width(text: str) -> float:
    return text_width(text, SIZE) * (_BOLD if _is_late(text) else 1.0)


def _title(title: str, first: float, shape: _Shape, room: float) -> tuple[Words, ...]:
    size = TITLE_SIZE * _BOLD if shape.labels else SIZE
    lines = wrap(title, room, size, 4 if shape.labels else 1)
    if lines is None:
        lines = (shorten_name(title, room, size),)
    start = first + shape.bar / 2 + TITLE_SIZE * 0.36 - min(1, len(lines) - 1) * 13
    return tuple(Words(16, round(start + index * 26, 1), line) for index, line in enumerate(lines))
