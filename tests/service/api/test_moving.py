"""Batches moved and held by hand over the API and the pages, with the real planner."""

from collections.abc import Iterator
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
from fastapi.testclient import TestClient

import seed_data
from planner.kitchen.reading import read_kitchen
from service.app import create_app
from service.planning import make_plan
from service.settings import Settings
from tests.service.api.conftest import ended, send_kitchen, wait_for

SMALL = Path(seed_data.__file__).parent / "small.json"
DAY = read_kitchen(SMALL.read_bytes()).as_of.isoformat()
WISH = {"date": DAY, "deterministic_limit": 0.1}


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The data of a server on which the small kitchen's day is planned."""
    folder = tmp_path_factory.mktemp("planned")
    with _serve(folder) as client:
        send_kitchen(client, SMALL.read_bytes())
        built(client, slug_of(client))
    return folder


@pytest.fixture
def client(planned: Path, tmp_path: Path) -> Iterator[TestClient]:
    """The small kitchen and its plan, of which each test has a copy."""
    with _serve(copytree(planned, tmp_path / "data")) as client:
        yield client


@pytest.fixture
def plan(client: TestClient) -> str:
    """Address of the plan that is there."""
    (found,) = client.get("/api/v1/plans").json()
    return f"/api/v1/plans/{found['id']}"


def _serve(folder: Path) -> TestClient:
    app = create_app(Settings(data_dir=folder), make_plan)
    return TestClient(app, base_url="http://localhost", raise_server_exceptions=False)


def built(client: TestClient, slug: str) -> str:
    plan = client.post(f"/api/v1/kitchens/{slug}/plans", json=WISH).headers["Location"]
    status = wait_for(client, plan, ended)
    assert status["state"] == "done", status["error"]
    return str(plan)


def slug_of(client: TestClient) -> str:
    return str(client.get("/api/v1/kitchens").json()[0]["slug"])


def batches(client: TestClient, plan: str) -> list[dict[str, Any]]:
    sheet = client.get(f"{plan}/sheet").json()
    return [batch for cook in sheet["cooks"] for batch in cook["batches"]]


def moved(client: TestClient, plan: str, *wishes: dict[str, Any]) -> str:
    answer = client.post(f"{plan}/moves", json={"batches": wishes, "seconds": 1})
    assert answer.status_code == 202, answer.text
    run = str(answer.headers["Location"])
    status = wait_for(client, run, ended)
    assert status["state"] == "done", status["error"]
    assert status["moved_from"] == plan.rpartition("/")[2]
    return run


def other_cook(batch: dict[str, Any]) -> str:
    return "joss" if batch["cook"] == "mara" else "mara"


def test_a_batch_goes_to_another_cook_and_stays_there_in_the_next_plan(
    client: TestClient, plan: str
) -> None:
    slug = slug_of(client)
    batch = next(b for b in batches(client, plan) if b["operation"] == "wash")
    lots = {task["lot"] for task in batch["tasks"] if task["part"] == "work"}
    cook = other_cook(batch)
    run = moved(client, plan, {"batch": batch["number"], "cook": cook})
    there = [b for b in batches(client, run) if lots & {task["lot"] for task in b["tasks"]}]
    assert {b["cook"] for b in there if b["part"] == "work"} == {cook}
    assert there[0]["held"] == {"cook": True, "begin": None, "exactly": False}
    held = client.get(f"{run}/held").json()
    assert {one["lot"] for one in held} == lots
    again = built(client, slug)
    assert {b["cook"] for b in batches(client, again) if b["operation"] == "wash"} == {cook}
    assert client.get(f"{again}/held").json() == held
    number = next(b["number"] for b in batches(client, again) if b["held"])
    free = moved(client, again, {"batch": number, "free": True})
    assert client.get(f"{free}/held").json() == []
    assert client.get(f"{built(client, slug)}/held").json() == []


def test_a_rebuilt_day_that_has_a_release_moves_nothing(client: TestClient, plan: str) -> None:
    slug = slug_of(client)
    page = plan.removeprefix("/api/v1")
    assert client.post(f"{page}/release", follow_redirects=False).status_code == 303
    again = built(client, slug)
    assert batches(client, again) == batches(client, plan)


def test_a_moved_plan_is_seen_as_a_difference_and_released(client: TestClient, plan: str) -> None:
    page = plan.removeprefix("/api/v1")
    batch = next(b for b in batches(client, plan) if b["operation"] == "wash")
    answer = client.post(
        f"{page}/moving",
        data={"batch": batch["number"], "cook": other_cook(batch), "when": "open", "time": ""},
        follow_redirects=False,
    )
    assert answer.status_code == 303
    run = answer.headers["Location"].removesuffix("/build")
    status = wait_for(client, f"/api/v1{run}", ended)
    assert status["state"] == "done", status["error"]
    assert f"{run}/moved" in client.get(f"{run}/build").text
    seen = client.get(f"{run}/moved")
    assert seen.status_code == 200
    assert "other work than before" in seen.text
    assert "held by hand" in client.get(f"{run}/moving").text
    assert "Held by hand" in client.get(f"{run}/cooks/{other_cook(batch)}").text
    assert client.post(f"{run}/release", follow_redirects=False).status_code == 303


def test_a_batch_kept_as_it_is_stays_to_the_minute(client: TestClient, plan: str) -> None:
    page = plan.removeprefix("/api/v1")
    batch = batches(client, plan)[-1]
    answer = client.post(
        f"{page}/moving", data={"batch": batch["number"], "do": "keep"}, follow_redirects=False
    )
    run = "/api/v1" + answer.headers["Location"].removesuffix("/build")
    assert wait_for(client, run, ended)["state"] == "done"
    first, *_ = client.get(f"{run}/held").json()
    assert (first["cook"], first["begin"]) == (batch["cook"], batch["work_start"])
    assert first["exactly"]


@pytest.mark.parametrize(
    ("wish", "field", "words"),
    [
        ({"batch": 999, "cook": "mara"}, "batch", "no such batch"),
        ({"batch": 1, "cook": "nobody"}, "cook", "not in the kitchen file"),
        ({"batch": 1, "begin": "03:00", "exactly": True}, "begin", "too early"),
        ({"batch": 1, "begin": "23:50", "exactly": True}, "begin", "too late"),
        ({"batch": 1}, "cook", "neither a cook nor a time"),
    ],
)
def test_what_cannot_be_is_refused_with_field_value_and_remedy(
    client: TestClient, plan: str, wish: dict[str, Any], field: str, words: str
) -> None:
    answer = client.post(f"{plan}/moves", json={"batches": [wish]})
    assert answer.status_code == 422, answer.text
    (error,) = answer.json()["errors"]
    assert error["path"] == field
    assert words in error["message"]
    assert error["remedy"]


def test_the_page_says_beside_the_batch_what_is_wrong(client: TestClient, plan: str) -> None:
    page = plan.removeprefix("/api/v1")
    answer = client.post(
        f"{page}/moving", data={"batch": "1", "cook": "", "when": "at", "time": "03:00"}
    )
    assert answer.status_code == 422
    assert "too early" in answer.text
    assert 'value="03:00"' in answer.text
    assert client.get(f"{plan}/held").json() == []


def test_a_day_that_is_over_stays_as_it_was(client: TestClient, plan: str) -> None:
    client.post(f"{plan.removeprefix('/api/v1')}/release", follow_redirects=False)
    answer = client.post(f"{plan}/moves", json={"batches": [{"batch": 1, "cook": "mara"}]})
    assert answer.status_code == 409
    assert "the day is over" in answer.json()["detail"]
