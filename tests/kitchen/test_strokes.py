"""Strokes of the knife."""

import pytest

from planner.kitchen.strokes import strokes


def test_a_medium_dice_is_cut_in_all_three_directions() -> None:
    """A half of 3 in, cubes of 1/2 in: five lengthwise, two horizontal, five across."""
    assert strokes(3, 1 / 2) == 5 + 2 + 5


def test_a_finer_dice_takes_more_strokes() -> None:
    counts = [strokes(3, side) for side in (3 / 4, 1 / 2, 1 / 4, 1 / 8, 1 / 16)]
    assert counts == sorted(set(counts))


def test_a_small_end_piece_still_takes_its_stroke() -> None:
    assert strokes(3.1, 1 / 2) == 6 + 3 + 6


def test_a_cube_as_large_as_the_bulb_takes_none() -> None:
    assert strokes(0.5, 0.5) == 0


@pytest.mark.parametrize(("diameter", "side"), [(0, 0.5), (3, 0), (3, -1)])
def test_sizes_of_nothing_are_refused(diameter: float, side: float) -> None:
    with pytest.raises(ValueError, match=f"not {diameter} and {side}"):
        strokes(diameter, side)
