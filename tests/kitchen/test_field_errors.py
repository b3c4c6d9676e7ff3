"""One wrong field at a time: where, what it says, what is wrong, what to enter."""

import json
from typing import Any

import pytest

from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen

Location = tuple[str | int, ...]


def with_value(location: Location, value: object) -> dict[str, Any]:
    file = tiny_kitchen()
    here: Any = file
    for step in location[:-1]:
        here = here[step]
    here[location[-1]] = value
    return file


COVERS: Location = ("services", 0, "covers")
AMOUNT: Location = ("dishes", 0, "components", 0, "amount")
YIELD: Location = ("operations", 0, "yields", 0, "fraction")


@pytest.mark.parametrize(
    ("location", "value", "path", "message", "remedy"),
    [
        (COVERS, -1, "services[0].covers", "at least 0", "from 0 to 20000"),
        (COVERS, 1_000_000, "services[0].covers", "at most 20000", "from 0 to 20000"),
        (COVERS, 1e12, "services[0].covers", "at most 20000", "from 0 to 20000"),
        (COVERS, 10**30, "services[0].covers", "at most 20000", "from 0 to 20000"),
        (COVERS, -1e12, "services[0].covers", "at least 0", "from 0 to 20000"),
        (COVERS, 40.0, "services[0].covers", "no decimal point", "write 40"),
        (COVERS, 12.5, "services[0].covers", "not a whole number", "whole number"),
        (COVERS, "40", "services[0].covers", "not a whole number", "without quotes"),
        (COVERS, None, "services[0].covers", "not a whole number", "whole number"),
        (YIELD, 0, "operations[0].yields[0].fraction", "above 0", "above 0 and up to 10"),
        (YIELD, -0.5, "operations[0].yields[0].fraction", "above 0", "above 0 and up to 10"),
        (YIELD, 89, "operations[0].yields[0].fraction", "at most 10", "0.89 for 89 percent"),
        (YIELD, "0.9", "operations[0].yields[0].fraction", "not a number", "without quotes"),
        (("stations", 0, "places"), 0, "stations[0].places", "at least 1", "from 1 to 100"),
        (("stations", 0, "places"), True, "stations[0].places", "not a whole number", "number"),
        (("rules",), {"service_level": 1}, "rules.service_level", "below 1", "below 1"),
        (("as_of",), "2025-02-30", "as_of", "not a date", "YYYY-MM-DD"),
        (("as_of",), "04/03/2025", "as_of", "not a date", "YYYY-MM-DD"),
        (("as_of",), 1741046400, "as_of", "not a date", "YYYY-MM-DD"),
        (("services", 0, "opens"), "5 pm", "services[0].opens", "cannot be read", "HH:MM"),
        (("services", 0, "guaranteed"), "yes", "services[0].guaranteed", "true nor", "true or"),
        (("dishes", 0, "id"), "Onion Soup", "dishes[0].id", "no id", "lower-case letters"),
        (("currency",), "euro", "currency", "wrong form", "ISO 4217"),
        (("dishes", 0, "name"), "", "dishes[0].name", "empty", "fill it in"),
        (("dishes", 0, "name"), "x" * 81, "dishes[0].name", "too long", "80 characters"),
        (("cooks", 0, "shifts"), [], "cooks[0].shifts", "too short", "at least 1"),
        (("cooks", 0, "shifts"), {}, "cooks[0].shifts", "not a list", "between '['"),
        (("cooks", 0, "shifts", 0), 8, "cooks[0].shifts[0]", "not an object", "between '{'"),
        (("cuts",), [{"id": "x", "name": "X", "inches": [1, 2, 3, 4]}], "cuts[0].inches", "", "3"),
        (
            AMOUNT,
            "-60 g",
            "dishes[0].components[0].amount",
            "cannot be read",
            "a number and a unit",
        ),
        (
            ("ingredients", 0, "allergens"),
            ["nuts"],
            "ingredients[0].allergens[0]",
            "not one of the words",
            "tree nuts",
        ),
    ],
)
def test_a_wrong_field_is_explained(
    location: Location, value: object, path: str, message: str, remedy: str
) -> None:
    error = only(with_value(location, value))
    assert error.path == path
    assert message in error.message
    assert remedy in error.remedy


@pytest.mark.parametrize("amount", ["1e30 g", "1E30g", "1e999 g", "10000001 g"])
def test_an_amount_too_large_says_so_and_the_most_allowed(amount: str) -> None:
    error = only(with_value(AMOUNT, amount))
    assert (error.value, error.message) == (amount, "this number is too large")
    assert error.remedy == "enter at most 10000000, or choose a larger unit"


@pytest.mark.parametrize("amount", ["2e5", "2E-5", "1e+ g", "1e1.5 g"])
def test_an_exponent_is_no_unit(amount: str) -> None:
    error = only(with_value(AMOUNT, amount))
    assert error.message == "this cannot be read"
    assert "a number and a unit" in error.remedy


def test_a_range_is_given_in_digits() -> None:
    error = only(with_value(("ingredients", 0, "purchase", "cost"), 1e7))
    assert "at most 1000000" in error.message
    assert "from 0 to 1000000" in error.remedy


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999"])
@pytest.mark.parametrize("location", [COVERS, YIELD])
def test_what_is_no_finite_number_is_refused(number: str, location: Location) -> None:
    text = json.dumps(with_value(location, "PLACEHOLDER")).replace('"PLACEHOLDER"', number)
    error = only(text.encode())
    assert "NaN and Infinity" in error.message
    assert error.element in {"dinner", "peel"}


def test_an_unknown_field_is_refused_with_the_one_that_looks_like_it() -> None:
    error = only(with_value(("services", 0, "oversett"), 3))
    assert error.path == "services[0].oversett"
    assert "did you mean 'overset'?" in error.remedy
    assert "closes" in error.remedy


def test_a_missing_field_is_asked_for_with_what_it_means() -> None:
    file = tiny_kitchen()
    del file["services"][0]["covers"]
    error = only(file)
    assert (error.path, error.value) == ("services[0].covers", "")
    assert "missing" in error.message
    assert "guaranteed count" in error.remedy


def test_a_list_is_not_called_empty_because_its_elements_are_wrong() -> None:
    file = with_value(("services", 0, "opens"), "late")
    assert [error.path for error in reported(file)] == ["services[0].opens"]


def test_long_values_are_shortened() -> None:
    error = only(with_value(("time_zone",), "x" * 5000))
    assert len(error.value) == 60
    assert error.value.endswith("...")


def test_the_element_is_named_by_id_item_or_name() -> None:
    file = tiny_kitchen()
    file["dishes"][0]["weight"] = 99
    file["raw_stock"][0]["weight"] = 1
    file["units"][0]["size"] = 1
    assert {error.where for error in reported(file)} == {
        "dishes[0].weight (onion_soup)",
        "raw_stock[0].weight (onion)",
        "units[0].size (ladle)",
    }


def test_an_endless_amount_is_refused_at_once() -> None:
    file = with_value(("dishes", 0, "components", 0, "amount"), "1 a" + " " * 1_000_000 + "!")
    assert "a number and a unit" in only(file).remedy
