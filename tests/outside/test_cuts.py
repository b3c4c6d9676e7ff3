"""The starter cuts against the table that culinary textbooks share.

Common practice, no standard: secondary pages agree on dice, brunoise, julienne and paysanne, and
differ on batonnet (1/4 or 1/2 in square) and allumette. So cuts are data a kitchen may change.
"""

from fractions import Fraction

import pytest

from planner.kitchen.cuts import STARTER_CUTS
from planner.kitchen.strokes import strokes

SIDES = {cut.id: cut.inches for cut in STARTER_CUTS}


@pytest.mark.parametrize(
    ("cut", "sides"),
    [
        ("large_dice", "3/4 3/4 3/4"),
        ("medium_dice", "1/2 1/2 1/2"),
        ("small_dice", "1/4 1/4 1/4"),
        ("brunoise", "1/8 1/8 1/8"),
        ("fine_brunoise", "1/16 1/16 1/16"),
        ("paysanne", "1/2 1/2 1/8"),
    ],
)
def test_dice_and_paysanne_have_the_textbooks_sides(cut: str, sides: str) -> None:
    assert SIDES[cut] == tuple(float(Fraction(side)) for side in sides.split())


@pytest.mark.parametrize(
    ("cut", "thick", "shortest", "longest"),
    [
        ("batonnet", 1 / 4, 2.0, 2.5),
        ("julienne", 1 / 8, 1.0, 2.0),
        ("allumette", 1 / 8, 1.0, 2.0),
        ("fine_julienne", 1 / 16, 1.0, 2.0),
    ],
)
def test_sticks_have_the_textbooks_square_and_a_length_in_its_range(
    cut: str, thick: float, shortest: float, longest: float
) -> None:
    assert SIDES[cut][:2] == (thick, thick)
    assert shortest <= SIDES[cut][2] <= longest


@pytest.mark.parametrize(
    ("stick", "dice"),
    [
        ("batonnet", "small_dice"),
        ("julienne", "brunoise"),
        ("allumette", "brunoise"),
        ("fine_julienne", "fine_brunoise"),
    ],
)
def test_a_stick_cut_across_gives_the_dice_of_its_thickness(stick: str, dice: str) -> None:
    assert SIDES[dice] == (SIDES[stick][0],) * 3


@pytest.mark.parametrize(
    "cut", ["mince", "rough_chop", "slice", "chiffonade", "tourne", "rondelle", "oblique"]
)
def test_cuts_the_trade_does_not_size_are_named_without_sides(cut: str) -> None:
    assert SIDES[cut] == ()


def test_a_large_dice_of_an_ordinary_onion_takes_two_to_three_cuts_each_way() -> None:
    """Per half of a 3 in onion, lengthwise and across, with no horizontal cut. Common practice."""
    both_ways = strokes(3, SIDES["large_dice"][0])
    assert 2 * 2 <= both_ways <= 2 * 3
