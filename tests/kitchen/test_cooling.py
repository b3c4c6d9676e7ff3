"""Where the clocks of cooling food start on a route, and with which step they run out."""

from typing import Any

import pytest

from planner.kitchen.cooling import cooling_chains, is_cooling
from planner.kitchen.safety import COOLING
from tests.kitchens.bench import File, bench, cut_from, dish, food, kit_of, recipe, work

TO_21, TO_5 = COOLING
HOT = {"cautions": ["hot surface"]}
OPERATIONS = [
    work("roast", unattended_minutes=40, finish_minutes=2, **HOT),
    work("cut"),
    work("pour", **HOT),
    work("ice", unattended_minutes=60),
    work("shelf", unattended_minutes=90),
]
TO_ICE: File = {"operation": "ice", "temperature_c": 21}
TO_SHELF: File = {"operation": "shelf", "temperature_c": 5}


def chains(*route: str | File, **fields: Any) -> list[tuple[int, int, int, bool]]:
    """(from step, to step, minutes, whether from its start) of a ham's clocks."""
    ham = cut_from("pork", "ham", *route, **{"tcs": True, **fields})
    file = bench(
        ingredients=[food("pork")],
        operations=OPERATIONS,
        components=[ham],
        dishes=[dish("plate", {"ham": "100 g"})],
    )
    return _chains(file, "ham")


def _chains(file: File, name: str) -> list[tuple[int, int, int, bool]]:
    catalog = kit_of(file).catalog
    found = cooling_chains(catalog, catalog.components[name])
    return [(one.hot, one.cold, one.limit.minutes, one.from_start) for one in found]


def test_two_stages_have_two_hours_and_six_from_the_heat() -> None:
    assert chains("roast", TO_ICE, TO_SHELF) == [(0, 1, 120, False), (0, 2, 360, False)]


def test_one_step_that_does_both_has_two_hours_for_all_of_it() -> None:
    assert (0, 1, 120, False) in chains("roast", {"operation": "ice", "temperature_c": 4})


def test_work_between_heat_and_cold_counts_into_the_same_clock() -> None:
    assert chains("roast", "cut", TO_ICE) == [(0, 2, 120, False)]


def test_food_that_needs_no_control_or_is_not_brought_down_has_no_clock() -> None:
    assert chains("roast", TO_ICE, tcs=False) == []
    assert chains("roast", "cut") == []
    assert chains("cut", TO_SHELF) == [], "never hot"


def test_cooked_again_starts_anew_but_a_hot_pan_in_the_hands_does_not() -> None:
    assert chains("roast", "cut", "roast", TO_ICE) == [(2, 3, 120, False)]
    assert chains("roast", "pour", TO_ICE) == [(0, 2, 120, False), (1, 2, 120, False)]


def test_held_hot_the_clock_starts_where_the_next_step_does() -> None:
    assert chains({"operation": "roast", "hold": "hot"}, "cut", TO_ICE) == [(1, 2, 120, True)]


def test_food_that_was_kept_hot_and_goes_into_another_brings_its_heat() -> None:
    ham = cut_from("pork", "ham", "roast", tcs=True, storage="hot")
    filling = recipe("filling", "1 kg", {"ham": "1 kg"}, "cut", TO_ICE, tcs=True)
    file = bench(
        ingredients=[food("pork")],
        operations=OPERATIONS,
        components=[ham, filling],
        dishes=[dish("plate", {"filling": "100 g"})],
    )
    assert _chains(file, "filling") == [(0, 1, 120, True)]


@pytest.mark.parametrize(("step", "inside"), [(0, False), (1, True), (2, True), (3, False)])
def test_what_lies_between_heat_and_cold_keeps_to_its_lots(step: int, inside: bool) -> None:
    file = bench(
        ingredients=[food("pork")],
        operations=OPERATIONS,
        components=[cut_from("pork", "ham", "roast", "cut", TO_SHELF, "cut", tcs=True)],
        dishes=[dish("plate", {"ham": "100 g"})],
    )
    file["operations"][4]["unattended_minutes"] = 30
    catalog = kit_of(file).catalog
    assert is_cooling(catalog, catalog.components["ham"], step) is inside
