"""As purchased, edible portion and as served are three weights that never mix."""

import math

import pytest

from planner.measures import (
    AsPurchased,
    AsServed,
    EdiblePortion,
    cost_factor,
    edible_cost,
    gross,
    net,
    raw,
    yield_percent,
)


def test_weights_of_one_kind_add_up_and_are_taken_away() -> None:
    assert AsPurchased(200) + AsPurchased(50) == AsPurchased(250)
    assert AsPurchased(200).less(AsPurchased(50)) == AsPurchased(150)
    assert AsPurchased(200).less(AsPurchased(500)) == AsPurchased(0)
    assert EdiblePortion(200).times(1.5) == EdiblePortion(300)


@pytest.mark.parametrize("other", [EdiblePortion(1), AsServed(1)])
def test_weights_of_different_kinds_do_not_mix(other: EdiblePortion | AsServed) -> None:
    with pytest.raises(TypeError, match="do not add up"):
        AsPurchased(1) + other  # type: ignore[operator]
    with pytest.raises(TypeError, match="cannot be taken from"):
        AsPurchased(1).less(other)  # type: ignore[arg-type]
    assert AsPurchased(1) != other


def test_a_chain_runs_from_as_served_through_raw_to_as_purchased() -> None:
    """880 g served of meat that loses 20 % in the oven and 12 % in trimming."""
    edible = raw(AsServed(880), 0.8)
    assert edible == EdiblePortion(1100)
    assert gross(edible, 0.88).grams == pytest.approx(1250)
    assert net(gross(edible, 0.88), 0.88).grams == pytest.approx(1100)


def test_yields_above_one_are_of_food_that_swells() -> None:
    assert raw(AsServed(250), 2.5) == EdiblePortion(100)


@pytest.mark.parametrize("fraction", [0, -0.1, 10.5, math.nan])
def test_a_yield_must_be_possible(fraction: float) -> None:
    for refuse in (
        lambda: gross(EdiblePortion(1), fraction),
        lambda: net(AsPurchased(1), fraction),
        lambda: raw(AsServed(1), fraction),
        lambda: edible_cost(1, fraction),
        lambda: cost_factor(fraction),
    ):
        with pytest.raises(ValueError, match="yield fraction"):
            refuse()


@pytest.mark.parametrize("grams", [-1, math.nan])
def test_a_weight_is_zero_or_more(grams: float) -> None:
    with pytest.raises(ValueError, match="zero or more"):
        AsPurchased(grams)


def test_a_yield_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="above zero"):
        yield_percent(AsPurchased(0), EdiblePortion(0))
