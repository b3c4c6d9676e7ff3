"""The wall: what is late first, lots together, and a chart with the time in it."""

import xml.etree.ElementTree as ET

import pytest

from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Act
from tests.web.floor.example import LINKS, batch_of, first, floor_sheet, tick
from web.chart.live import Live, live_chart
from web.floor.pages import render_floor_wall
from web.floor.wall import at_work, late_numbers, wall_view
from web.presenters.preferences import Preferences

SHEET = floor_sheet()
METRIC = Preferences()


def test_problems_then_late_then_behind() -> None:
    soup = first(SHEET, "tomas", food_name="Onion soup base", part="work")
    assert soup.due is not None
    said = tick(Act.PROBLEM, SHEET.cooks[0].batches[4], 500, reason="Too little food")
    view = wall_view(SHEET, floor_of([said]), soup.due + 1.0, METRIC)
    heads = [line.head.split(" ")[0] for line in view.late]
    assert heads[0] == "Problem:"
    assert heads == sorted(heads, key=["Problem:", "Late", "Behind"].index)
    assert view.more_late.startswith("and ")


def test_lots_put_on_together_come_out_in_one_line() -> None:
    roast = first(SHEET, "tomas", operation_name="Roast", part="work")
    view = wall_view(SHEET, floor_of([tick(Act.DONE, roast, 380)]), 400, METRIC)
    assert [(one.what, one.left, one.is_due) for one in view.timers] == [
        ("Roast Veal bones", "30 min", False)
    ]
    assert f"{len(roast.tasks)} lots" in view.timers[0].place
    over = wall_view(SHEET, floor_of([tick(Act.DONE, roast, 380)]), 433.5, METRIC)
    assert [(one.left, one.is_due, one.heard) for one in over.timers] == [
        ("3 min over", True, False)
    ]


def test_everybody_is_at_something() -> None:
    begun = SHEET.cooks[0].batches[0]
    told = at_work(SHEET, floor_of([tick(Act.BEGUN, begun, 375)]), METRIC)
    assert told["Ines Marlo"] == (
        "Ines",
        f"{begun.number} {begun.operation_name} {begun.food_name}",
    )
    assert len(told) == len(SHEET.cooks)
    assert told["Tomas Brenk"][1].startswith("06:")


def test_the_chart_shows_hours_around_now_and_where_now_is() -> None:
    live = Live(600, frozenset(), frozenset(), at_work(SHEET, Floor(), METRIC))
    drawn = live_chart(SHEET, live, METRIC, 2.75)
    assert drawn.now is not None
    assert drawn.now.start <= 600 - 30
    assert drawn.now.end >= 600 + 180
    share = (600 - drawn.now.start) / (drawn.now.end - drawn.now.start)
    assert drawn.now.x == pytest.approx(
        drawn.left + share * (drawn.now.right - drawn.left), abs=0.1
    )
    assert drawn.height * 2.75 <= drawn.width + 1
    for row in drawn.rows:
        for bar in row.bars:
            assert drawn.left <= bar.x
            assert bar.x + bar.width <= drawn.width
    assert all(key.words.x < drawn.width - 100 for key in drawn.keys)


def test_done_and_late_work_is_told_apart_without_colour() -> None:
    done = SHEET.cooks[0].batches[0]
    late = SHEET.cooks[0].batches[1]
    live = Live(
        420,
        frozenset({done.number}),
        frozenset({late.number}),
        at_work(SHEET, Floor(), METRIC),
    )
    bars = live_chart(SHEET, live, METRIC, 2.75).rows[0].bars
    assert {bar.style for bar in bars if "(done)" in bar.tip} == {"done"}
    assert {bar.late for bar in bars if f" {late.number} " in bar.tip} == {True}
    assert {bar.late for bar in bars if f" {done.number} " in bar.tip} == {False}


def test_the_page_holds_a_well_formed_chart() -> None:
    html = render_floor_wall(SHEET, Floor(), LINKS, now=600)
    svg = html[html.index("<svg") : html.index("</svg>") + 6]
    assert "data-now-line" in svg
    ET.fromstring(svg)  # noqa: S314 - our own text


def test_a_planned_delay_is_known_before_it_happens() -> None:
    late = next(batch for cook in SHEET.cooks for batch in cook.batches if batch.late and batch.due)
    numbers = late_numbers(SHEET, Floor(), 360)
    ready = late.end + late.unattended
    assert late.due is not None
    assert (late.number in numbers) == (ready > late.due)
    assert batch_of(SHEET, late.number) is late
