"""The lane chart: every stretch in its place, told by pattern and by text."""

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from planner.sheet.types import KitchenSheet, Lane, LaneBlock
from tests.web.example import example_sheet, one_cook_sheet
from web.chart.layout import PAPER, SCREEN, chart, charts
from web.chart.rows import SIZE
from web.chart.words import shorten, shorten_name, text_width, wrap
from web.pages import lane_chart_svg
from web.presenters.preferences import Preferences
from web.presenters.typography import TO

METRIC = Preferences()
_SVG = "{http://www.w3.org/2000/svg}"


def _sheet(*blocks: LaneBlock, kind: str = "cook") -> KitchenSheet:
    return replace(example_sheet(), lanes=(Lane("Lane", kind, blocks),))


def _work(start: int, end: int, number: int = 1, text: str = "Dice onion") -> LaneBlock:
    return LaneBlock(start, end, "work", text, number, late=False)


def test_the_chart_is_well_formed_svg_with_title_and_description() -> None:
    root = ET.fromstring(lane_chart_svg(example_sheet()))  # noqa: S314 - our own text
    assert root.attrib["role"] == "img"
    title, description = root[0], root[1]
    assert (title.tag, description.tag) == (f"{_SVG}title", f"{_SVG}desc")
    assert root.attrib["aria-labelledby"] == f"{title.attrib['id']} {description.attrib['id']}"
    assert "Lunch on the line 11:00" in (description.text or "")


def test_every_stretch_of_every_lane_has_a_bar_that_says_when_and_what() -> None:
    sheet = example_sheet()
    drawn = chart(sheet, METRIC)
    bars = [bar for row in drawn.rows for bar in row.bars]
    assert len(bars) == sum(len(lane.blocks) for lane in sheet.lanes)
    assert f"13:34{TO}13:43 36 Chop Flat parsley" in [bar.tip for bar in bars]


@pytest.mark.parametrize("shape", [SCREEN, PAPER, 1.0])
def test_nothing_is_drawn_outside_the_view_box(shape: float) -> None:
    for drawn in (chart(example_sheet(), METRIC, shape), chart(one_cook_sheet(), METRIC, shape)):
        for row in drawn.rows:
            assert row.y + row.height <= drawn.height
            for bar in row.bars:
                assert bar.x >= drawn.left
                assert bar.x + bar.width <= drawn.width
                assert row.y <= bar.y
                assert bar.y + bar.height <= row.y + row.height
            for words in row.below:
                assert 0 <= words.x <= drawn.width
                assert words.y <= row.y + row.height


def test_bars_are_as_long_as_their_minutes() -> None:
    drawn = chart(_sheet(_work(480, 540), _work(600, 630, 2)), METRIC)
    long, short = drawn.rows[0].bars
    assert long.width == pytest.approx(2 * short.width, abs=0.3)


def test_stretches_at_the_same_time_lie_side_by_side() -> None:
    drawn = chart(_sheet(_work(480, 540), _work(500, 560, 2), kind="equipment"), METRIC)
    first, second = drawn.rows[0].bars
    assert second.y >= first.y + first.height


def test_kinds_differ_in_pattern_not_only_in_colour() -> None:
    svg = lane_chart_svg(example_sheet())
    for style in ("lead", "unattended", "line", "station"):
        assert f'id="chart-fill-{style}"' in svg
        assert f'fill="url(#chart-fill-{style})"' in svg
    for words in ("runs by itself", "on the line", "station set-up", "set-up, changeover"):
        assert words in svg


def test_late_work_is_marked_in_words_and_by_an_edge() -> None:
    svg = lane_chart_svg(example_sheet())
    assert "LATE 33" in svg
    assert 'class="c-late-edge"' in svg


def test_what_does_not_fit_in_its_bar_stands_below_it() -> None:
    drawn = chart(_sheet(_work(480, 485, 7, "Dice yellow onion")), METRIC)
    row = drawn.rows[0]
    assert row.bars[0].inside == ()
    assert [words.text for words in row.below] == ["7 Dice yellow onion"]


