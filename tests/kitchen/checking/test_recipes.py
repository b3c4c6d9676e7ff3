"""Recipes with a measured output, and single inputs that follow their yields."""

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


def test_several_inputs_need_a_measured_output() -> None:
    file = tiny_kitchen()
    file["components"][1]["makes"] = None
    error = only(file)
    assert error.path == "components[1].makes"
    assert "3 inputs and no measured output" in error.message
    assert "8 l" in error.remedy


def test_every_input_of_a_recipe_needs_its_amount() -> None:
    file = tiny_kitchen()
    del file["components"][1]["inputs"][0]["amount"]
    error = only(file)
    assert error.path == "components[1].inputs[0].amount"
    assert "'bones'" in error.remedy


def test_one_input_without_output_has_no_amount() -> None:
    file = tiny_kitchen()
    file["components"][0]["inputs"][0]["amount"] = "1 kg"
    error = only(file)
    assert error.path == "components[0].inputs[0].amount"
    assert "yields of the route" in error.message


def test_a_yield_on_a_recipes_step_would_count_for_nothing() -> None:
    file = tiny_kitchen()
    file["components"][1]["route"][0]["fraction"] = {"fraction": 0.8}
    assert only(file).path == "components[1].route[0].fraction"


@pytest.mark.parametrize(("makes", "plausible"), [("0.5 l", False), ("80 l", False), ("1 l", True)])
def test_a_recipes_output_stands_in_proportion_to_its_inputs(makes: str, plausible: bool) -> None:
    """12.5 kg go in: a slip of the unit or the comma is caught, a strong reduction is not."""
    file = tiny_kitchen()
    file["components"][1]["makes"] = makes
    assert [error.path for error in reported(file)] == (
        [] if plausible else ["components[1].makes"]
    )


def test_the_longest_wait_is_no_shorter_than_the_shortest() -> None:
    file = tiny_kitchen()
    file["components"][0]["route"][0].update(min_wait_minutes=30, max_wait_minutes=20)
    error = only(file)
    assert error.path == "components[0].route[0].max_wait_minutes"
    assert "30 or more" in error.remedy
