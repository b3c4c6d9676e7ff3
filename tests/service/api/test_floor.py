"""Plans are released, ticks come in once each, bad ones are refused alone, changes are told."""

import asyncio
import csv
import datetime as dt
import io
import re
import threading
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from service.addresses import names_on
from service.app import create_app
from service.bell import Bell
from service.clock import utc_now
from service.settings import Settings
from service.tls import certificates
from tests.service import stubs
from tests.service.api.conftest import MakeClient, ended, start_plan, wait_for

FLOOR = "/api/v1/floor/test-kitchen/2026-03-02"
SAID = dt.datetime.now(dt.UTC).replace(microsecond=0)


@pytest.fixture
def floor(make_client: MakeClient) -> TestClient:
    """A client of a server on whose floor there is a plan with two batches."""
    client = make_client(stubs.make_with_work)
    address = start_plan(client)
    wait_for(client, address, ended)
    assert client.post(f"{address}/release").status_code == 201
    return client


def tick(key: str, act: str = "done", **more: object) -> dict[str, Any]:
    fields = {"at": SAID.isoformat(), "cook": "ada", "tasks": ["1:dice"], "release": 1}
    return {"key": f"key-{key:0>8}", "act": act, **fields, **more}


def send(
    client: TestClient, *ticks: dict[str, Any], sent_at: dt.datetime | None = None
) -> dict[str, Any]:
    body = {
        "device": "phone-1",
        "sent_at": (sent_at or dt.datetime.now(dt.UTC)).isoformat(),
        "ticks": ticks,
    }
    answer = client.post(f"{FLOOR}/ticks", json=body)
    assert answer.status_code == 200, answer.text
    received: dict[str, Any] = answer.json()
    return received


def outcomes(received: dict[str, Any]) -> list[str]:
    return [one["outcome"] for one in received["received"]]


def test_a_plan_is_released_once_and_the_floor_names_it(floor: TestClient) -> None:
    release = floor.get(FLOOR).json()
    assert release["number"] == 1
    again = floor.post(f"/api/v1/plans/{release['plan']}/release")
    assert again.json()["number"] == 1


def test_a_plan_that_is_not_done_is_not_released(make_client: MakeClient) -> None:
    client = make_client(stubs.make_crash)
    address = start_plan(client)
    wait_for(client, address, ended)
    answer = client.post(f"{address}/release")
    assert answer.status_code == 409
    assert "failed" in answer.text


def test_a_new_plan_is_not_released_over_work_that_has_begun(floor: TestClient) -> None:
    send(floor, tick("a"))
    address = start_plan(floor)
    wait_for(floor, address, ended)
    answer = floor.post(f"{address}/release")
    assert answer.status_code == 409
    assert "has begun" in answer.text


def test_before_any_tick_a_new_plan_is_the_next_release(floor: TestClient) -> None:
    address = start_plan(floor)
    wait_for(floor, address, ended)
    assert floor.post(f"{address}/release").json()["number"] == 2
    late = send(floor, tick("a", release=1))
    assert outcomes(late) == ["kept"], "what was said of the release before is kept with it"
    assert (late["release"], late["version"]) == (2, 0)


def test_the_same_tick_again_changes_nothing(floor: TestClient) -> None:
    first, again = send(floor, tick("a")), send(floor, tick("a"), tick("b", tasks=["2:dice"]))
    assert outcomes(first) == ["kept"]
    assert outcomes(again) == ["known", "kept"]
    assert again["version"] == 2


@pytest.mark.parametrize(
    ("bad", "path"),
    [
        ({"cook": "zoe"}, "cook"),
        ({"tasks": ["9:fry"]}, "tasks"),
        ({"tasks": []}, "tasks"),
        ({"act": "eaten"}, "act"),
        ({"act": "problem"}, "reason"),
        ({"act": "weighed"}, "weight"),
        ({"act": "weighed", "weight": {"kind": "trim", "grams": 90, "tare_grams": 140}}, "weight"),
        ({"act": "weighed", "weight": {"kind": "trim", "grams": -1}}, "weight"),
        ({"act": "taken back", "takes_back": "key-000000zz"}, "takes_back"),
        ({"at": "at eight"}, "at"),
        ({"at": "2026-03-02T08:00:00"}, "at"),
        ({"at": (SAID - dt.timedelta(days=3)).isoformat()}, "at"),
        ({"release": 7}, "release"),
        ({"colour": "red"}, "colour"),
        ({"key": "short"}, "key"),
    ],
)
def test_a_bad_tick_is_refused_alone_with_field_and_remedy(
    floor: TestClient, bad: dict[str, Any], path: str
) -> None:
    received = send(floor, {**tick("bad"), **bad}, tick("good"))
    assert outcomes(received) == ["refused", "kept"]
    error = received["received"][0]["error"]
    assert error["path"].startswith(path)
    assert error["message"]
    assert error["remedy"]


