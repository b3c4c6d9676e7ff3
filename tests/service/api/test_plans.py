import datetime as dt
import uuid

import pytest
from fastapi.testclient import TestClient

from tests.service import stubs
from tests.service.api.conftest import MakeClient, ended, send_kitchen, start_plan, wait_for


def test_a_plan_is_asked_for_followed_and_read(client: TestClient) -> None:
    address = start_plan(client, seed=7, seconds=2)
    status = wait_for(client, address, ended)
    assert status["state"] == "done"
    assert status["date"] == "2026-03-02"
    assert [step["labor"] for step in status["progress"]] == [110, 100]
    assert client.get(f"{address}/document").json() == {"origin": "last with seed 7"}
    assert client.get(f"{address}/sheet").json()["kitchen"] == "Test Kitchen"
    assert client.get(f"{address}/why/onion").json()["grams"] == 3529.4


def test_asking_answers_at_once_with_the_address_and_the_choices_in_force(
    client: TestClient,
) -> None:
    send_kitchen(client)
    answer = client.post("/api/v1/kitchens/test-kitchen/plans", json={"deterministic_limit": 0.5})
    assert answer.status_code == 202
    body = answer.json()
    assert answer.headers["Location"] == f"/api/v1/plans/{body['id']}"
    assert body["choices"] == {
        "seconds": 8.0,
        "deterministic_limit": 0.5,
        "seed": 1,
        "workers": 2,
    }


def test_moments_are_told_in_utc(client: TestClient) -> None:
    status = client.get(start_plan(client)).json()
    moment = dt.datetime.fromisoformat(status["created_at"])
    assert moment.utcoffset() == dt.timedelta(0)


def test_the_first_sheet_can_be_read_while_the_search_goes_on(make_client: MakeClient) -> None:
    client = make_client(stubs.make_slowly)
    address = start_plan(client)
    status = wait_for(client, address, lambda status: bool(status["progress"]))
    assert (status["state"], status["has_sheet"]) == ("running", True)
    assert client.get(f"{address}/document").json() == {"origin": "first"}


def test_a_plan_without_a_sheet_yet_is_409_and_says_when_to_look_again(
    make_client: MakeClient,
) -> None:
    client = make_client(stubs.make_nothing_ever)
    answer = client.get(f"{start_plan(client)}/sheet")
    assert answer.status_code == 409
    assert answer.headers["Retry-After"] == "2"


def test_a_failed_plan_says_why(make_client: MakeClient) -> None:
    client = make_client(stubs.make_refusal)
    address = start_plan(client)
    assert "has no service then" in wait_for(client, address, ended)["error"]
    answer = client.get(f"{address}/sheet")
    assert answer.status_code == 409
    assert "Retry-After" not in answer.headers


def test_sheets_are_the_plans_that_have_one(make_client: MakeClient) -> None:
    client = make_client(stubs.make_refusal)
    wait_for(client, start_plan(client), ended)
    assert len(client.get("/api/v1/plans").json()) == 1
    assert client.get("/api/v1/sheets").json() == []


@pytest.mark.parametrize(
    ("wish", "field"),
    [
        ({"date": "tomorrow"}, "body.date"),
        ({"seconds": -1}, "body.seconds"),
        ({"seconds": "Infinity"}, "body.seconds"),
        ({"seed": 1.5}, "body.seed"),
        ({"speed": 9}, "body.speed"),
    ],
)
def test_a_bad_wish_names_its_field_and_starts_nothing(
    client: TestClient, wish: dict[str, object], field: str
) -> None:
    send_kitchen(client)
    answer = client.post("/api/v1/kitchens/test-kitchen/plans", json=wish)
    assert answer.status_code == 422
    assert [error["path"] for error in answer.json()["errors"]] == [field]
    assert client.get("/api/v1/plans").json() == []


@pytest.mark.parametrize("tail", ["", "/document", "/sheet", "/why/onion"])
def test_a_plan_that_is_not_there_is_404(client: TestClient, tail: str) -> None:
    for plan_id in (str(uuid.uuid4()), "not-a-plan"):
        answer = client.get(f"/api/v1/plans/{plan_id}{tail}")
        assert answer.status_code == 404
        assert answer.json()["errors"][0]["value"] == plan_id


def test_an_item_that_is_not_in_the_plan_is_404_and_names_those_that_are(
    client: TestClient,
) -> None:
    address = start_plan(client)
    wait_for(client, address, ended)
    answer = client.get(f"{address}/why/leek")
    assert answer.status_code == 404
    assert answer.json()["errors"][0]["remedy"] == "Use one of: onion"


@pytest.mark.parametrize("wish", ["onoin", "Onion", "onions"])
def test_an_item_that_is_not_in_the_plan_is_404_and_names_what_is_close(
    client: TestClient, wish: str
) -> None:
    address = start_plan(client)
    wait_for(client, address, ended)
    answer = client.get(f"{address}/why/{wish}")
    assert answer.status_code == 404
    (error,) = answer.json()["errors"]
    assert (error["value"], error["remedy"]) == (wish, "Did you mean onion?")


def test_a_plan_of_a_kitchen_that_is_not_there_is_404(client: TestClient) -> None:
    assert client.post("/api/v1/kitchens/nowhere/plans", json={}).status_code == 404
