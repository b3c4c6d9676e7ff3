"""The wall chart on a sideways A3 page: the chart of `web.chart`, scaled to the paper."""

from collections.abc import Iterator

from planner.sheet.types import KitchenSheet
from web.chart.axis import FLAG_SIZE
from web.chart.layout import charts
from web.chart.rows import SIZE, TITLE_SIZE, UPRIGHT_SIZE
from web.chart.shapes import Bar, Chart, Row, Words
from web.chart.words import text_width as room_on_chart
from web.presenters.preferences import Preferences
from web.printing.fonts import MM_PER_POINT, printable, text_width
from web.printing.paper import A3_SIDEWAYS, foot
from web.printing.shapes import Box, Fill, Page, Rule, Shape, Text, moved
from web.printing.words import ASCENT

_HEAD = 12.0
_HEAD_POINTS = 18.0
_FOOT = 8.0
_ACROSS = A3_SIDEWAYS.room
_DOWN = A3_SIDEWAYS.height - 2 * A3_SIDEWAYS.margin - _HEAD - _FOOT
_FILLS: dict[str, Fill] = {
    "work": "ink",
    "lead": "hatch",
    "unattended": "dots",
    "line": "stripes",
    "station": "mesh",
}
_ON_INK = frozenset({"work"})
_KEY_WIDTH, _KEY_HEIGHT = 44.0, 26.0


def wall_pages(sheet: KitchenSheet, preferences: Preferences) -> tuple[Page, ...]:
    """One page, or two where cooks and equipment together would come out too small."""
    drawn = charts(sheet, preferences, _ACROSS / _DOWN)
    return tuple(
        Page(
            A3_SIDEWAYS.width,
            A3_SIDEWAYS.height,
            (
                *_head(f"{sheet.kitchen}: {one.title}"),
                *(
                    moved(shape, A3_SIDEWAYS.margin, A3_SIDEWAYS.margin + _HEAD)
                    for shape in _Scaled(one).shapes()
                ),
                *foot(A3_SIDEWAYS, f"{sheet.kitchen} {number}/{len(drawn)}"),
            ),
        )
        for number, one in enumerate(drawn, start=1)
    )


def _head(title: str) -> tuple[Shape, ...]:
    y = A3_SIDEWAYS.margin + _HEAD_POINTS * ASCENT * MM_PER_POINT
    return (Text(A3_SIDEWAYS.margin, y, printable(title), _HEAD_POINTS, bold=True, most=_ACROSS),)


class _Scaled:
    """A chart in millimetres."""

    def __init__(self, chart: Chart) -> None:
        self._chart = chart
        self._mm = min(_ACROSS / chart.width, _DOWN / chart.height)

    def shapes(self) -> Iterator[Shape]:
        """Bands, lines, bars and words, in the order in which they cover each other."""
        chart = self._chart
        for row in chart.rows:
            yield self._box(0, row.y, chart.width, row.height - 2, "grey" if row.cook else "paper")
        for due in chart.dues:
            yield self._rule(due.x, due.words.y - 18, due.x, chart.bottom, 3, dashed=True)
        for tick in chart.ticks:
            yield self._rule(tick.x, chart.top - 8, tick.x, chart.bottom, 1, grey=True)
            yield self._middle(tick.x, chart.top - 14, tick.text, SIZE)
        for row in chart.rows:
            yield from self._row(row)
        for due in chart.dues:
            yield self._words(due.words, FLAG_SIZE, bold=True)
        for key in chart.keys:
            bar = Bar(
                key.x, chart.key_y, _KEY_WIDTH, _KEY_HEIGHT, key.style, key.late, "", (), None
            )
            yield from self._bar(bar)
            yield self._words(key.words, SIZE)

    def _row(self, row: Row) -> Iterator[Shape]:
        for words in row.title:
            yield self._words(words, TITLE_SIZE if row.cook else SIZE, bold=row.cook)
        for bar in row.bars:
            yield from self._bar(bar)
        for words in row.below:
            yield self._words(words, SIZE, bold=words.strong, halo=True)

    def _bar(self, bar: Bar) -> Iterator[Shape]:
        fill = _FILLS.get(bar.style, "paper")
        yield self._box(bar.x, bar.y, bar.width, bar.height, fill, 1.5)
        if bar.late:
            for y in (bar.y - 5, bar.y + bar.height + 5):
                yield self._rule(bar.x, y, bar.x + bar.width, y, 5)
        on_ink = bar.style in _ON_INK
        for words in bar.inside:
            yield self._words(words, SIZE, bold=True, on_ink=on_ink, halo=not on_ink)
        if bar.upright:
            text = printable(bar.upright.text)
            half = room_on_chart(text, UPRIGHT_SIZE) / 2
            yield Text(
                (bar.upright.x + UPRIGHT_SIZE * 0.36) * self._mm,
                (bar.upright.y + half) * self._mm,
                text,
                self._points(UPRIGHT_SIZE),
                halo=True,
                angle=90,
                most=2 * half * self._mm,
            )

    def _points(self, size: float) -> float:
        return size * self._mm / MM_PER_POINT

    def _words(
        self,
        words: Words,
        size: float,
        *,
        bold: bool = False,
        on_ink: bool = False,
        halo: bool = False,
    ) -> Text:
        text = printable(words.text)
        return Text(
            words.x * self._mm,
            words.y * self._mm,
            text,
            self._points(size),
            bold,
            on_ink,
            halo,
            # As wide as the chart made room for.
            most=room_on_chart(text, size) * self._mm * (1.08 if bold else 1.0),
        )

    def _middle(self, x: float, y: float, text: str, size: float) -> Text:
        points = self._points(size)
        half = text_width(text, points, bold=True) / 2
        return Text(x * self._mm - half, y * self._mm, text, points, bold=True, halo=True)

    def _rule(
        self,
        x: float,
        y: float,
        to_x: float,
        to_y: float,
        width: float,
        *,
        grey: bool = False,
        dashed: bool = False,
    ) -> Rule:
        mm = self._mm
        return Rule(x * mm, y * mm, to_x * mm, to_y * mm, width * mm, grey, dashed)

    def _box(
        self, x: float, y: float, width: float, height: float, fill: Fill, edge: float = 0.0
    ) -> Box:
        mm = self._mm
        return Box(x * mm, y * mm, width * mm, height * mm, fill, edge * mm)
