"""On which day a step starts: Ana is in from 08:00 to 17:00 every day, dinner is at 18:00."""

from typing import Any

import pytest

from planner.kitchen.hours import DAY
from planner.quantities.timing import StepMinutes, timings
from tests.kitchens.bench import (
    File,
    bench,
    cook,
    cut_from,
    day,
    dish,
    food,
    kit_of,
    work,
)

OPENS, CLOSES, DINNER = 8 * 60, 17 * 60, 18 * 60
HANDS = 10
"""Minutes of an operation on the kilo that is asked for."""


def kitchen(operations: list[File], *route: str | File, **parts: Any) -> File:
    fields = parts.pop("component", {})
    return bench(
        ingredients=[food("pork")],
        operations=operations,
        components=[cut_from("pork", "ham", *route, **fields)],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )


def starts(file: File, due: int) -> list[int]:
    """Latest start of every step for one kilo finished at ``due``."""
    kit = kit_of(file)
    ham = kit.catalog.components["ham"]
    return [t.start for t in timings(kit.calendar, kit.flows, kit.efforts, ham, 1000.0, due)]


def test_work_due_after_the_last_shift_ends_with_it() -> None:
    assert starts(kitchen([work("cut")], "cut"), DINNER) == [CLOSES - HANDS]


def test_work_due_during_the_day_ends_when_it_is_due() -> None:
    assert starts(kitchen([work("cut")], "cut"), 12 * 60) == [12 * 60 - HANDS]


def test_each_step_ends_when_the_next_one_starts_less_the_least_wait() -> None:
    file = kitchen(
        [work("cut"), work("cook", unattended_minutes=60)],
        {"operation": "cut", "min_wait_minutes": 25},
        "cook",
    )
    cooking = 15 * 60 - 60 - HANDS
    assert starts(file, 15 * 60) == [cooking - 25 - HANDS, cooking]


def test_a_long_step_for_tomorrow_starts_today_as_late_as_somebody_is_in() -> None:
    """15 h of brine ready tomorrow at 18:00: bare minutes say 02:50, nobody is in before 17:00."""
    file = kitchen([work("brine", unattended_minutes=900)], "brine")
    assert starts(file, DAY + DINNER) == [CLOSES - HANDS]


def test_a_long_step_for_today_should_have_started_yesterday() -> None:
    file = kitchen([work("brine", unattended_minutes=900)], "brine")
    assert starts(file, DINNER) == [-DAY + CLOSES - HANDS]


@pytest.mark.parametrize(
    ("within", "late_start"),
    [(None, 15 * 60 - 50 - 5), (15, CLOSES - HANDS - 40 - 5)],
    ids=["any time", "within 15 min"],
)
def test_what_must_be_taken_out_when_done_is_taken_out_while_somebody_is_in(
    within: int | None, late_start: int
) -> None:
    """40 min of oven due when the shift is over, and due at 15:00 where it may stay in."""
    oven = work("roast", unattended_minutes=40, finish_minutes=5, finish_within_minutes=within)
    due = 15 * 60 if within is None else DINNER
    assert starts(kitchen([oven], "roast"), due) == [late_start]


def test_what_may_stay_in_can_start_just_before_everybody_leaves() -> None:
    slow = work("braise", unattended_minutes=600, finish_minutes=5)
    assert starts(kitchen([slow], "braise"), DAY + 10 * 60) == [CLOSES - HANDS]


def test_what_is_wanted_tonight_is_taken_out_before_everybody_leaves() -> None:
    """It may stay in the oven for long, but nobody would come back for it at six."""
    roast = work("roast", unattended_minutes=40, finish_minutes=5)
    assert starts(kitchen([roast], "roast"), DINNER) == [CLOSES - HANDS - 40 - 5]


def test_what_nobody_takes_out_may_be_done_after_everybody_has_left() -> None:
    rest = work("rest", unattended_minutes=60)
    assert starts(kitchen([rest], "rest"), CLOSES + 30) == [CLOSES - 30 - HANDS]


