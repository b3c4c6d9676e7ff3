"""Reading a kitchen file: all is reported, in plain words, with where it stands."""

import json

import pytest

from planner.kitchen.errors import KitchenErrors
from planner.kitchen.reading import read_kitchen
from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny, tiny_kitchen


def test_a_valid_file_gives_the_kitchen_it_describes() -> None:
    assert read_kitchen(json.dumps(tiny_kitchen()).encode()) == tiny()


def test_a_byte_order_mark_is_no_error() -> None:
    assert reported(b"\xef\xbb\xbf" + json.dumps(tiny_kitchen()).encode()) == ()


def test_the_kitchen_it_gives_reads_back_from_its_own_json() -> None:
    kitchen = read_kitchen(json.dumps(tiny_kitchen()).encode())
    assert read_kitchen(kitchen.model_dump_json().encode()) == kitchen


def test_another_format_is_refused_by_name() -> None:
    file = tiny_kitchen()
    file["format"] = "some-other-file"
    error = only(file)
    assert (error.path, error.value) == ("format", "some-other-file")
    assert "prepwright-kitchen" in error.remedy


@pytest.mark.parametrize("version", [0, 2, "1", True, None])
def test_another_version_is_refused_without_a_flood_of_field_errors(version: object) -> None:
    file = tiny_kitchen()
    file["version"] = version
    file["dishes"] = "what a later version may hold"
    error = only(file)
    assert error.path == "version"
    assert "1" in error.remedy


def test_several_errors_of_every_kind_are_reported_at_once() -> None:
    file = tiny_kitchen()
    file["services"][0]["covers"] = -5
    file["stations"][1]["places"] = 0
    file["operations"][0]["yields"][0]["fraction"] = 0
    file["operations"][1]["skill"] = "welding"
    file["dishes"][0]["components"][1]["amount"] = "2 dollop"
    file["dishes"][0]["components"][0]["item"] = "stok"
    file["components"][0]["inputs"] = [{"item": "stock"}]
    file["cooks"][0]["shifts"][0]["end"] = "07:00"
    file["dishes"][1]["name"] = "Onion soup"
    assert {error.path for error in reported(file)} == {
        "services[0].covers",
        "stations[1].places",
        "operations[0].yields[0].fraction",
        "operations[1].skill",
        "dishes[0].components[1].amount",
        "dishes[0].components[0].item",
        "components[1].inputs[1].item",
        "cooks[0].shifts[0].end",
        "dishes[1].name",
    }


def test_a_field_out_of_range_is_reported_once() -> None:
    """Its stand-in for the further checks gives no second error at the same place."""
    file = tiny_kitchen()
    file["operations"][0]["yields"][0]["fraction"] = 50
    error = only(file)
    assert error.path == "operations[0].yields[0].fraction"
    assert error.value == "50"


def test_duplicate_fields_are_reported_with_the_rest() -> None:
    text = json.dumps(tiny_kitchen())
    text = text.replace('"covers": 40', '"covers": 40, "covers": -1')
    assert [error.path for error in reported(text.encode())] == [
        "services[0].covers",
        "services[0].covers",
    ]


def test_the_exceptions_text_has_each_error_with_element_value_and_remedy() -> None:
    file = tiny_kitchen()
    file["components"][1]["route"][0]["operation"] = "simer"
    with pytest.raises(KitchenErrors) as raised:
        read_kitchen(json.dumps(file).encode())
    assert str(raised.value) == (
        "components[1].route[0].operation (stock) = simer: no operation has this id; "
        "did you mean 'simmer'? use the id of one, or add it under operations"
    )
