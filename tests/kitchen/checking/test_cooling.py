"""Cooling whose own minutes break the food code is an error of the file."""

from typing import Any

from tests.kitchen.reported import only, reported
from tests.kitchens.bench import File, bench, cut_from, dish, food, work


def cooled(*route: str | File, alone: int = 60, **ice: Any) -> File:
    return bench(
        ingredients=[food("pork")],
        operations=[
            work("roast", unattended_minutes=40, finish_minutes=2, cautions=["hot surface"]),
            work("cut"),
            work("ice", unattended_minutes=alone, finish_minutes=1, **ice),
        ],
        components=[cut_from("pork", "ham", *route, tcs=True)],
        dishes=[dish("plate", {"ham": "100 g"})],
    )


COLD: File = {"operation": "ice", "temperature_c": 5}


def test_two_hours_to_21_c_may_be_used_up_and_no_minute_more() -> None:
    assert reported(cooled("roast", COLD, alone=120)) == ()
    error = only(cooled("roast", COLD, alone=121))
    assert (error.path, error.value) == ("components[0].route[1].operation", "ice")
    assert "121 min after the heat at the soonest; the limit is 120 min" in error.message
    assert "put a step before it that has a temperature_c of 21" in error.remedy


def test_a_steps_own_minutes_are_named_where_it_has_them() -> None:
    error = only(cooled("roast", {**COLD, "unattended_minutes": 200}))
    assert (error.path, error.value) == ("components[0].route[1].unattended_minutes", "200")


def test_minutes_of_each_lot_and_waits_that_are_asked_for_count_too() -> None:
    rest = {"operation": "roast", "min_wait_minutes": 50}
    assert "max_wait" not in str(reported(cooled(rest, COLD)))
    assert reported(cooled(rest, COLD, alone=70)) == ()
    assert "121 min" in only(cooled(rest, COLD, alone=70, each_lot_minutes=1)).message


def test_the_second_stage_has_six_hours_from_the_heat() -> None:
    first: File = {"operation": "ice", "temperature_c": 21, "unattended_minutes": 100}
    assert reported(cooled("roast", first, {**COLD, "unattended_minutes": 259})) == ()
    error = only(cooled("roast", first, {**COLD, "unattended_minutes": 260}))
    assert error.path == "components[0].route[2].unattended_minutes"
    assert "361 min after the heat at the soonest; the limit is 360 min" in error.message
