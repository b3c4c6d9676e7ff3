"""The JSON Schema agrees with the reader."""

import copy
import json
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.kitchen.schema import kitchen_schema, schema_at
from tests.kitchen.reported import reported
from tests.kitchens.tiny import tiny_kitchen

Location = tuple[str | int, ...]


def locations(value: object, here: Location = ()) -> list[Location]:
    """Every place inside ``value``."""
    if isinstance(value, dict):
        inside: list[tuple[str | int, object]] = list(value.items())
    elif isinstance(value, list):
        inside = list(enumerate(value))
    else:
        inside = []
    found = [here] if here else []
    for step, below in inside:
        found.extend(locations(below, (*here, step)))
    return found


def replaced(location: Location, value: object) -> dict[str, Any]:
    file = copy.deepcopy(tiny_kitchen())
    here: Any = file
    for step in location[:-1]:
        here = here[step]
    here[location[-1]] = value
    return file


WRONG = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-3, 10**20),
    st.floats(allow_nan=False, allow_infinity=False),
    st.sampled_from(["", "0 g", "2 each", "1e3 l", "25:00", "2025-01-01", "onion", "[]", "é"]),
    st.text(max_size=5),
    st.just([]),
    st.just({}),
    st.just([{}]),
)


def test_the_schema_is_one_itself() -> None:
    jsonschema.Draft202012Validator.check_schema(kitchen_schema())


def test_a_valid_file_fits_the_schema() -> None:
    jsonschema.validate(tiny_kitchen(), kitchen_schema())


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(locations(tiny_kitchen())), WRONG)
def test_any_one_wrong_value_is_refused_or_fits_the_schema(
    location: Location, value: object
) -> None:
    """The reader never breaks down, and accepts nothing that the published schema refuses."""
    file = replaced(location, value)
    if not reported(file):
        jsonschema.validate(file, kitchen_schema())


@pytest.mark.parametrize(
    ("location", "field", "value"),
    [
        (("services", 3, "covers"), "maximum", 20_000),
        (("rules", "changeovers", "clean"), "type", "integer"),
        (("components", 0, "density"), "description", "Needed to go from ml to g."),
        (("components", 0, "density", "g_per_ml"), "maximum", 25),
        (("components", 0, "par"), "type", "string"),
    ],
)
def test_a_place_in_the_file_is_found_in_the_schema(
    location: Location, field: str, value: object
) -> None:
    assert schema_at(location)[field] == value


@pytest.mark.parametrize("location", [("bogus",), ("dishes", 0, "bogus", 1), (0,)])
def test_an_unknown_place_has_no_schema(location: Location) -> None:
    assert schema_at(location) == {}


def test_reading_needs_no_order_of_fields() -> None:
    file = tiny_kitchen()
    assert reported(json.dumps(dict(reversed(file.items()))).encode()) == ()
