"""How long food may wait between two steps, and how it is held."""

from typing import Any

import pytest

from planner.kitchen.foods import Holding
from planner.kitchen.route import held_after, leaves_hot, longest_wait
from tests.kitchens.bench import bench, cut_from, dish, food, kit_of, work

LIMIT = 25


def wait_after(step: dict[str, Any], *, tcs: bool = True, **operation: Any) -> int | None:
    """Longest wait after the first of two steps."""
    file = bench(
        ingredients=[food("pork")],
        operations=[work("first", **operation), work("second")],
        components=[cut_from("pork", "ham", {"operation": "first", **step}, "second", tcs=tcs)],
        dishes=[dish("plate", {"ham": "100 g"})],
        rules={"uncontrolled_minutes": LIMIT},
    )
    kit = kit_of(file)
    ham = kit.catalog.components["ham"]
    assert longest_wait(kit.catalog, ham, 1) is None, "after the last step it is put away"
    return longest_wait(kit.catalog, ham, 0)


def test_a_limit_of_its_own_bounds_the_wait_for_the_next_step() -> None:
    assert wait_after({"max_wait_minutes": 12}) == 12
    assert wait_after({"max_wait_minutes": 12}, tcs=False) == 12


def test_food_that_needs_cold_and_stands_warm_has_the_kitchens_limit() -> None:
    assert wait_after({"hold": "ambient"}) == LIMIT
    assert wait_after({"hold": "ambient"}, tcs=False) is None


@pytest.mark.parametrize("heat", [{"cautions": ["steam"]}, {"cooks_through": True}])
def test_food_that_comes_hot_out_of_a_step_goes_on_within_the_limit(heat: dict[str, Any]) -> None:
    """FDA Food Code 3-501.16: held hot or cold, or its time counts."""
    assert wait_after({}, **heat) == LIMIT
    assert wait_after({"hold": "hot"}, **heat) is None, "on the steam table"
    assert wait_after({"temperature_c": 4}, **heat) is None, "it was brought to cold"
    assert wait_after({}, tcs=False, **heat) is None


def test_a_rest_that_is_asked_for_is_no_breach_of_the_limit() -> None:
    assert wait_after({"min_wait_minutes": 40}, cautions=["steam"]) == 40


def test_what_was_not_heated_waits_in_the_cold() -> None:
    assert wait_after({}) is None
    file = bench(
        ingredients=[food("pork")],
        operations=[work("cut"), work("tie")],
        components=[
            cut_from("pork", "ham", "cut", "tie", tcs=True, storage="hot"),
            cut_from("pork", "bark", {"operation": "cut", "hold": "frozen"}, "tie", tcs=True),
            cut_from("pork", "rind", "cut", "tie", tcs=False),
        ],
        dishes=[dish("plate", {"ham": "100 g", "bark": "1 g", "rind": "1 g"})],
    )
    catalog = kit_of(file).catalog
    held = [held_after(catalog.components[name], 0) for name in ("ham", "bark", "rind")]
    assert held == [Holding.COLD, Holding.FROZEN, Holding.AMBIENT]
    assert held_after(catalog.components["ham"], 1) is Holding.HOT, "finished, as it is stored"
    assert not leaves_hot(catalog, catalog.components["ham"], 0)