def test_a_key_that_says_something_else_is_refused(floor: TestClient) -> None:
    send(floor, tick("a"))
    assert outcomes(send(floor, tick("a", act="begun"))) == ["refused"]


def test_a_clock_that_is_wrong_is_set_right(floor: TestClient) -> None:
    an_hour = dt.timedelta(hours=1)
    for key, off in (("a", an_hour), ("b", -an_hour)):
        wrong = (SAID + off).isoformat()
        send(floor, tick(key, act="begun", at=wrong), sent_at=dt.datetime.now(dt.UTC) + off)
    services = floor.app.state.services  # type: ignore[attr-defined]
    with services.database.reading() as unit:
        release = unit.floor.release("test-kitchen", dt.date(2026, 3, 2))
        ticks = unit.floor.ticks(release)
    assert all(abs(one.at - SAID) < dt.timedelta(minutes=1) for one in ticks)
    assert all(abs(one.device_at - SAID) == an_hour for one in ticks)


def test_without_a_release_the_floor_says_what_to_do(client: TestClient) -> None:
    body = {"device": "p", "sent_at": SAID.isoformat(), "ticks": []}
    for answer in (
        client.get(FLOOR),
        client.post(f"{FLOOR}/ticks", json=body),
        client.get("/floor/test-kitchen/2026-03-02/stream"),
    ):
        assert answer.status_code == 404
        assert "release it" in answer.text


def test_a_ring_from_another_thread_is_heard_by_those_who_listen_to_it() -> None:
    bell = Bell()

    async def listen() -> bool:
        with bell.listening("today") as rung, bell.listening("tomorrow") as other:
            threading.Thread(target=bell.ring, args=("today",)).start()
            await asyncio.wait_for(rung.wait(), 5)
            return other.is_set()

    assert asyncio.run(listen()) is False
    bell.ring("today")  # nobody is left to hear it


def test_the_manager_reads_what_was_ticked_and_takes_it_away_as_a_file(floor: TestClient) -> None:
    send(
        floor,
        tick("a", act="begun", at=(SAID - dt.timedelta(minutes=25)).isoformat()),
        tick("b", act="done"),
        tick("c", act="problem", tasks=["2:dice"], reason="=no onions"),
    )
    page = floor.get("/floor/test-kitchen/2026-03-02/review")
    assert page.status_code == 200
    assert "1 of 2 batches" in page.text
    assert "25 min (+5)" in page.text
    assert "=no onions" in page.text
    file = floor.get("/floor/test-kitchen/2026-03-02/review.csv")
    assert file.headers["content-type"].startswith("text/csv")
    first, second = csv.DictReader(io.StringIO(file.text))
    assert (first["took_minutes"], first["over_minutes"], first["stands"]) == (
        "25.0",
        "5.0",
        "done",
    )
    assert second["problems"] == "'=no onions", "no spreadsheet takes it for a formula"
    assert second["stands"] == "to do"


def test_a_phone_is_led_to_the_pages_and_finds_no_key(client: TestClient) -> None:
    page = client.get("/enrol")
    assert page.status_code == 200
    assert "<svg" in page.text
    assert "PREPWRIGHT_TLS_PORT" in page.text
    assert client.get("/enrol/authority.crt").status_code == 404


def test_with_https_the_certificate_to_trust_is_handed_out(tmp_path: Path) -> None:
    settings = Settings(data_dir=tmp_path, host="0.0.0.0", tls_port=8443)  # noqa: S104
    certificates(settings.tls_dir, names_on(settings), utc_now)
    name = names_on(settings)[0]
    with TestClient(
        create_app(settings, stubs.make_well), base_url=f"http://{name}:8000"
    ) as client:
        page = client.get("/enrol")
        assert f"https://{name}:8443/" in page.text
        given = client.get("/enrol/authority.crt")
    assert given.headers["content-type"] == "application/x-x509-ca-cert"
    assert given.text.startswith("-----BEGIN CERTIFICATE-----")
    assert "PRIVATE" not in given.text


def test_the_live_pages_name_their_ticks_release_and_kept_files(floor: TestClient) -> None:
    base = "/floor/test-kitchen/2026-03-02"
    assert "Ada" in floor.get(base).text
    page = floor.get(f"{base}/cooks/ada?units=us")
    assert page.status_code == 200
    assert f"/api/v1{base}/ticks" in page.text
    kept = re.search(r'"(/static/[0-9a-f]{12}/floor/cook\.js)"', page.text)
    assert kept is not None
    assert "immutable" in floor.get(kept[1]).headers["cache-control"]
    assert floor.get("/static/screen.css").headers["cache-control"] == "no-cache, private"
    assert floor.get(f"{base}/wall").status_code == 200
    worker = floor.get("/floor/worker.js")
    assert worker.headers["service-worker-allowed"] == "/floor/"
    assert worker.headers["content-type"].startswith("text/javascript")
    assert floor.get(f"{base}/cooks/zoe").status_code == 404
