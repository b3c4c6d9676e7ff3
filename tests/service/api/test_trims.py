"""Shares of the trim: weighed on the bench, taken into use, put back, and told on the page."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.planning import make_plan
from service.settings import Settings
from tests.service import stubs

_FILE = "/api/v1/kitchens/test-kitchen"
_KITCHEN = "/kitchens/test-kitchen"
_OF = "onion/dice"


def _document() -> dict[str, Any]:
    """The stub's kitchen, its yield with the operation and 60 % of what comes off kept."""
    document = stubs.kitchen_document()
    document["ingredients"].append(
        {
            "id": "ends",
            "name": "Onion ends",
            "by_product": True,
            "purchase": {"unit": "bag", "holds": "1 kg", "cost": 0.0},
        }
    )
    document["operations"][0]["yields"] = [
        {"food": "onion", "fraction": 0.9, "trim": [{"item": "ends", "share": 0.6}]}
    ]
    for component in document["components"]:
        for step in component["route"]:
            step.pop("fraction", None)
    return document


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    app = create_app(Settings(data_dir=tmp_path, plan_seconds=0.1), make_plan)
    with TestClient(app, base_url="http://localhost", follow_redirects=False) as client:
        client.put(_FILE, json=_document()).raise_for_status()
        yield client


def _weigh(client: TestClient, kept: float, off: float = 400.0, **fields: str) -> httpx.Response:
    form = {
        "of": _OF,
        "unit": "g",
        "division": "1",
        "gross": "4000",
        "u0": f"{4000 - off:g}",
        "t0": f"{kept:g}",
        "t0_kind": "kept:ends",
        "t1": f"{off - kept:g}",
        **fields,
    }
    return client.post(f"{_KITCHEN}/bench", data=form)


def _trim(client: TestClient) -> dict[str, Any]:
    file = json.loads(client.get(_FILE).content)
    (trim,) = file["operations"][0]["yields"][0]["trim"]
    return dict(trim)


def _taken(client: TestClient) -> None:
    for number in range(6):
        assert _weigh(client, 330 + number).status_code == 303
    answer = client.post(f"{_KITCHEN}/yields/take-trim", data={"of": _OF})
    assert answer.status_code == 303, answer.text


def test_the_bench_offers_the_kitchen_s_by_products(client: TestClient) -> None:
    page = client.get(f"{_KITCHEN}/bench?of={_OF}").text
    assert '<option value="kept:ends">kept as Onion ends</option>' in page


def test_shares_from_the_tests_are_shown_and_taken_into_the_file(client: TestClient) -> None:
    for number in range(6):
        assert _weigh(client, 330 + number).status_code == 303
    page = client.get(f"{_KITCHEN}/yields").text
    assert "Use the shares from the tests" in page
    assert "own" not in _trim(client)
    client.post(f"{_KITCHEN}/yields/take-trim", data={"of": _OF, "reason": "deeper cut"})
    own = _trim(client)["own"]
    assert own["share"] == pytest.approx(0.83, abs=0.02)
    assert own["tests"] == 6
    page = client.get(f"{_KITCHEN}/yields").text
    assert "usual 6 % Onion ends, yours 8 % (6 tests)" in page
    assert "trim, of what is taken off: Onion ends 60 % to Onion ends 8" in page
    assert "deeper cut" in page
    assert _trim(client)["share"] == 0.6


def test_a_decision_on_shares_is_put_back_and_the_yield_stays(client: TestClient) -> None:
    _taken(client)
    client.post(f"{_KITCHEN}/yields/hand", data={"of": _OF, "percent": "88"})
    back = client.post(f"{_KITCHEN}/yields/back", data={"decision": "1"})
    assert back.status_code == 303
    assert "own" not in _trim(client)
    again = client.post(f"{_KITCHEN}/yields/back", data={"decision": "3"})
    assert again.status_code == 303
    assert _trim(client)["own"]["tests"] == 6
    usual = client.post(f"{_KITCHEN}/yields/usual-trim", data={"of": _OF})
    assert usual.status_code == 303
    assert "own" not in _trim(client)


def test_the_rule_takes_shares_where_the_kitchen_says_so(client: TestClient) -> None:
    client.post(f"{_KITCHEN}/yields/pulling", data={"level": "50", "by_rule": "yes"})
    for number in range(5):
        _weigh(client, 330 + number)
    assert _trim(client)["own"]["tests"] == 5
    assert "by rule (rule)" in client.get(f"{_KITCHEN}/yields").text


def test_an_odd_share_waits_and_the_rule_with_it(client: TestClient) -> None:
    client.post(f"{_KITCHEN}/yields/pulling", data={"level": "50", "by_rule": "yes"})
    _weigh(client, 4)
    for number in range(5):
        _weigh(client, 330 + number)
    assert "own" not in _trim(client)
    page = client.get(f"{_KITCHEN}/yields").text
    assert "Onion ends: Onion ends is 1 %" not in page
    assert "Onion ends is 1 % of what was taken off" in page


def test_without_weighed_kinds_there_is_nothing_to_take(client: TestClient) -> None:
    _weigh(client, 330, t0_kind="credited")
    answer = client.post(f"{_KITCHEN}/yields/take-trim", data={"of": _OF})
    assert answer.status_code == 409
    assert "what its trim was kept as" in answer.text


def test_a_by_product_that_the_kitchen_does_not_have_is_waste(client: TestClient) -> None:
    assert _weigh(client, 330, t0_kind="kept:peacock").status_code == 303
    assert client.post(f"{_KITCHEN}/yields/take-trim", data={"of": _OF}).status_code == 303
    assert _trim(client)["own"]["share"] < 0.6
