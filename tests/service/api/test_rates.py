"""Rates are learned from ticks, taken over into the kitchen file, and taken back."""

import datetime as dt
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

SMALL = (Path(seed_data.__file__).parent / "small.json").read_bytes()
DATE = read_kitchen(SMALL).as_of
NOW = dt.datetime.combine(DATE, dt.time(20), dt.UTC)
HTML = {"Accept": "text/html"}
FORM = {"Content-Type": "application/x-www-form-urlencoded", **HTML}


@pytest.fixture(scope="module")
def worked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The data of a server on which a day was worked, each batch half as long again."""
    folder = tmp_path_factory.mktemp("worked")
    with _serve(folder) as client:
        _work_a_day(client)
    return folder


@pytest.fixture
def client(worked: Path, tmp_path: Path) -> Iterator[TestClient]:
    """The small kitchen after that day, of which each test has a copy."""
    with _serve(copytree(worked, tmp_path / "data")) as client:
        yield client


def _serve(folder: Path) -> TestClient:
    app = create_app(Settings(data_dir=folder), make_plan, now=lambda: NOW)
    return TestClient(app, base_url="http://localhost", raise_server_exceptions=False)


def _work_a_day(client: TestClient) -> None:
    address = send_kitchen(client, SMALL).headers["Location"]
    wish = {"date": DATE.isoformat(), "seconds": 0}
    plan = client.post(f"{address}/plans", json=wish).headers["Location"]
    assert wait_for(client, plan, ended)["state"] == "done"
    assert client.post(f"{plan}/release").status_code == 201
    sheet = client.get(f"{plan}/sheet").json()
    ticks: list[dict[str, Any]] = []
    for cook in sheet["cooks"]:
        at = NOW - dt.timedelta(hours=12)
        for batch in cook["batches"]:
            long = 1.5 * batch["hands_on"] + batch["set_up"]
            for act, moment in (("begun", at), ("done", at + dt.timedelta(minutes=long))):
                ticks.append(
                    {
                        "key": f"key-{len(ticks):08}",
                        "act": act,
                        "at": moment.isoformat(),
                        "cook": cook["cook"],
                        "tasks": [task["id"] for task in batch["tasks"]],
                        "release": 1,
                    }
                )
            at += dt.timedelta(minutes=long + 3)
    body = {"device": "phone-1", "sent_at": NOW.isoformat(), "ticks": ticks}
    slug = address.rsplit("/", 1)[1]
    answer = client.post(f"/api/v1/floor/{slug}/{DATE}/ticks", json=body)
    assert {one["outcome"] for one in answer.json()["received"]} == {"kept"}


def test_rates_are_learned_taken_over_planned_with_and_taken_back(client: TestClient) -> None:
    (kitchen,) = client.get("/api/v1/kitchens").json()
    address = f"/kitchens/{kitchen['slug']}/rates"
    page = client.get(address, headers=HTML)
    assert page.status_code == 200
    assert "batches ticked on one day" in page.text
    file = f"/api/v1/kitchens/{kitchen['slug']}"
    answer = client.post(
        address, content="use=mean&version=1", headers=FORM, follow_redirects=False
    )
    assert answer.headers["location"] == f"{address}?done=over"
    learned = read_kitchen(client.get(f"{file}").content)
    assert any(
        rate.source.startswith("learned from") for one in learned.operations for rate in one.rates
    )
    assert "learned rates taken over" in client.get(address, headers=HTML).text
    again = client.post(address, content="use=back&version=2", headers=FORM, follow_redirects=False)
    assert again.headers["location"] == f"{address}?done=back"
    assert read_kitchen(client.get(f"{file}").content) == read_kitchen(SMALL)
    third = client.post(address, content="use=back&version=3", headers=FORM)
    assert third.status_code == 409
    assert "no learned rates are in use" in third.text


def test_the_next_plan_is_as_sure_as_the_ticks_make_it(client: TestClient) -> None:
    (kitchen,) = client.get("/api/v1/kitchens").json()
    tomorrow = (DATE + dt.timedelta(1)).isoformat()
    services = read_kitchen(SMALL).services
    dates = {service.date.isoformat() for service in services}
    wish = {"date": tomorrow if tomorrow in dates else DATE.isoformat(), "seconds": 0}
    plan = client.post(f"/api/v1/kitchens/{kitchen['slug']}/plans", json=wish).headers["Location"]
    assert wait_for(client, plan, ended)["state"] == "done"
    chances = client.get(f"{plan}/sheet").json()["chances"]
    assert all(0 <= one["chance"] <= 1 for one in chances)
    page = client.get(f"{plan.removeprefix('/api/v1')}/build", headers=HTML).text
    assert "Ready on time" in page


def test_what_cannot_be_is_refused_and_nothing_is_stored(client: TestClient) -> None:
    (kitchen,) = client.get("/api/v1/kitchens").json()
    address = f"/kitchens/{kitchen['slug']}/rates"
    for body, status in (
        ("use=most&version=1", 422),
        ("use=mean&version=7", 409),
        ("use=mean&version=x", 409),
        ("use=back&version=1", 409),
    ):
        assert client.post(address, content=body, headers=FORM).status_code == status, body
    assert client.get("/kitchens/nowhere/rates", headers=HTML).status_code == 404
    assert client.get("/api/v1/kitchens").json()[0]["version"] == 1


def test_when_start_is_ticked_is_chosen_and_set_ups_then_stay(client: TestClient) -> None:
    (kitchen,) = client.get("/api/v1/kitchens").json()
    address = f"/kitchens/{kitchen['slug']}/rates"
    before = client.get(address, headers=HTML).text
    assert ": set-up, minutes" in before
    answer = client.post(
        f"{address}/start",
        content="start=first-cut&version=1",
        headers=FORM,
        follow_redirects=False,
    )
    assert answer.headers["location"] == f"{address}?done=ticks"
    page = client.get(answer.headers["location"], headers=HTML).text
    assert ": set-up, minutes" not in page
    assert "Start is ticked at the first cut" in page
    file = read_kitchen(client.get(f"/api/v1/kitchens/{kitchen['slug']}").content)
    assert not file.rules.set_up_ticked
    # Rates are longer: all that was ticked is taken to be work on the food.
    client.post(address, content="use=mean&version=2", headers=FORM, follow_redirects=False)
    learned = read_kitchen(client.get(f"/api/v1/kitchens/{kitchen['slug']}").content)
    assert [one.set_up_minutes for one in learned.operations] == [
        one.set_up_minutes for one in file.operations
    ]
    client.post(
        f"{address}/start", content="start=set-up&version=3", headers=FORM, follow_redirects=False
    )
    page = client.get(address, headers=HTML).text
    assert ": set-up, minutes" in page
    assert "Take the learned rates back" in page, "the choice is no decision on rates"


@pytest.mark.parametrize(
    ("body", "status"), [("start=noon&version=1", 422), ("start=first-cut&version=9", 409)]
)
def test_a_start_that_cannot_be_chosen_changes_nothing(
    client: TestClient, body: str, status: int
) -> None:
    (kitchen,) = client.get("/api/v1/kitchens").json()
    address = f"/kitchens/{kitchen['slug']}/rates/start"
    assert client.post(address, content=body, headers=FORM).status_code == status
    assert client.get("/api/v1/kitchens").json()[0]["version"] == 1