def test_what_must_be_taken_out_on_its_day_starts_early_enough_the_day_before() -> None:
    """Due at 10:00: two hours of oven do not fit before, so it is over by yesterday's close."""
    oven = work("roast", unattended_minutes=120, finish_minutes=5, finish_within_minutes=15)
    assert starts(kitchen([oven], "roast"), DAY + 9 * 60) == [CLOSES - HANDS - 120 - 5]


def test_days_ahead_starts_so_many_days_before_at_the_latest() -> None:
    file = kitchen([work("cut")], "cut", component={"days_ahead": 2}, rules={"lookahead_days": 2})
    assert starts(file, 2 * DAY + DINNER) == [CLOSES - HANDS]


def test_days_ahead_leaves_alone_what_starts_earlier_by_itself() -> None:
    file = kitchen(
        [work("brine", unattended_minutes=900)],
        "brine",
        component={"days_ahead": 0},
        rules={"lookahead_days": 2},
    )
    assert starts(file, DAY + DINNER) == [CLOSES - HANDS]


def test_work_that_fits_tomorrow_with_too_little_to_spare_starts_today() -> None:
    """Due tomorrow at 09:00, ten minutes of work: 50 to spare, the kitchen wants 60."""
    file = kitchen([work("cut")], "cut", rules={"day_margin_minutes": 60})
    assert starts(file, DAY + 9 * 60) == [CLOSES - HANDS]
    file = kitchen([work("cut")], "cut", rules={"day_margin_minutes": 50})
    assert starts(file, DAY + 9 * 60) == [DAY + 9 * 60 - HANDS]


@pytest.mark.parametrize("fields", [{"shelf_life_days": 1}, {"fresh_hours": 4}])
def test_food_for_its_own_day_knows_no_margin(fields: File) -> None:
    file = kitchen([work("cut")], "cut", component=fields, rules={"day_margin_minutes": 60})
    assert starts(file, DAY + 9 * 60) == [DAY + 9 * 60 - HANDS]


def test_today_knows_no_margin() -> None:
    """There is no day before any more."""
    file = kitchen([work("cut")], "cut", rules={"day_margin_minutes": 60})
    assert starts(file, 9 * 60) == [9 * 60 - HANDS]


def test_a_day_on_which_nobody_is_in_is_passed_over() -> None:
    shifts = [{"date": day(ahead), "start": "08:00", "end": "17:00"} for ahead in (0, 2)]
    file = kitchen(
        [work("brine", unattended_minutes=900)],
        "brine",
        cooks=[cook("ana", shifts=shifts)],
        rules={"lookahead_days": 2},
    )
    assert starts(file, 2 * DAY + DINNER) == [CLOSES - HANDS]


def test_the_hours_are_those_of_everybody_together() -> None:
    early = cook("ana", "06:00", "14:00")
    late = cook("ben", "12:00", "20:00")
    kit = kit_of(kitchen([work("cut")], "cut", cooks=[early, late]))
    hours = kit.calendar.hours[0]
    assert hours is not None
    assert (hours.opens, hours.closes) == (6 * 60, 20 * 60)


def test_a_step_on_much_food_takes_no_longer_than_its_first_lot() -> None:
    """Three vessels full go one after the other, but the first is done after one."""
    file = kitchen(
        [work("boil", unattended_minutes=30, finish_minutes=4, lot_limit="500 g")], "boil"
    )
    kit = kit_of(file)
    effort = kit.efforts.of(kit.catalog.components["ham"], 0)
    assert StepMinutes.of(effort, 1500.0) == StepMinutes.of(effort, 500.0)
    assert StepMinutes.of(effort, 500.0) == StepMinutes(
        5 + 30 + 4, 5, stretches=True, taken_out=True
    )


def test_a_step_takes_as_long_as_what_goes_into_it() -> None:
    """A kilo of ham after a loss of half: two kilos are trimmed, for twenty minutes."""
    trim = work("trim", yields=[{"food": "pork", "fraction": 0.5}])
    file = kitchen([trim, work("cut")], "trim", "cut")
    assert starts(file, 12 * 60) == [12 * 60 - 10 - 20, 12 * 60 - 10]
