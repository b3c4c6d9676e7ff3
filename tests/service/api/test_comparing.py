"""Plans stand side by side, and what-ifs are planned in a process of their own."""

import re
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.comparing import MakeComparison
from service.settings import Settings
from tests.service import stubs
from tests.service.api.conftest import ended, start_plan, wait_for

HTML = {"Accept": "text/html"}


def _client(folder: Path, compare: MakeComparison) -> TestClient:
    app = create_app(
        Settings(data_dir=folder / "data"), stubs.make_with_work_by_seed, compare=compare
    )
    return TestClient(app, base_url="http://localhost", raise_server_exceptions=False)


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    with _client(tmp_path, stubs.compare_well) as client:
        yield client


def plan_of(client: TestClient, seed: int = 1) -> str:
    address = start_plan(client, seed=seed)
    wait_for(client, address, ended)
    return address.removeprefix("/api/v1")


def found(client: TestClient, plan: str) -> str:
    """What came of the what-ifs, once it is there."""
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline:
        text = client.get(f"{plan}/compare/what-ifs", headers=HTML).text
        if "hx-trigger" not in text:
            return text
        time.sleep(0.05)
    pytest.fail("still being planned after 30 s")


def test_a_plan_stands_beside_the_one_before_it_and_the_one_on_the_floor(
    client: TestClient,
) -> None:
    first, second = plan_of(client), plan_of(client, seed=2)
    alone = client.get(f"{first}/compare", headers=HTML).text
    assert "There is no other plan of this day yet" in alone
    client.post(f"{first}/release")
    third = plan_of(client)
    text = client.get(f"{third}/compare", headers=HTML).text
    assert f'href="{second}"' in text
    assert f'href="{first}"' in text
    assert "release 1" in text
    (row,) = [line for line in text.splitlines() if "Batches at another time" in line]
    assert row.count("<b>1</b>") == 1, "one batch is 30 minutes later in the second"
    assert row.count("<b>0</b>") == 1, "the first is the same"


@pytest.mark.parametrize(
    ("change", "value", "words"),
    [("covers", "20", "+20 % covers"), ("covers", "-10%", "-10 % covers")],
)
def test_a_what_if_is_planned_and_shown_side_by_side(
    client: TestClient, change: str, value: str, words: str
) -> None:
    plan = plan_of(client)
    asked = {"change": change, "value": value}
    answer = client.post(f"{plan}/compare", data=asked, headers=HTML, follow_redirects=False)
    assert answer.headers["location"] == f"{plan}/compare#what-if"
    text = found(client, plan)
    assert words in text
    assert "0 → 12" in text
    assert "30 min → 1 h" not in text
    assert "Dice Onion: Ada 07:30 → Ben 08:00" in text
    client.post(f"{plan}/compare", data=asked)
    assert found(client, plan).count(f"<b>{words}</b>") == 1, "the same is not planned twice"


@pytest.mark.parametrize(
    ("change", "value", "words"),
    [
        ("covers", "lots", "such as 20 or -10"),
        ("covers", "0", "such as 20 or -10"),
        ("covers", "900", "from -90 to 300"),
        ("equipment", "oven", "known: none"),
        ("out", "zoe", "known: ada"),
        ("menu", "soup", "out, covers, equipment"),
    ],
)
def test_what_cannot_be_tried_is_said_with_what_can(
    client: TestClient, change: str, value: str, words: str
) -> None:
    plan = plan_of(client)
    sent = {"change": change, "value": value}
    answer = client.post(f"{plan}/compare", data=sent, headers=HTML)
    assert answer.status_code == 422
    assert "That cannot be tried" in answer.text
    assert words in answer.text


def test_a_what_if_that_cannot_be_planned_says_why(tmp_path: Path) -> None:
    with _client(tmp_path, stubs.compare_refusal) as client:
        plan = plan_of(client)
        client.post(f"{plan}/compare", data={"change": "covers", "value": "20"})
        text = found(client, plan)
    assert "not possible" in text
    assert "no service then" in text


def test_after_a_restart_it_says_what_was_cut_off_and_tries_it_again(tmp_path: Path) -> None:
    with _client(tmp_path, stubs.compare_forever) as client:
        plan = plan_of(client)
        client.post(f"{plan}/compare", data={"change": "covers", "value": "20"})
    with _client(tmp_path, stubs.compare_well) as client:
        text = client.get(f"{plan}/compare", headers=HTML).text
        assert "The program ended before it was done." in text
        assert "hx-trigger" not in text, "nothing more comes by itself"
        (again,) = re.findall(r'action="([^"]*/again)"', text)
        answer = client.post(again, headers=HTML, follow_redirects=False)
        assert answer.headers["location"] == f"{plan}/compare#what-if"
        assert "0 → 12" in found(client, plan)
    with _client(tmp_path, stubs.compare_forever) as client:
        text = client.get(f"{plan}/compare", headers=HTML).text
        assert "0 → 12" in text, "it is kept"
        (away,) = re.findall(r'action="([^"]*/throw-away)"', text)
        client.post(away, headers=HTML)
        assert "Nothing tried yet" in client.get(f"{plan}/compare", headers=HTML).text
        gone = client.post(away, headers=HTML)
        assert gone.status_code == 404
        assert "no such what-if" in gone.text


def test_ending_the_server_ends_the_what_if_in_hand(tmp_path: Path) -> None:
    with _client(tmp_path, stubs.compare_forever) as client:
        plan = plan_of(client)
        client.post(f"{plan}/compare", data={"change": "covers", "value": "20"})
        text = client.get(f"{plan}/compare", headers=HTML).text
        assert 'hx-trigger="every 2s"' in text
        assert '<noscript><meta http-equiv="refresh"' in text
        began = time.monotonic()
    assert time.monotonic() - began < 20
