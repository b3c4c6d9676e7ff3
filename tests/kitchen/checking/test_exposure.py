"""A route whose own minutes leave food out of temperature control too long is an error."""

from typing import Any

from tests.kitchen.reported import only, reported
from tests.kitchens.bench import File, bench, cut_from, dish, food, work


def kitchen(*route: str | File, alone: int = 240, limit: int = 240, **press: Any) -> File:
    return bench(
        ingredients=[food("pork")],
        operations=[
            work("press", unattended_minutes=alone, finish_minutes=5, **press),
            work("cook", cooks_through=True),
        ],
        components=[cut_from("pork", "ham", *route, tcs=True)],
        dishes=[dish("plate", {"ham": "100 g"})],
        rules={"out_of_control_minutes": limit},
    )


def test_a_step_that_leaves_food_out_for_longer_than_the_limit_is_told() -> None:
    error = only(kitchen("press"))
    assert (error.path, error.value) == ("components[0].route[0].operation", "press")
    assert "out of temperature control for 245 min by then; the kitchen's limit is 240 min" in (
        error.message
    )
    assert "enter a temperature_c of 5 or below" in error.remedy
    assert reported(kitchen("press", alone=235)) == ()


def test_a_step_in_the_cold_counts_its_hands_alone() -> None:
    assert reported(kitchen({"operation": "press", "temperature_c": 4})) == ()


def test_steps_add_up_until_a_kill_step() -> None:
    twice: list[str | File] = ["press", {"operation": "press", "unattended_minutes": 116}]
    error = only(kitchen(*twice, alone=120))
    assert (error.path, error.value) == ("components[0].route[1].unattended_minutes", "116")
    assert "for 246 min" in error.message
    assert reported(kitchen(twice[0], "cook", twice[1], alone=120)) == ()


def test_waits_at_room_temperature_that_are_asked_for_count() -> None:
    rest: File = {"operation": "press", "min_wait_minutes": 20, "unattended_minutes": 80}
    assert reported(kitchen(rest, "cook", limit=90)) == ()
    warm = {**rest, "hold": "ambient"}
    assert "for 105 min" in only(kitchen(warm, "cook", limit=90)).message


def test_the_kitchen_sets_its_limit_between_half_an_hour_and_six() -> None:
    assert reported(kitchen("press", limit=300)) == ()
    assert only(kitchen("press", limit=361)).path == "rules.out_of_control_minutes"
