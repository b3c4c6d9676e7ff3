"""Recipes with a measured output, and single inputs that follow their yields."""

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.bench import File
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


def test_a_recipe_leaves_the_yield_of_one_step_open() -> None:
    """What it makes is measured: were every yield stated too, they could contradict it."""
    file = tiny_kitchen()
    for step in file["components"][1]["route"]:
        step["fraction"] = {"fraction": 0.8}
    error = only(file)
    assert error.path == "components[1].makes"
    assert "every step states a yield" in error.message
    assert "leave the yield out at one step" in error.remedy


def of_two_steps(*after: int, makes: str = "8 l", fraction: float | None = None) -> File:
    """The stock simmered and strained, its three inputs going in after so many steps."""
    file = tiny_kitchen()
    stock = file["components"][1]
    stock["makes"] = makes
    stock["route"] = [{"operation": "simmer"}, {"operation": "simmer"}]
    if fraction is not None:
        stock["route"][1]["fraction"] = {"fraction": fraction}
    for entry, step in zip(stock["inputs"], after, strict=True):
        entry["after_step"] = step
    return file


def test_an_input_goes_in_before_a_step_there_is() -> None:
    error = only(of_two_steps(0, 0, 2))
    assert error.path == "components[1].inputs[2].after_step"
    assert error.value == "2"
    assert "0 to 1" in error.remedy


def test_something_goes_in_at_the_first_step() -> None:
    error = only(of_two_steps(1, 1, 1))
    assert error.path == "components[1].inputs"
    assert "first step, 'simmer'" in error.message


def test_without_a_measured_output_the_one_input_goes_in_at_the_start() -> None:
    file = tiny_kitchen()
    file["components"][0]["inputs"][0]["after_step"] = 1
    assert "components[0].inputs[0].after_step" in [error.path for error in reported(file)]


def test_what_goes_in_later_weighs_less_than_what_is_made() -> None:
    """Eight kilos of water go in at the second step, so at least eight come out of it."""
    error = only(of_two_steps(0, 1, 1, makes="7 l", fraction=1.0))
    assert error.path == "components[1].makes"
    assert "goes in after 'simmer'" in error.message


def test_the_step_that_explains_the_output_yields_what_food_can() -> None:
    error = only(of_two_steps(0, 1, 1, makes="20 l", fraction=0.4))
    assert error.path == "components[1].makes"
    assert "'simmer' would make" in error.message


def test_the_same_food_goes_in_twice_at_different_steps_only() -> None:
    file = of_two_steps(0, 0, 0)
    again = dict(file["components"][1]["inputs"][0])
    file["components"][1]["inputs"].append(again)
    assert only(file).path == "components[1].inputs[3]"
    again["after_step"] = 1
    assert reported(file) == ()


@pytest.mark.parametrize(("makes", "plausible"), [("0.5 l", False), ("80 l", False), ("1 l", True)])
def test_a_recipes_output_stands_in_proportion_to_its_inputs(makes: str, plausible: bool) -> None:
    """12.5 kg go in: a slip of the unit or the comma is caught, a strong reduction is not."""
    file = tiny_kitchen()
    file["components"][1]["makes"] = makes
    assert [error.path for error in reported(file)] == (
        [] if plausible else ["components[1].makes"]
    )


def test_a_longest_wait_after_the_last_step_is_on_the_wrong_step() -> None:
    file = tiny_kitchen()
    last = len(file["components"][0]["route"]) - 1
    file["components"][0]["route"][last]["max_wait_minutes"] = 20
    error = only(file)
    assert error.path == f"components[0].route[{last}].max_wait_minutes"
    assert "no step comes after" in error.message


def test_the_longest_wait_is_no_shorter_than_the_shortest() -> None:
    file = tiny_kitchen()
    file["components"][0]["route"][0].update(min_wait_minutes=30, max_wait_minutes=20)
    error = only(file)
    assert error.path == "components[0].route[0].max_wait_minutes"
    assert "30 or more" in error.remedy
