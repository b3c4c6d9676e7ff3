"""Taking from sources in their order, and sharing whole units out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.lots.flow import Source, apportion, merged, take


def test_the_front_is_emptied_before_the_next_is_touched() -> None:
    sources = [Source(0, 300.0), Source(1, 300.0), Source(2, 300.0)]
    assert take(sources, 400.0) == [(0, 300.0), (1, 100.0)]
    assert take(sources, 250.0) == [(1, 200.0), (2, 50.0)]


def test_no_more_is_taken_than_there_is() -> None:
    sources = [Source(0, 300.0), Source(None, 100.0)]
    assert take(sources, 1000.0) == [(0, 300.0), (None, 100.0)]
    assert take(sources, 1.0) == []


@given(
    st.lists(st.floats(0, 1e4), max_size=6),
    st.lists(st.floats(0, 1e4), max_size=6),
)
def test_what_is_taken_and_what_is_left_make_what_there_was(
    there: list[float], wanted: list[float]
) -> None:
    sources = [Source(n, grams) for n, grams in enumerate(there)]
    taken = merged(part for grams in wanted for part in take(sources, grams))
    for source, grams in zip(sources, there, strict=True):
        assert taken.get(source.lot, 0.0) + source.left == pytest.approx(grams)
        assert source.left >= 0
    assert sum(taken.values()) == pytest.approx(min(sum(wanted), sum(there)), abs=1e-4)


def test_parts_of_one_source_are_summed() -> None:
    assert merged([(1, 10.0), (None, 5.0), (1, 20.0)]) == {1: 30.0, None: 5.0}


@given(st.integers(0, 500), st.lists(st.floats(0.1, 100), min_size=1, max_size=20))
def test_whole_parts_add_up_and_none_is_empty(total: int, weights: list[float]) -> None:
    parts = apportion(total, weights)
    assert len(parts) == len(weights)
    assert min(parts) >= 1
    assert sum(parts) == max(total, len(weights))


@given(st.integers(0, 500), st.lists(st.floats(0.1, 100), min_size=1, max_size=20))
def test_running_totals_stay_near_the_weights(total: int, weights: list[float]) -> None:
    """Within a unit, and one more for every part so far that would have been empty."""
    parts = apportion(total, weights)
    exact = [total * weight / sum(weights) for weight in weights]
    lifted = sum(part < 1 for part in exact)
    for upto in range(1, len(parts) + 1):
        assert abs(sum(parts[:upto]) - sum(exact[:upto])) <= 1 + lifted


def test_nothing_is_shared_out_over_no_parts() -> None:
    assert apportion(7, []) == []


def test_parts_of_no_weight_share_evenly() -> None:
    assert apportion(6, [0.0, 0.0, 0.0]) == [2, 2, 2]
