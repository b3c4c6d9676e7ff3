import pytest

from planner.clock import clock


@pytest.mark.parametrize(
    ("minutes", "text"),
    [
        (0, "00:00"),
        (485, "08:05"),
        (1439, "23:59"),
        (1440, "+1 00:00"),
        (1800, "+1 06:00"),
        (2 * 1440 + 61, "+2 01:01"),
        (-120, "-1 22:00"),
    ],
)
def test_minutes_read_as_wall_clock_with_the_day_in_front(minutes, text):
    assert clock(minutes) == text
