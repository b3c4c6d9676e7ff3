"""Minutes and sizes of a step: whose rate counts, what bounds a lot."""

import math
from typing import Any

import pytest

from planner.quantities.effort import Effort
from tests.kitchens.bench import File, bench, cut_from, dish, food, kit_of, recipe, work


def effort(operation: File, step: File | None = None, **parts: Any) -> Effort:
    """The effort of a one-step route of ham, cut from pork of 200 g a piece."""
    weights = [{"unit": "each", "weight": "200 g"}]
    file = bench(
        ingredients=[food("pork", weights=weights, density={"g_per_ml": 1.25})],
        operations=[operation],
        components=[cut_from("pork", "ham", {"operation": operation["id"], **(step or {})})],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )
    kit = kit_of(file)
    return kit.efforts.of(kit.catalog.components["ham"], 0)


@pytest.mark.parametrize(
    ("per", "minutes"), [("kg", 6.0), ("l", 6.0 / 1.25), ("each", 6.0 * 5), ("lot", 6.0)]
)
def test_minutes_follow_the_unit_they_are_counted_by(per: str, minutes: float) -> None:
    """A kilo of pork is 0.8 l, or five pieces; by the lot it is one lot."""
    assert effort(work("cut", per=per, minutes_per=6)).hands_on(1000.0) == pytest.approx(minutes)


def test_minutes_of_a_lot_are_added_once() -> None:
    assert effort(work("cut", each_lot_minutes=3)).hands_on(2000.0) == pytest.approx(3 + 20)


def test_the_nearest_rate_counts() -> None:
    """The step's own, else that for the component, else for what it is cut from, else any."""
    for_pork = {"food": "pork", "minutes_per": 7}
    for_ham = {"food": "ham", "minutes_per": 8}
    assert effort(work("cut")).hands_on(1000.0) == pytest.approx(10)
    assert effort(work("cut", rates=[for_pork])).hands_on(1000.0) == pytest.approx(7)
    assert effort(work("cut", rates=[for_pork, for_ham])).hands_on(1000.0) == pytest.approx(8)
    own = effort(work("cut", rates=[for_pork, for_ham]), {"minutes_per": 9})
    assert own.hands_on(1000.0) == pytest.approx(9)


def test_a_lot_is_no_larger_than_half_an_hour_of_hands() -> None:
    assert effort(work("cut")).largest == pytest.approx(3000)
    assert effort(work("cut"), rules={"lot_minutes": 45}).largest == pytest.approx(4500)


def test_a_lot_is_no_larger_than_its_vessels() -> None:
    tray = [{"id": "tray", "name": "Tray", "count": 9, "holds": "400 g"}]
    one = work("roast", equipment=[{"equipment": "tray"}])
    assert effort(one, equipment=tray).largest == pytest.approx(400)
    three = work("roast", equipment=[{"equipment": "tray", "max_units": 3}])
    assert effort(three, equipment=tray).largest == pytest.approx(1200)
    less = work("roast", equipment=[{"equipment": "tray", "holds": "250 g"}])
    assert effort(less, equipment=tray).largest == pytest.approx(250)


def test_a_vessel_takes_food_that_swells_at_its_largest() -> None:
    pot = [{"id": "pot", "name": "Pot", "count": 1, "holds": "3 kg"}]
    boil = work("boil", equipment=[{"equipment": "pot"}])
    swelling = {"fraction": {"fraction": 2.5}}
    assert effort(boil, swelling, equipment=pot).largest == pytest.approx(1200)


def test_a_limit_of_the_operation_holds_whatever_the_vessel() -> None:
    assert effort(work("cut", lot_limit="2 each")).largest == pytest.approx(400)


def test_work_by_the_lot_that_nothing_bounds_is_one_lot() -> None:
    assert effort(work("mix", per="lot")).largest == math.inf


def test_unattended_minutes_of_the_step_stand_for_the_operations() -> None:
    boil = work("boil", unattended_minutes=30)
    assert effort(boil).unattended == 30
    assert effort(boil, {"unattended_minutes": 45}).unattended == 45
    assert effort(boil, {"unattended_minutes": 0}).unattended == 0


@pytest.mark.parametrize(
    ("fields", "stretches"),
    [
        ({}, True),
        ({"unattended_minutes": 30}, True),
        ({"unattended_minutes": 30, "finish_minutes": 5}, True),
        ({"unattended_minutes": 30, "finish_minutes": 5, "finish_within_minutes": 10}, False),
    ],
)
def test_only_what_is_taken_out_within_a_time_cannot_be_left(fields: File, stretches: bool) -> None:
    assert effort(work("boil", **fields)).stretches is stretches


def test_the_quickest_way_is_one_lot_from_start_to_take_out() -> None:
    boil = work("boil", unattended_minutes=30, finish_minutes=5, lot_limit="1 kg")
    assert effort(boil).quickest(450.0) == 5 + 30 + 5, "4.5 min of hands are five"
    assert effort(boil).quickest(9000.0) == 10 + 30 + 5


def test_a_recipe_is_measured_by_its_own_density() -> None:
    file = bench(
        ingredients=[food("pork")],
        operations=[work("mix", per="l", minutes_per=6)],
        components=[recipe("stock", "1 kg", {"pork": "1 kg"}, "mix", density={"g_per_ml": 0.5})],
        dishes=[dish("bowl", {"stock": "100 g"})],
    )
    kit = kit_of(file)
    made = kit.efforts.of(kit.catalog.components["stock"], 0)
    assert made.hands_on(1000.0) == pytest.approx(12), "a kilo of it is two litres"
