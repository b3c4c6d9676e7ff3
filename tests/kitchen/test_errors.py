"""How an error is shown."""

import pytest

from planner.kitchen.errors import FileError, KitchenErrors, Place, shown, suggestion


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, ""),
        (True, "true"),
        (2.5, "2.5"),
        ("60 g", "60 g"),
        ([1, 2, 3], "a list of 3"),
        ({"a": 1}, "an object of 1 field"),
        ("tab\tand\nline", "tab?and?line"),
        ("x" * 100, "x" * 57 + "..."),
    ],
)
def test_a_value_is_shown_in_a_few_printable_characters(value: object, text: str) -> None:
    assert shown(value) == text


def test_a_place_goes_down_by_field_and_by_list() -> None:
    place = Place("components[3]", "stock").item("route", 1).field("operation")
    error = place.error("simer", "no such operation", "name one")
    assert error.path == "components[3].route[1].operation"
    assert error.where == "components[3].route[1].operation (stock)"
    assert str(error) == f"{error.where} = simer: no such operation; name one"


def test_an_error_of_the_whole_file_says_so() -> None:
    assert str(FileError("", "", "it is empty", "fill it")) == "the file: it is empty; fill it"


def test_the_exception_keeps_every_error() -> None:
    errors = [FileError(str(number), "", "wrong", "right") for number in range(3)]
    assert KitchenErrors(iter(errors)).errors == tuple(errors)


def test_only_what_looks_alike_is_suggested() -> None:
    assert suggestion("dise", ["dice", "peel"]) == "did you mean 'dice'? "
    assert suggestion("simmer", ["dice", "peel"]) == ""


def test_no_time_is_spent_on_suggestions_in_a_huge_list() -> None:
    assert suggestion("dise", [f"dice{number}" for number in range(5000)]) == ""
