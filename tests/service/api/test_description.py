import re
from typing import Any

import pytest
from fastapi.testclient import TestClient

from service.api.problems import MEDIA_TYPE


@pytest.fixture
def schema(client: TestClient) -> dict[str, Any]:
    document: dict[str, Any] = client.get("/api/v1/openapi.json").json()
    return document


def _operations(schema: dict[str, Any]) -> list[tuple[str, dict[str, Any]]]:
    return [
        (f"{method.upper()} {path}", operation)
        for path, methods in schema["paths"].items()
        for method, operation in methods.items()
    ]


def _references(value: object) -> set[str]:
    if isinstance(value, dict):
        own = {value["$ref"]} if isinstance(value.get("$ref"), str) else set()
        return own.union(*(_references(part) for part in value.values()))
    if isinstance(value, list):
        return set().union(*(_references(part) for part in value))
    return set()


def test_every_operation_has_a_summary_a_description_and_a_tag(schema: dict[str, Any]) -> None:
    operations = _operations(schema)
    assert len(operations) >= 11
    for name, operation in operations:
        assert operation["summary"], name
        assert operation["description"], name
        assert operation["tags"], name


def test_every_answer_has_a_description_and_a_shape(schema: dict[str, Any]) -> None:
    for name, operation in _operations(schema):
        for status, answer in operation["responses"].items():
            assert answer["description"], (name, status)
            kind = "application/json" if status.startswith("2") else MEDIA_TYPE
            assert list(answer["content"]) == [kind], (name, status)
            assert answer["content"][kind]["schema"], (name, status)


def test_every_parameter_is_described(schema: dict[str, Any]) -> None:
    for name, operation in _operations(schema):
        for parameter in operation.get("parameters", []):
            assert parameter["description"], (name, parameter["name"])


def test_every_body_is_described_by_a_schema(schema: dict[str, Any]) -> None:
    bodies = [
        operation["requestBody"]
        for _, operation in _operations(schema)
        if "requestBody" in operation
    ]
    assert len(bodies) == 6
    for body in bodies:
        assert body["content"]["application/json"]["schema"]["$ref"]


def test_every_reference_leads_somewhere(schema: dict[str, Any]) -> None:
    known = {f"#/components/schemas/{name}" for name in schema["components"]["schemas"]}
    assert _references(schema) <= known


def test_every_schema_is_described(schema: dict[str, Any]) -> None:
    bare = [
        name
        for name, part in schema["components"]["schemas"].items()
        if not part.get("description")
    ]
    assert bare == []


def _properties(part: object, place: str) -> list[tuple[str, dict[str, Any]]]:
    """Every property, however deep it stands, with its place."""
    if isinstance(part, list):
        return [
            each
            for number, one in enumerate(part)
            for each in _properties(one, f"{place}[{number}]")
        ]
    if not isinstance(part, dict):
        return []
    own = part.get("properties")
    found = (
        [(f"{place}.{name}", told) for name, told in own.items()] if isinstance(own, dict) else []
    )
    for key, value in part.items():
        found.extend(_properties(value, f"{place}/{key}"))
    return found


def test_every_property_is_described(schema: dict[str, Any]) -> None:
    properties = _properties(schema, "")
    assert len(properties) > 500
    assert [place for place, told in properties if not told.get("description")] == []


def test_what_holds_a_described_thing_says_what_it_holds(schema: dict[str, Any]) -> None:
    parts = schema["components"]["schemas"]
    told = parts["Component"]["properties"]["route"]["description"]
    assert told == parts["Step"]["description"]


def test_answers_that_any_request_may_meet_are_described(schema: dict[str, Any]) -> None:
    for name, operation in _operations(schema):
        told = set(operation["responses"])
        assert told >= {"400", "405", "413", "421", "500"}, name
        assert ("403" in told) == (not name.startswith("GET")), name
        assert ("415" in told) == ("requestBody" in operation), name
        assert operation["responses"]["405"]["headers"]["Allow"]["description"]


def test_the_answers_that_come_are_described(client: TestClient, schema: dict[str, Any]) -> None:
    """Each operation is sent what no kitchen or plan fits, wrong hosts, sites, lengths, kinds."""
    for name, operation in _operations(schema):
        method, path = name.split(" ")
        address = re.sub(r"\{\w+\}", "none", path)
        for headers in (
            {},
            {"Host": "elsewhere.example"},
            {"Sec-Fetch-Site": "cross-site"},
            {"Content-Length": "many"},
            {"Content-Length": "99999999"},
            {"Content-Type": "text/plain"},
            {"Content-Type": "application/json"},
        ):
            answer = client.request(method, address, content=b"{", headers=headers)
            assert str(answer.status_code) in operation["responses"], (name, headers)


def test_units_are_stated_once_for_all(schema: dict[str, Any]) -> None:
    for word in ("grams", "minutes after midnight", "UTC", "problem+json"):
        assert word in schema["info"]["description"]