def test_every_batch_of_a_crowded_lane_keeps_its_number() -> None:
    blocks = [_work(480 + 5 * n, 485 + 5 * n, n + 1, "Check chicken stock") for n in range(40)]
    drawn = chart(_sheet(*blocks), METRIC)
    # Words are cut short, but the number is what leads to the sheet.
    assert len(drawn.rows[0].below) >= 20
    for before, after in zip(
        sorted(drawn.rows[0].below, key=lambda one: (one.y, one.x)),
        sorted(drawn.rows[0].below, key=lambda one: (one.y, one.x))[1:],
        strict=False,
    ):
        if before.y == after.y:
            assert before.x + text_width(before.text, 18.0) <= after.x


@pytest.mark.parametrize("last", [900, 1430])
@pytest.mark.parametrize("late", [False, True])
def test_words_below_a_crowded_lane_do_not_cover_each_other(last: int, late: bool) -> None:
    """Many batches begun within minutes, also where the chart ends, and some of them late."""
    text = "Break down into quarters Whole chicken"
    blocks = [_work(420, 424, 1, text)]
    blocks += [
        _work(last - 60 + number, last - 58 + number, number, text) for number in range(2, 40)
    ]
    blocks = [replace(one, late=late and (one.batch or 0) % 3 == 0) for one in blocks]
    drawn = chart(_sheet(*blocks), METRIC, PAPER)
    (row,) = drawn.rows
    assert row.below
    ends: dict[float, float] = {}
    for words in sorted(row.below, key=lambda one: (one.y, one.x)):
        assert words.x >= ends.get(words.y, 0.0), f"{words.text} covers the words before"
        ends[words.y] = words.x + text_width(words.text, SIZE) * (1.15 if words.strong else 1.0)
    assert max(ends.values()) <= drawn.width


def test_a_chart_that_would_come_out_small_is_split_into_cooks_and_equipment() -> None:
    sheet = example_sheet()
    pots = tuple(
        Lane(f"Sauce pot, twelve litres {n}", "equipment", (_work(480, 600),)) for n in range(30)
    )
    parts = charts(replace(sheet, lanes=(*sheet.lanes[:5], *pots)), METRIC, SCREEN)
    assert [{row.cook for row in part.rows} for part in parts] == [{True}, {False}]
    # Both keep the time of the whole sheet, so that they read one above the other.
    assert [tick.text for tick in parts[0].ticks] == [tick.text for tick in parts[1].ticks]


def test_work_that_runs_on_overnight_does_not_squeeze_the_day() -> None:
    overnight = LaneBlock(960, 2400, "unattended", "Proof dough", 2, late=False)
    drawn = chart(_sheet(_work(480, 960), overnight, kind="equipment"), METRIC)
    texts = [words.text for bar in drawn.rows[0].bars for words in bar.inside]
    assert any("until 16:00 next day" in text for text in texts)
    assert drawn.ticks[-1].text != "16:00 +1"


def test_a_sheet_without_lanes_still_gives_a_chart() -> None:
    assert lane_chart_svg(one_cook_sheet()).startswith("<svg")


def test_two_charts_on_one_page_share_no_id() -> None:
    first = lane_chart_svg(example_sheet(), prefix="a-")
    second = lane_chart_svg(example_sheet(), prefix="b-")
    assert 'id="a-title"' in first
    assert 'id="a-' not in second


def test_words_are_wrapped_at_spaces_and_after_hyphens() -> None:
    assert wrap("peel onion", 1000, 18, 2) == ("peel onion",)
    assert wrap("Maria-Alessandra Berg", text_width("Alessandra", 18) + 1, 18, 3) == (
        "Maria-",
        "Alessandra",
        "Berg",
    )
    assert wrap("peel onion", 10, 18, 2) is None


def test_shortened_words_fit_their_room_and_names_keep_their_number() -> None:
    for room in (40, 80, 120):
        assert text_width(shorten("Simmer chicken stock", room, 18), 18) <= room
    name = shorten_name("Walk-in prep shelf 12", 120, 18)
    assert name.endswith("… 12")
    assert text_width(name, 18) <= 120
