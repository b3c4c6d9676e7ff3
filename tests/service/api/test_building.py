"""A plan is followed as it is made, and stopped when it is good enough."""

import uuid

from fastapi.testclient import TestClient

from tests.service import stubs
from tests.service.api.conftest import MakeClient, ended, start_plan, wait_for

HTML = {"Accept": "text/html"}


def page_of(address: str) -> str:
    return address.removeprefix("/api/v1")


def test_a_plan_that_is_made_says_how_it_stands_and_can_be_stopped(
    make_client: MakeClient,
) -> None:
    client = make_client(stubs.make_until_stopped)
    address = start_plan(client)
    wait_for(client, address, lambda status: len(status["progress"]) > 2)
    text = client.get(f"{page_of(address)}/build", headers=HTML).text
    assert "Looking for a better plan" in text
    assert "Since the first plan: " in text
    assert "min less work" in text
    assert f'hx-sse:connect="{page_of(address)}/stream"' in text
    assert '<noscript><meta http-equiv="refresh"' in text, "without JavaScript it looks again"
    assert f'action="{page_of(address)}/stop"' in text
    stopped = client.post(f"{page_of(address)}/stop", headers=HTML, follow_redirects=False)
    assert stopped.headers["location"] == f"{page_of(address)}/build"
    status = wait_for(client, address, ended)
    assert status["state"] == "done"
    assert client.get(f"{address}/document").json() == {"origin": "best so far"}
    text = client.get(f"{page_of(address)}/build", headers=HTML).text
    assert "The plan is ready" in text
    assert "stopped early" in text
    assert f'href="{page_of(address)}/release"' in text
    assert "hx-sse:connect" not in text
    assert "http-equiv" not in text


def test_the_stream_tells_each_change_and_then_ends(client: TestClient) -> None:
    address = start_plan(client)
    answer = client.get(f"{page_of(address)}/stream")
    assert answer.headers["Content-Type"].startswith("text/event-stream")
    events = [event for event in answer.text.split("\n\n") if event.strip()]
    assert "The plan is ready" in events[-2]
    assert events[-1].splitlines() == ["event: ended", "data: done"]


def test_a_plan_that_is_ready_says_what_is_short_and_what_would_help(
    make_client: MakeClient,
) -> None:
    client = make_client(stubs.make_well_but_short)
    address = start_plan(client)
    streamed = client.get(f"{page_of(address)}/stream").text
    for text in (streamed, client.get(f"{page_of(address)}/build", headers=HTML).text):
        assert "Onion soup, Lunch: 20 portions short" in text
        assert "Ada starts at 06:00: nothing is short" in text


def test_a_run_that_fails_says_why(make_client: MakeClient) -> None:
    client = make_client(stubs.make_refusal)
    address = start_plan(client)
    wait_for(client, address, ended)
    text = client.get(f"{page_of(address)}/build", headers=HTML).text
    assert "There is no plan" in text
    assert "has no service then" in text
    assert "/release" not in text


def test_stopping_what_has_ended_changes_nothing_and_what_is_not_there_is_404(
    client: TestClient,
) -> None:
    address = start_plan(client)
    wait_for(client, address, ended)
    before = client.get(address).json()
    assert client.post(f"{page_of(address)}/stop", follow_redirects=False).status_code == 303
    assert client.get(address).json() == before
    for tail in ("build", "stream"):
        assert client.get(f"/plans/{uuid.uuid4()}/{tail}").status_code == 404
    assert client.post(f"/plans/{uuid.uuid4()}/stop").status_code == 404
