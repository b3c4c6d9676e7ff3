"""Stand-ins that let the rest of a file be checked."""

import json
from typing import Any

import pytest
from pydantic import ValidationError

from planner.kitchen.document import Kitchen
from planner.kitchen.repair import repaired
from tests.kitchens.tiny import tiny_kitchen


def error_of(file: dict[str, Any]) -> ValidationError:
    with pytest.raises(ValidationError) as raised:
        Kitchen.model_validate_json(json.dumps(file), strict=True)
    return raised.value


def test_numbers_move_into_their_range_and_unknown_fields_go() -> None:
    file = tiny_kitchen()
    file["rules"] = {"service_level": 7, "lot_minutes": 1}
    file["services"][0].update(covers=-4, colour="red")
    file["operations"][0]["yields"][0]["fraction"] = 0
    made = repaired(file, error_of(file))
    assert made is not None
    assert made["rules"] == {"service_level": 0.5, "lot_minutes": 5}
    assert made["services"][0]["covers"] == 0
    assert "colour" not in made["services"][0]
    assert made["operations"][0]["yields"][0]["fraction"] == 0.5
    Kitchen.model_validate(made)


def test_the_file_itself_is_left_as_it_is() -> None:
    file = tiny_kitchen()
    file["services"][0]["covers"] = -4
    repaired(file, error_of(file))
    assert file["services"][0]["covers"] == -4


def test_there_is_no_stand_in_for_what_is_missing_or_of_another_kind() -> None:
    file = tiny_kitchen()
    file["services"][0]["covers"] = "many"
    assert repaired(file, error_of(file)) is None
    del file["services"][0]["covers"]
    assert repaired(file, error_of(file)) is None
