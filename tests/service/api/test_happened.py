"""Something happens on the floor: the rest of the day is planned anew, seen, and released."""

import datetime as dt
from collections.abc import Iterator
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.planning import make_plan
from service.settings import Settings
from tests.service import stubs
from tests.service.api.conftest import ended, wait_for

DAY = "2026-03-02"
FLOOR = f"/floor/test-kitchen/{DAY}"
MORNING = dt.datetime(2026, 3, 2, 12, 12, tzinfo=dt.UTC)
"""07:12 on the kitchen's wall: the first batch is on the board."""


class Clock:
    now = MORNING

    def __call__(self) -> dt.datetime:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The data of a floor with a real plan of two cooks, released in the morning."""
    document = stubs.kitchen_document()
    ben = {**document["cooks"][0], "id": "ben", "name": "Ben", "initials": "B"}
    document["cooks"].append(ben)
    document["services"][0]["covers"] = 180
    folder = tmp_path_factory.mktemp("planned")
    with _serve(folder, Clock()) as client:
        client.put("/api/v1/kitchens/test-kitchen", json=document).raise_for_status()
        asked = client.post("/api/v1/kitchens/test-kitchen/plans", json={"date": DAY})
        address = asked.headers["Location"]
        assert wait_for(client, address, ended)["state"] == "done"
        client.post(f"{address}/release").raise_for_status()
    return folder


@pytest.fixture
def floor(planned: Path, tmp_path: Path, clock: Clock) -> Iterator[TestClient]:
    """The planned floor, of which each test has a copy."""
    with _serve(copytree(planned, tmp_path / "data"), clock) as client:
        yield client


def _serve(folder: Path, clock: Clock) -> TestClient:
    app = create_app(Settings(data_dir=folder, plan_seconds=0.2), make_plan, clock)
    return TestClient(app, base_url="http://localhost", follow_redirects=False)


def batches(client: TestClient) -> list[dict[str, Any]]:
    plan = client.get(f"/api/v1{FLOOR}").json()["plan"]
    sheet = client.get(f"/api/v1/plans/{plan}/sheet").json()
    return [batch for cook in sheet["cooks"] for batch in cook["batches"]]


def tell(client: TestClient, **fields: str) -> dict[str, Any]:
    """Say what has happened and wait for the plan."""
    answer = client.post(f"{FLOOR}/happened", data=fields)
    assert answer.status_code == 303, answer.text
    address = answer.headers["location"].replace("/plans", "/api/v1/plans").removesuffix("/build")
    status = wait_for(client, address, ended)
    assert status["state"] == "done", status["error"]
    return status


def say_begun(client: TestClient, clock: Clock, batch: dict[str, Any], key: str) -> None:
    body = {
        "device": "phone",
        "sent_at": clock.now.isoformat(),
        "ticks": [
            {
                "key": f"key-{key:0>8}",
                "release": client.get(f"/api/v1{FLOOR}").json()["number"],
                "act": "begun",
                "at": clock.now.isoformat(),
                "cook": batch["cook"],
                "tasks": [batch["tasks"][0]["id"]],
            }
        ],
    }
    answer = client.post(f"/api/v1{FLOOR}/ticks", json=body).json()
    assert answer["received"][0]["outcome"] == "kept", answer


def test_a_cook_leaves_and_others_take_over_after_it_was_seen(
    floor: TestClient, clock: Clock
) -> None:
    work = batches(floor)
    first = min(work, key=lambda batch: batch["start"])
    say_begun(floor, clock, first, "1")
    clock.now += dt.timedelta(minutes=1)
    status = tell(floor, what="cook_gone", which=first["cook"])
    assert status["after_release"] == 1
    preview = floor.get(f"/plans/{status['id']}/release")
    assert "What changes against release 1" in preview.text
    assert f'action="/plans/{status["id"]}/release"' in preview.text
    released = floor.post(f"/api/v1/plans/{status['id']}/release")
    assert released.json()["number"] == 2
    now = 7 * 60 + 13
    left = [batch for batch in batches(floor) if batch["start"] >= now]
    assert left
    assert first["cook"] not in {batch["cook"] for batch in left}
    stands = floor.get(f"{FLOOR}/cooks/{first['cook']}")
    assert stands.status_code == 200
    assert '"version": 1' in stands.text or '"version":1' in stands.text, "the tick still counts"


def test_more_covers_twice_go_on_from_the_day_so_far(floor: TestClient, clock: Clock) -> None:
    portions = []
    for covers in (190, 200):
        clock.now += dt.timedelta(minutes=5)
        status = tell(floor, what="covers", which="lunch", value=str(covers))
        floor.post(f"/api/v1/plans/{status['id']}/release").raise_for_status()
        portions.append(sum(batch["grams_out"] for batch in batches(floor)))
    assert floor.get(f"/api/v1{FLOOR}").json()["number"] == 3
    assert portions[0] < portions[1]


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"what": "cook_gone", "which": "zoe"}, "is not there any more"),
        ({"what": "cook_late", "which": "ada", "value": "soon"}, "14:30"),
        ({"what": "covers", "which": "lunch", "value": "many"}, "whole number"),
        ({"what": "rain"}, "Choose one"),
    ],
)
def test_what_cannot_be_taken_is_said_beside_the_question(
    floor: TestClient, fields: dict[str, str], said: str
) -> None:
    answer = floor.post(f"{FLOOR}/happened", data=fields)
    assert answer.status_code == 422
    assert said in answer.text
    assert "What has happened?" in answer.text


def test_a_day_that_is_over_is_not_planned_anew(floor: TestClient, clock: Clock) -> None:
    clock.now += dt.timedelta(days=2)
    assert floor.post(f"{FLOOR}/happened", data={"what": "nothing"}).status_code == 409


def test_a_day_under_way_says_how_sure_its_services_are(floor: TestClient, clock: Clock) -> None:
    say_begun(floor, clock, batches(floor)[0], "first-1")
    status = tell(floor, what="covers", which="lunch", value="190")
    page = f"/plans/{status['id']}"
    for address in (page, f"{page}/release"):
        text = floor.get(address, headers={"Accept": "text/html"}).text
        assert "Ready on time" in text
        assert "of 100</b>" in text
        assert "what is done is done" in text
