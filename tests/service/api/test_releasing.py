"""A release is looked at before it is made, and what it changed can be read after."""

from fastapi.testclient import TestClient

from tests.service import stubs
from tests.service.api.conftest import MakeClient, ended, start_plan, wait_for
from tests.service.api.test_floor import send, tick

HTML = {"Accept": "text/html"}
CHANGES = "/floor/test-kitchen/2026-03-02/changes"


def done(client: TestClient) -> str:
    address = start_plan(client)
    wait_for(client, address, ended)
    return address.removeprefix("/api/v1")


def test_the_first_release_says_who_gets_what_and_is_made_by_one_button(
    make_client: MakeClient,
) -> None:
    client = make_client(stubs.make_with_work)
    plan = done(client)
    text = client.get(f"{plan}/release", headers=HTML).text
    assert "The first release of this day" in text
    assert "Ada: 2 batches" in text
    assert f'<form method="post" action="{plan}/release">' in text
    answer = client.post(f"{plan}/release", headers=HTML, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, CHANGES)
    assert "Release 1" in client.get(CHANGES, headers=HTML).text
    assert "On the floor already" in client.get(f"{plan}/release", headers=HTML).text


def test_a_second_release_shows_what_changes_before_and_after(make_client: MakeClient) -> None:
    client = make_client(stubs.make_with_work_by_seed)
    client.post(f"{done(client)}/release")
    address = start_plan(client, seed=2)
    wait_for(client, address, ended)
    plan = address.removeprefix("/api/v1")
    before = client.get(f"{plan}/release", headers=HTML).text
    client.post(f"{plan}/release")
    after = client.get(CHANGES, headers=HTML).text
    for text in (before, after):
        assert "What changes against release 1" in text
        assert "Later" in text
        assert "07:27 → 07:57" in text
        assert "1 change, 1 batch stays as it was" in text
    first = client.get(f"{CHANGES}?release=1", headers=HTML).text
    assert "The first release of this day" in first
    assert "Release 2 is newer" in first
    assert client.get(f"{CHANGES}?release=3", headers=HTML).status_code == 404


def test_over_work_that_has_begun_there_is_no_button_but_what_to_do(
    make_client: MakeClient,
) -> None:
    client = make_client(stubs.make_with_work)
    client.post(f"{done(client)}/release")
    send(client, tick("a"))
    plan = done(client)
    text = client.get(f"{plan}/release", headers=HTML).text
    assert "has begun" in text
    assert 'method="post"' not in text
    assert client.post(f"{plan}/release", headers=HTML).status_code == 409


def test_without_a_release_there_are_no_changes(client: TestClient) -> None:
    answer = client.get(CHANGES, headers=HTML)
    assert answer.status_code == 404
    assert "release it" in answer.text


def test_every_page_of_a_plan_leads_to_its_day_and_its_release(client: TestClient) -> None:
    plan = done(client)
    text = client.get(f"{plan}/wall", headers=HTML).text
    for href in ("/kitchens/test-kitchen/days/2026-03-02", f"{plan}/release"):
        assert f'href="{href}"' in text
