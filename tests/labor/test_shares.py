"""Minutes shared out add up to what there was, and nobody is far from the exact share."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.labor.shares import shared_out

WEIGHTS = st.lists(st.floats(0, 1e6), min_size=1, max_size=30)


@given(st.integers(0, 100_000), WEIGHTS)
def test_parts_add_up_to_the_whole(total: int, weights: list[float]) -> None:
    parts = shared_out(total, weights)
    assert sum(parts) == total
    assert len(parts) == len(weights)


@given(st.integers(0, 100_000), WEIGHTS)
def test_every_part_is_within_one_of_its_exact_share(total: int, weights: list[float]) -> None:
    fine = [round(weight * 1000) for weight in weights]
    if sum(fine) == 0:
        fine = [1] * len(fine)
    for part, weight in zip(shared_out(total, weights), fine, strict=True):
        assert abs(part - total * weight / sum(fine)) < 1 + 1e-9


@given(st.integers(0, 10_000), WEIGHTS)
def test_who_weighs_more_gets_no_less(total: int, weights: list[float]) -> None:
    parts = shared_out(total, weights)
    ordered = sorted(zip(weights, parts, strict=True))
    for (light, less), (heavy, more) in pairwise(ordered):
        if round(heavy * 1000) > round(light * 1000) and sum(round(w * 1000) for w in weights):
            assert more >= less


def test_what_is_left_goes_to_those_that_lost_most() -> None:
    # 10 minutes by 1 : 1 : 1 are 3 1/3 each, and the odd minute is the first's; 7 by 5 : 3 : 1 are
    # 3.89, 2.33 and 0.78: worked by hand.
    assert shared_out(10, [1, 1, 1]) == (4, 3, 3)
    assert shared_out(7, [5, 3, 1]) == (4, 2, 1)


def test_weights_of_nothing_are_equal() -> None:
    assert shared_out(5, [0.0, 0.0]) == (3, 2)


@pytest.mark.parametrize(("total", "weights"), [(-1, [1.0]), (3, []), (3, [1.0, -0.5])])
def test_what_cannot_be_shared_out_is_an_error(total: int, weights: list[float]) -> None:
    with pytest.raises(ValueError, match="cannot be shared out"):
        shared_out(total, weights)
