"""Yields and trims that cannot be meant."""

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


def test_a_step_gives_no_more_than_four_times_what_goes_in() -> None:
    file = tiny_kitchen()
    file["operations"][1]["yields"][0]["fraction"] = 9.6
    error = only(file)
    assert error.path == "operations[1].yields[0].fraction"
    assert "implausible" in error.message
    assert "0.89 for 89 percent" in error.remedy


def test_the_same_holds_for_a_steps_own_yield() -> None:
    file = tiny_kitchen()
    file["components"][0]["route"][1]["fraction"] = {"fraction": 4.1}
    assert only(file).path == "components[0].route[1].fraction.fraction"


@pytest.mark.parametrize("fraction", [0.01, 3.0])
def test_soaked_beans_pass(fraction: float) -> None:
    """Pass at three times their mass; a hundredth left over is caught with the route."""
    file = tiny_kitchen()
    file["operations"][1]["yields"][0]["fraction"] = fraction
    errors = reported(file)
    assert [error.path for error in errors] == ([] if fraction == 3 else ["components[0].route"])


def test_the_yields_of_a_route_are_looked_at_together() -> None:
    file = tiny_kitchen()
    file["components"][0]["route"] = [
        {"operation": "dice", "fraction": {"fraction": fraction}} for fraction in (3, 2.5)
    ]
    error = only(file)
    assert (error.path, error.value) == ("components[0].route", "7.5")
    assert "3 x 2.5" in error.message


def test_shares_of_trim_do_not_pass_the_whole_loss() -> None:
    file = tiny_kitchen()
    file["ingredients"].append(
        {
            "id": "skins",
            "name": "Onion skins",
            "purchase": {"unit": "tub", "holds": "1 kg"},
            "by_product": True,
        }
    )
    trim = file["operations"][0]["yields"][0]["trim"]
    trim.append({"item": "skins", "share": 0.4})
    assert reported(file) == ()
    trim[1]["share"] = 0.5
    error = only(file)
    assert (error.path, error.value) == ("operations[0].yields[0].trim", "1.1")


def test_where_nothing_is_taken_off_there_is_no_trim() -> None:
    file = tiny_kitchen()
    file["operations"][0]["yields"][0]["fraction"] = 1
    error = only(file)
    assert error.path == "operations[0].yields[0].trim"
    assert "takes nothing off" in error.message
