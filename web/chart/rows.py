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


def rows(
    lanes: Iterable[Lane],
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


def _row(
    lane: Lane,
    axis: Axis,
    y: float,
    title_room: float,
    most_levels: int,
    preferences: Preferences,
    done: Set[int],
) -> Row:
    cook = lane.kind == "cook"
    shape = _COOK if cook else _EQUIPMENT
    tracks = _tracks(lane.blocks)
    depth = max((track for _block, track in tracks), default=0) + 1
    first = y + shape.gap / 2
    bars: list[Bar] = []
    homeless: list[tuple[float, str]] = []
    for block, track in tracks:
        bar_y = first + track * (shape.bar + 4)
        bar = _bar(block, axis, bar_y, shape, preferences)
        if bar.style == "work" and block.batch in done:
            bar = replace(bar, style="done", tip=_("%(batch)s (done)", batch=bar.tip))
        bars.append(bar)
        if shape.labels and most_levels and block.batch is not None and not _tells_all(block, bar):
            homeless.append((bar.x, _words(block)))
    bottom = first + depth * (shape.bar + 4) - 4
    below, levels = _labels(homeless, bottom, axis.right, most_levels)
    wanted = sum(len(text) for _x, text in homeless)
    lost = wanted - sum(len(words.text.rstrip(ELLIPSIS)) for words in below)
    height = bottom - y + levels * _LINE + shape.gap / 2 + (4 if levels else 0)
    title = _title(lane.title, first, shape, title_room)
    return Row(y, height, title, cook, tuple(bars), below, wanted, lost)


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
    block: LaneBlock,
    axis: Axis,
    y: float,
    shape: _Shape,
    preferences: Preferences,
) -> Bar:
    inside = _inside(block, axis, y, shape, preferences)
    x = axis.x(block.start)
    width = max(_LEAST_BAR, round(axis.x(block.end) - x, 1))
    tip = f"{span(block.start, block.end, preferences)} {_words(block)}"
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


def _inside(
    block: LaneBlock, axis: Axis, y: float, shape: _Shape, preferences: Preferences
) -> tuple[Words, ...]:
    """The whole text where it fits, else the batch's number, else nothing."""
    if block.kind == "lead":
        return ()
    x = axis.x(block.start)
    room = axis.x(block.end) - x - 2 * _PAD
    text = _words(block)
    if block.end > axis.end:
        text = _("%(text)s, until %(time)s", text=text, time=clock(block.end, preferences))
    lines = wrap(text, room, SIZE, shape.lines)
    if lines is None and shape.lines == 1:
        cut = shorten(text, room, SIZE)
        lines = (cut,) if len(cut) > 6 else None
    if lines is None and block.batch is not None:
        lines = wrap(str(block.batch), room + _PAD, SIZE, 1)
    if lines is None:
        return ()
    first = y + shape.bar / 2 + SIZE * 0.36 - (len(lines) - 1) * _LINE / 2
    return tuple(
        Words(x + _PAD, round(first + index * _LINE, 1), line) for index, line in enumerate(lines)
    )


def _tells_all(block: LaneBlock, bar: Bar) -> bool:
    # A lead is told with its batch's work.
    return block.kind == "lead" or len(" ".join(w.text for w in bar.inside)) >= len(_words(block))


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
    for start, text in sorted(homeless):
        x = max(0.0, min(start, right - _label_width(text)))
        level = next((level for level in levels if _free_from(level) <= x), None)
        if level is None and len(levels) < most_levels:
            level = []
            levels.append(level)
        if level is None:
            # The one that began first has most room to be shortened in.
            _squeeze(min(levels, key=lambda one: one[-1][0]), x, text, right)
        else:
            level.append((x, text))
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
