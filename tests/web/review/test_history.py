"""The manager's range as tables and charts: figures add up, nothing rests on colour alone."""

import datetime as dt
import json
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.floor.days import DayLabor, day_labor
from planner.floor.state import floor_of
from planner.floor.ticks import Act
from planner.sheet.types import KitchenSheet
from tests.web.floor.example import floor_sheet, tick, worked_until
from web.presenters.preferences import Preferences
from web.presenters.tables import Table
from web.review.charts import Line, bars_chart, lines_chart
from web.review.drawing import drawn
from web.review.history_view import charts_of, history_view
from web.review.pages import LaborLinks, LaborRange, render_history, render_week
from web.review.periods import periods_of

LATER = dt.date(2030, 1, 1)
LINKS = LaborLinks("/kitchens/copper/labor", "/kitchens/copper", "/floor/copper")


def _day(sheet: KitchenSheet, date: dt.date) -> DayLabor:
    services = tuple(replace(one, date=date) for one in sheet.services)
    moved = replace(sheet, date=date, services=services)
    ticks = worked_until(moved, 700)
    ticks.append(tick(Act.PROBLEM, moved.cooks[0].batches[0], 500, reason="Equipment fails"))
    return day_labor(moved, moved, floor_of(ticks), 1)


@pytest.fixture(scope="module")
def days() -> list[DayLabor]:
    sheet = floor_sheet()
    return [_day(sheet, sheet.date + dt.timedelta(i)) for i in range(5)]


def _table(view_days: list[DayLabor], name: str, *, brief: bool = False) -> Table:
    view = history_view(view_days, LATER, Preferences(), brief=brief)
    return next(table for section in view.sections for table in section.tables if table.id == name)


def _column(table: Table, head: str) -> list[str]:
    at = table.heads.index(head)
    return [row[at] for row in table.rows]


def test_by_day_and_by_station_are_the_same_minutes(days: list[DayLabor]) -> None:
    by_day = sum(int(cell) for cell in _column(_table(days, "trend"), "Planned, min"))
    for name in ("stations", "cooks"):
        assert by_day == sum(int(cell) for cell in _column(_table(days, name), "Planned, min"))


def test_the_terms_of_why_add_up_as_they_are_shown(days: list[DayLabor]) -> None:
    cells = [
        float(cell.replace(",", "").replace("\N{MINUS SIGN}", "-").replace("+", ""))
        for cell in _column(_table(days, "why"), "Minutes")
    ]
    assert sum(cells[:-1]) == cells[-1]


def test_late_and_undone_stand_with_what_was_said(days: list[DayLabor]) -> None:
    assert _table(days, "left").rows
    assert _column(_table(days, "reasons"), "What was said") == ["Equipment fails"]


def test_a_long_range_is_shown_by_week(days: list[DayLabor]) -> None:
    spread = [replace(day, date=day.date + dt.timedelta(9 * at)) for at, day in enumerate(days)]
    found = periods_of(spread)
    assert all(period.name.startswith("Week of Mon") for period in found)
    assert sum(period.whole.batches for period in found) == sum(len(day.lines) for day in days)


def test_today_is_not_among_the_days_whose_difference_is_explained(days: list[DayLabor]) -> None:
    view = history_view(days, days[-1].date, Preferences())
    notes = " ".join(note for section in view.sections for note in section.notes)
    assert "Today is not over" in notes


def test_every_chart_stands_beside_a_table_and_has_a_text(days: list[DayLabor]) -> None:
    view = history_view(days, LATER, Preferences())
    with_charts = [section for section in view.sections if section.charts]
    assert len(with_charts) == 3
    assert all(section.tables for section in with_charts)
    for chart in charts_of(days, LATER).values():
        assert any(figure.isdigit() for figure in chart.alt)


def test_paper_has_room_for_a_few_rows_of_each(days: list[DayLabor]) -> None:
    view = history_view(days, LATER, Preferences(), brief=True)
    assert all(len(table.rows) <= 7 for section in view.sections for table in section.tables)


def test_pages_say_that_days_are_invented(days: list[DayLabor]) -> None:
    found = LaborRange("Copper", days[0].date, days[-1].date, LATER, None, days, invented=True)
    for page in (
        render_history(found, LINKS, Preferences()),
        render_week(found, LINKS, Preferences()),
    ):
        assert "Nobody worked them" in page
        assert "style=" not in page
    plain = render_history(replace(found, invented=False), LINKS, Preferences())
    assert "Nobody worked them" not in plain


def test_lines_are_told_apart_without_colour() -> None:
    chart = lines_chart(
        "x",
        "X",
        "X",
        ["1 Nov", "2 Nov"],
        [Line("A", (1.0, 2.0), dashed=True), Line("B", (2.0, 3.0))],
        "min",
    )
    svg = drawn(chart.spec)
    assert "stroke-dasharray" in svg
    assert ">A<" in svg
    assert ">B<" in svg
    assert set(re.findall(r"#[0-9a-f]{6}", svg)) <= {"#000000", "#ffffff"}


def test_bars_carry_their_figures() -> None:
    svg = drawn(bars_chart("x", "X", "X", [("Peel", 12.0), ("Dice", -3.0)], "min").spec)
    assert ">+12<" in svg
    assert ">\N{MINUS SIGN}3<" in svg


def test_a_drawing_is_kept_and_asks_for_nothing() -> None:
    spec = bars_chart("x", "X", "X", [("Peel", 1.0)], "min").spec
    assert drawn(spec) is drawn(spec)
    assert "<style" not in drawn(spec)
    assert "style=" not in drawn(spec)
    assert "href" not in drawn(spec).replace("xmlns:xlink", "")


@settings(max_examples=15, deadline=None)
@given(st.text(max_size=12))
def test_a_name_is_never_taken_for_code(name: str) -> None:
    svg = drawn(bars_chart("x", "X", "X", [(name, 4.0), ("Peel", 2.0)], "min").spec)
    assert ">Peel<" in svg


def test_specifications_are_plain_json(days: list[DayLabor]) -> None:
    for chart in charts_of(days, LATER).values():
        assert json.loads(json.dumps(chart.spec)) == chart.spec
