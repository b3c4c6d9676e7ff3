"""Windows of breaks: wherever in them each break lies, the rest rules hold."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.kitchen.document import Rules
from planner.kitchen.rests import RestWindow, latest_end, rests_of, too_long
from planner.kitchen.work import Break, RestRule, Shift


def shift(start: str = "08:00", end: str = "16:30", **fields: object) -> Shift:
    return Shift(start=start, end=end, **fields)


def rules(*pairs: tuple[float, int]) -> Rules:
    asked = tuple(RestRule(after_hours=hours, minutes=minutes) for hours, minutes in pairs)
    return Rules(rest_rules=asked)


def longest_spell(starts: list[tuple[int, int]], start: int, end: int, minutes: int) -> int:
    """Longest stretch between breaks that count, worked out from where they are."""
    since, longest = start, 0
    for at, length in sorted(starts):
        if length >= minutes:
            longest, since = max(longest, at - since), at + length
    return max(longest, end - since)


def test_a_stated_break_has_the_window_that_the_shift_gives_it() -> None:
    stated = shift(breaks=(Break(start="12:00", latest="13:00", minutes=30),))
    assert rests_of(stated, rules((2, 60))) == (RestWindow(30, 720, 780),)


def test_a_break_without_a_window_is_fixed() -> None:
    stated = shift(breaks=(Break(start="12:00", minutes=30),))
    assert rests_of(stated, Rules()) == (RestWindow(30, 720, 720),)


def test_a_short_shift_needs_no_break() -> None:
    assert rests_of(shift(end="14:00"), rules((6, 30))) == ()


def test_one_break_has_all_the_room_that_the_rule_leaves() -> None:
    """08:00 to 16:30 and an hour of overtime: no later than 14:00, and 6 h before 17:30."""
    assert rests_of(shift(), rules((6, 30))) == (RestWindow(30, 660, 840),)


def test_a_long_shift_has_as_many_breaks_as_it_needs() -> None:
    """08:00 to 18:00 and an hour more, 20 minutes after 4 hours: one leaves 4 h + 4 h + 20 min."""
    first, second = rests_of(shift(end="18:00"), rules((4, 20)))
    assert first.latest == 480 + 240
    assert second.latest == first.earliest + 20 + 240
    assert second.earliest + 20 + 240 >= 18 * 60 + 60


def test_overtime_ends_where_the_last_rest_was_too_long_ago() -> None:
    stated = shift(breaks=(Break(start="10:45", minutes=30),))
    assert latest_end(stated, Rules()) == 17 * 60 + 30
    assert latest_end(stated, rules((6, 30))) == 17 * 60 + 15


@pytest.mark.parametrize(
    ("breaks", "since", "until"),
    [
        ((Break(start="14:30", minutes=30),), 480, 870),
        ((Break(start="12:00", latest="14:30", minutes=30),), 480, 870),
        ((Break(start="09:00", minutes=30),), 570, 990),
        ((Break(start="12:00", minutes=20),), 480, 990),
    ],
    ids=["too late", "may be too late", "too early", "too short to count"],
)
def test_stated_breaks_are_held_to_the_rules(
    breaks: tuple[Break, ...], since: int, until: int
) -> None:
    found = too_long(shift(breaks=breaks), rules((6, 30)))
    assert found is not None
    assert (found.since, found.until) == (since, until)


@given(
    st.integers(4 * 60, 15 * 60),
    st.integers(0, 120),
    st.lists(
        st.tuples(st.sampled_from((2, 3, 3.5, 4, 5, 6)), st.sampled_from((10, 15, 20, 30, 45))),
        min_size=1,
        max_size=2,
    ),
)
@settings(max_examples=400, deadline=None)
def test_wherever_breaks_lie_in_their_windows_nobody_works_too_long(
    minutes: int, overtime: int, asked: list[tuple[float, int]]
) -> None:
    end = f"{(480 + minutes) // 60:02d}:{(480 + minutes) % 60:02d}"
    worked = shift(end=end, overtime_minutes=overtime)
    windows = rests_of(worked, rules(*asked))
    if too_long(worked, rules(*asked)) is not None:
        assert len(asked) > 1  # one rule alone can always be kept
        return
    last = latest_end(worked, rules(*asked))
    assert 480 + minutes <= last <= 480 + minutes + overtime
    for places in product(*({window.earliest, window.latest} for window in windows)):
        starts = [(at, one.minutes) for at, one in zip(places, windows, strict=True)]
        for hours, least in asked:
            assert longest_spell(starts, 480, last, least) <= hours * 60
