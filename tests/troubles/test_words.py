"""Troubles and remedies as sentences."""

from planner.plan import Remedy, Trouble
from planner.troubles.words import remedy_line, trouble_line


def test_a_remedy_says_what_there_was_and_what_is_left() -> None:
    remedy = Remedy("get beef", 12, 0, False, 3, 40, 23, 3)
    assert remedy_line(remedy) == (
        "Get beef: 23 portions short → 0, still 3 kg short of par or batch, "
        "40 min late in all → 12."
    )


def test_missing_hands_are_told_in_minutes() -> None:
    trouble = Trouble("short", "ham", "Plate (Brunch): 20 portions short", 20, 20, "cook hours")
    assert trouble_line(trouble) == (
        "Plate (Brunch): 20 portions short. What binds: cook hours; 20 hands-on min missing."
    )


def test_missing_food_claims_no_hands() -> None:
    trouble = Trouble("short", "ham", "Plate: 4 portions short", 0, 4, "no Pork (0 of 9 g)", "food")
    assert trouble_line(trouble) == "Plate: 4 portions short. What binds: no Pork (0 of 9 g)."
