"""Dates and temperatures: refusals, and the cases between the published examples."""

import datetime as dt

import pytest

from planner.kitchen.foods import RawAnimal
from planner.kitchen.safety import (
    celsius,
    fahrenheit,
    minimum_cook_celsius,
    use_by,
    use_by_with_freezing,
)

MADE = dt.date(2024, 2, 27)


def test_one_day_means_used_on_the_day_it_is_made() -> None:
    assert use_by(MADE, 1) == MADE


def test_days_run_over_the_end_of_a_leap_february() -> None:
    assert use_by(MADE, 4) == dt.date(2024, 3, 1)


@pytest.mark.parametrize("days", [0, -3])
def test_no_days_at_all_are_refused(days: int) -> None:
    with pytest.raises(ValueError, match=f"not {days}"):
        use_by(MADE, days)


def test_food_frozen_at_once_has_still_spent_its_first_day() -> None:
    thawed = MADE + dt.timedelta(days=30)
    assert use_by_with_freezing(MADE, 7, MADE, thawed) == use_by(thawed, 6)


def test_time_in_the_freezer_does_not_count() -> None:
    frozen = MADE + dt.timedelta(days=2)
    ends = [
        use_by_with_freezing(MADE, 7, frozen, thawed) - thawed
        for thawed in (frozen + dt.timedelta(days=1), frozen + dt.timedelta(days=90))
    ]
    assert ends[0] == ends[1] == dt.timedelta(days=4)


def test_food_frozen_on_its_last_day_or_later_is_refused() -> None:
    with pytest.raises(ValueError, match="none left"):
        use_by_with_freezing(MADE, 2, MADE + dt.timedelta(days=2), MADE + dt.timedelta(days=9))


def test_thawing_before_freezing_is_refused() -> None:
    with pytest.raises(ValueError, match="follow one another"):
        use_by_with_freezing(MADE, 7, MADE + dt.timedelta(days=3), MADE + dt.timedelta(days=2))


@pytest.mark.parametrize("degrees", [-40.0, 0.0, 37.0, 100.0])
def test_celsius_and_fahrenheit_undo_each_other(degrees: float) -> None:
    assert celsius(fahrenheit(degrees)) == pytest.approx(degrees)


@pytest.mark.parametrize("animal", list(RawAnimal))
def test_grinding_never_lowers_the_temperature(animal: RawAnimal) -> None:
    assert minimum_cook_celsius(animal, ground=True) >= minimum_cook_celsius(animal)
