"""Times, days and durations."""

import datetime as dt

import pytest

from planner.wording import short_date
from web.presenters.clock import (
    clock,
    clock_mark,
    duration,
    long_date,
    span,
    until,
)
from web.presenters.preferences import Preferences
from web.presenters.typography import MINUS, TO

H24 = Preferences()
H12 = Preferences(clock=12)


@pytest.mark.parametrize(
    ("minutes", "text"),
    [
        (0, "00:00"),
        (460, "07:40"),
        (1439, "23:59"),
        (1440, "00:00 next day"),
        (1520, "01:20 next day"),
        (2880, "00:00 2 days later"),
        (-60, "23:00 the day before"),
        (-1500, "23:00 2 days before"),
    ],
)
def test_the_clock_rolls_over_midnight_and_names_the_day(minutes: int, text: str) -> None:
    assert str(clock(minutes, H24)) == text


@pytest.mark.parametrize(
    ("minutes", "text"),
    [
        (0, "12:00 am"),
        (5, "12:05 am"),
        (460, "7:40 am"),
        (720, "12:00 pm"),
        (785, "1:05 pm"),
        (1439, "11:59 pm"),
        (1445, "12:05 am next day"),
    ],
)
def test_the_twelve_hour_clock(minutes: int, text: str) -> None:
    assert str(clock(minutes, H12)) == text


def test_marks_on_an_axis_are_short() -> None:
    assert clock_mark(1450, H24) == "00:10 +1"
    assert clock_mark(600, H24) == "10:00"


def test_a_span_names_its_day_once_and_both_where_they_differ() -> None:
    assert span(360, 870, H24) == f"06:00{TO}14:30"
    assert span(1450, 1470, H24) == f"00:10{TO}00:30 next day"
    assert span(1380, 1470, H24) == f"23:00{TO}00:30 next day"
    assert until(1450, 1470, H24) == "00:30"
    assert until(1380, 1470, H24) == "00:30 next day"


@pytest.mark.parametrize(
    ("minutes", "text"),
    [
        (0, "0 min"),
        (25, "25 min"),
        (60, "1 h"),
        (65, "1 h 05"),
        (85, "1 h 25"),
        (-65, f"{MINUS}1 h 05"),
    ],
)
def test_durations(minutes: int, text: str) -> None:
    assert duration(minutes) == text


def test_dates_in_full_and_for_a_label() -> None:
    assert long_date(dt.date(2027, 3, 9)) == "Tuesday 9 March 2027"
    assert short_date(dt.date(2027, 3, 9)) == "Tue 9 Mar"
