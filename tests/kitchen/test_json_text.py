"""Bytes that are no kitchen file at all, and JSON that readers differ on."""

import json

import pytest

from planner.kitchen.json_text import MAX_BYTES, parse_document
from tests.kitchen.reported import only, reported
from tests.kitchens.tiny import tiny_kitchen


def test_ten_megabytes_are_refused_before_they_are_read() -> None:
    error = only(b"{" + b" " * 10_000_000)
    assert error.value == "10.0 MB"
    assert "larger than 5 MB" in error.message
    assert "kitchen file" in error.remedy


def test_a_file_of_just_the_limit_is_read() -> None:
    text = json.dumps(tiny_kitchen()).encode()
    assert parse_document(text + b" " * (MAX_BYTES - len(text))).values["version"] == 1


@pytest.mark.parametrize(
    "data", ["Café".encode("latin-1"), json.dumps(tiny_kitchen()).encode("utf-16")]
)
def test_other_encodings_than_utf_8_are_refused_with_the_first_bad_byte(data: bytes) -> None:
    error = only(data)
    assert error.value.startswith("byte 0x")
    assert "not UTF-8" in error.message
    assert error.remedy == "save it as UTF-8"


@pytest.mark.parametrize("data", [b"", b"   ", b"name: Tiny", b'{"version": 1,}', b'{"a": tru}'])
def test_text_that_is_no_json_is_refused_with_its_line(data: bytes) -> None:
    error = only(data)
    assert error.path.startswith("line 1, column ")
    assert "not JSON" in error.message
    assert "comma" in error.remedy


@pytest.mark.parametrize("data", [b"[]", b"3", b"null", b'"kitchen"', b"NaN"])
def test_json_that_is_no_object_is_refused(data: bytes) -> None:
    assert "one JSON object" in only(data).message


@pytest.mark.parametrize("depth", [25, 900, 100_000])
def test_deep_nesting_is_refused(depth: int) -> None:
    error = only(b'{"rules": ' + b"[" * depth + b"]" * depth + b"}")
    assert "nested more than 20 deep" in error.message


def test_a_number_of_ten_thousand_digits_is_refused() -> None:
    assert "thousands of digits" in only(b'{"version": ' + b"9" * 10_000 + b"}").message


def test_each_repeated_field_is_named_with_its_place() -> None:
    text = b'{"name": "A", "name": "B", "dishes": [{"id": "soup", "id": "soup", "id": "x"}]}'
    errors = parse_document(text).errors
    assert [(error.path, error.value) for error in errors] == [
        ("name", "B"),
        ("dishes[0].id", "x"),
    ]
    assert all("twice" in error.message for error in errors)


@pytest.mark.parametrize(
    ("escape", "code"), [("\\u0000", "U+0000"), ("\\u001b", "U+001B"), ("\\ud800", "U+D800")]
)
def test_characters_that_no_database_holds_are_refused(escape: str, code: str) -> None:
    text = json.dumps(tiny_kitchen()).replace("Onion soup", f"Onion{escape}soup")
    error = only(text.encode())
    assert error.path == "dishes[0].name"
    assert error.element == "onion_soup"
    assert code in error.message


def test_line_breaks_and_tabs_in_a_note_are_no_error() -> None:
    file = tiny_kitchen()
    file["components"][0]["note"] = "one\n\ttwo"
    assert reported(file) == ()
