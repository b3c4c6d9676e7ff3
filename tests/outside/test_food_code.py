"""Our food-safety figures against the FDA Food Code, section by section.

Read through state pages that adopt its text, not from the FDA's own: Ohio's cooking chart (Food
Code 2005; Ohio Administrative Code 3717-1-03.3), North Carolina's sheet on date marking, and
Minnesota Rules 4626.0400. Where an edition matters it is named. The local food code governs.
"""

import datetime as dt

import pytest

from planner.kitchen.foods import RawAnimal
from planner.kitchen.safety import (
    COLD_HOLDING_C,
    COLD_HOLDING_F,
    COOLING,
    COOLING_FROM_AMBIENT,
    DATE_MARK_DAYS,
    HOT_HOLDING_C,
    HOT_HOLDING_F,
    TIME_CONTROL_COOL_MINUTES,
    TIME_CONTROL_MINUTES,
    celsius,
    fahrenheit,
    minimum_cook_celsius,
    use_by,
    use_by_with_freezing,
)


def test_cooling_3_501_14() -> None:
    """135 to 70 F in 2 h, 135 to 41 F in 6 h in all; from ambient to 41 F in 4 h."""
    limits = {(limit.from_f, limit.to_f): limit.minutes / 60 for limit in COOLING}
    assert limits == {(135, 70): 2, (135, 41): 6}
    assert (COOLING_FROM_AMBIENT.to_f, COOLING_FROM_AMBIENT.minutes / 60) == (41, 4)


def test_holding_3_501_16() -> None:
    """Cold at 41 F (5 C) or below, hot at 135 F (57 C) or above."""
    assert (COLD_HOLDING_F, HOT_HOLDING_F) == (41, 135)
    assert (round(celsius(41)), round(celsius(135))) == (COLD_HOLDING_C, HOT_HOLDING_C)


def test_date_marking_3_501_17() -> None:
    """7 days, the day of preparation being day 1: made on the 1st, the 7th is the last."""
    assert use_by(dt.date(2024, 10, 1), DATE_MARK_DAYS) == dt.date(2024, 10, 7)


def test_the_worked_example_of_date_marking_with_freezing() -> None:
    """Cooked Oct 1 (day 1), Oct 2 (day 2), frozen Oct 3; thawed Oct 10 (day 3): discard by
    midnight of Oct 14 (day 7). North Carolina's sheet on date marking.
    """
    october = [dt.date(2024, 10, 1) + dt.timedelta(days=day) for day in range(31)]
    last = use_by_with_freezing(
        made=october[0], days=DATE_MARK_DAYS, frozen=october[2], thawed=october[9]
    )
    assert last == october[13]


def test_time_as_control_3_501_19() -> None:
    """4 h; 6 h for what starts at 41 F or below and never passes 70 F."""
    assert (TIME_CONTROL_MINUTES, TIME_CONTROL_COOL_MINUTES) == (4 * 60, 6 * 60)


@pytest.mark.parametrize(
    ("animal", "ground", "degrees_f", "degrees_c"),
    [
        (RawAnimal.FISH, False, 145, 63),
        (RawAnimal.SHELLFISH, False, 145, 63),
        (RawAnimal.BEEF, False, 145, 63),
        (RawAnimal.PORK, False, 145, 63),
        (RawAnimal.LAMB, False, 145, 63),
        (RawAnimal.FISH, True, 155, 68),
        (RawAnimal.BEEF, True, 155, 68),
        (RawAnimal.PORK, True, 155, 68),
        (RawAnimal.EGG, False, 155, 68),  # not broken for immediate service
        (RawAnimal.POULTRY, False, 165, 74),
        (RawAnimal.POULTRY, True, 165, 74),
        (RawAnimal.GAME, False, 165, 74),  # wild; commercially raised game may be 145
    ],
)
def test_cooking_3_401_11(
    animal: RawAnimal, ground: bool, degrees_f: float, degrees_c: float
) -> None:
    """Both scales of Ohio's chart, which rounds Celsius to whole degrees."""
    found = minimum_cook_celsius(animal, ground)
    assert found == degrees_c
    assert fahrenheit(found) == pytest.approx(degrees_f, abs=0.9)
