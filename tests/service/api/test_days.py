"""The day's page: entered values become a version of the file; what cannot be is said beside it."""

import json
import re
from typing import Any

import pytest
from fastapi.testclient import TestClient

from tests.service import stubs
from tests.service.api.conftest import ended, send_kitchen, wait_for

DAYS = "/kitchens/test-kitchen/days"
PAGE = f"{DAYS}/2026-03-02"
HTML = {"Accept": "text/html"}


@pytest.fixture
def page(client: TestClient) -> TestClient:
    send_kitchen(client)
    return client


def save(client: TestClient, address: str = PAGE, **fields: str) -> Any:
    sent = {"version": "1", **{name.replace("__", "."): text for name, text in fields.items()}}
    return client.post(address, data=sent, headers=HTML, follow_redirects=False)


def stored(client: TestClient) -> dict[str, Any]:
    file: dict[str, Any] = client.get("/api/v1/kitchens/test-kitchen").json()
    return file


def field_of(text: str, name: str) -> str:
    (found,) = re.findall(rf'<input[^>]*name="{re.escape(name)}"[^>]*>', text)
    return str(found)


def test_the_page_shows_what_the_file_says(page: TestClient) -> None:
    text = page.get(PAGE, headers=HTML).text
    assert 'value="40"' in field_of(text, "covers.lunch")
    assert 'value="50"' in field_of(text, "mix.lunch.soup"), "per 100 covers"
    assert 'value="07:00"' in field_of(text, "start.ada")
    assert 'value="20"' in field_of(text, "raw.onion.2026-03-01")
    assert 'inputmode="decimal"' in field_of(text, "raw.onion.2026-03-01")
    assert f'href="{DAYS}/2026-03-03"' in text


def test_saving_makes_a_version_and_leads_back_to_the_page(page: TestClient) -> None:
    answer = save(page, covers__lunch="55", mix__lunch__soup="62,5", **{"in.ada": "out"})
    assert (answer.status_code, answer.headers["location"]) == (303, f"{PAGE}?saved=2")
    file = stored(page)
    assert file["services"][0]["covers"] == 55
    assert file["services"][0]["mix"][0]["per_cover"] == 0.625
    assert file["cooks"][0]["days_off"] == ["2026-03-02"]
    assert "Saved, version 2" in page.get(answer.headers["location"], headers=HTML).text


def test_a_count_is_kept_in_the_unit_it_was_counted_in(page: TestClient) -> None:
    key = "raw.onion.2026-03-01"
    save(page, **{key: "1 1/2", f"unit.{key}": "bag"})
    assert stored(page)["raw_stock"][0]["amount"] == "1.5 bag"


def test_what_is_the_same_makes_no_version(page: TestClient) -> None:
    answer = save(page, covers__lunch="40")
    assert answer.headers["location"] == f"{PAGE}?saved=1"


@pytest.mark.parametrize(
    ("fields", "name", "words"),
    [
        ({"covers.lunch": "many"}, "covers.lunch", "Write digits only"),
        ({"covers.lunch": ""}, "covers.lunch", "Write a whole number"),
        ({"covers.lunch": "90000"}, "covers.lunch", "must be at most 20000"),
        ({"mix.lunch.soup": "1,500"}, "mix.lunch.soup", "Write 1500"),
        ({"in.ada": "in", "start.ada": "25h", "end.ada": "1500"}, "start.ada", "0630"),
        ({"in.ada": "in", "start.ada": "900", "end.ada": "8"}, "end.ada", "not after it starts"),
        ({"raw.onion.2026-03-01": ""}, "raw.onion.2026-03-01", "Write 0 if there is none"),
        (
            {"raw.onion.2026-03-01": "2", "unit.raw.onion.2026-03-01": "hod"},
            "raw.onion.2026-03-01",
            "known units here",
        ),
    ],
)
def test_what_cannot_be_is_said_beside_its_field_and_nothing_is_stored(
    page: TestClient, fields: dict[str, str], name: str, words: str
) -> None:
    answer = page.post(PAGE, data={"version": "1", "covers.lunch": "77", **fields}, headers=HTML)
    assert answer.status_code == 422
    assert 'aria-invalid="true"' in field_of(answer.text, name)
    assert f'id="f-{name}-wrong"' in answer.text
    assert words.lower() in answer.text.lower()
    assert f'href="#f-{name}"' in answer.text, "the list at the top leads to the field"
    assert stored(page) == stubs.kitchen_document()


def test_all_that_is_wrong_is_said_at_once(page: TestClient) -> None:
    """Both what cannot be read and what the kitchen file's own reading finds."""
    answer = save(page, covers__lunch="90000", mix__lunch__soup="lots")
    assert 'id="f-covers.lunch-wrong"' in answer.text
    assert 'id="f-mix.lunch.soup-wrong"' in answer.text
    assert 'value="lots"' in field_of(answer.text, "mix.lunch.soup")


def test_a_change_by_someone_else_is_noticed_and_what_was_entered_is_kept(
    page: TestClient,
) -> None:
    save(page, covers__lunch="60")
    answer = save(page, covers__lunch="70")
    assert answer.status_code == 409
    assert "someone else has changed this kitchen" in answer.text
    assert 'value="70"' in field_of(answer.text, "covers.lunch")
    assert "Saved by someone else: 60" in answer.text
    assert stored(page)["services"][0]["covers"] == 60
    again = save(page, version="2", covers__lunch="70")
    assert again.status_code == 303
    assert stored(page)["services"][0]["covers"] == 70


@pytest.mark.parametrize("text", ["lots", "90000"])
def test_a_change_by_someone_else_is_told_also_where_something_is_wrong(
    page: TestClient, text: str
) -> None:
    """Else the mended form would be saved over it."""
    save(page, mix__lunch__soup="60")
    answer = save(page, covers__lunch=text)
    assert answer.status_code == 409
    assert "someone else has changed this kitchen" in answer.text
    assert f'value="{text}"' in field_of(answer.text, "covers.lunch")


def test_a_form_that_is_sent_twice_is_saved_once_and_is_no_conflict(page: TestClient) -> None:
    for _ in range(2):
        answer = save(page, covers__lunch="60")
        assert answer.headers["location"] == f"{PAGE}?saved=2"


def test_last_weeks_covers_stand_beside_todays_even_from_an_older_version(
    page: TestClient,
) -> None:
    document = stubs.kitchen_document()
    document["services"][0] |= {"id": "lunch_9", "date": "2026-03-09", "covers": 44}
    page.put("/api/v1/kitchens/test-kitchen", json=document)
    text = page.get(f"{DAYS}/2026-03-09", headers=HTML).text
    assert 'value="44"' in field_of(text, "covers.lunch_9")
    assert "Mon 2 Mar: <b>40</b>" in text


def test_a_day_without_services_takes_over_those_of_another(page: TestClient) -> None:
    address = f"{DAYS}/2026-03-09"
    text = page.get(address, headers=HTML).text
    assert "No service on this day yet" in text
    assert "Take over Mon 2 Mar: Lunch 40" in text
    answer = save(page, f"{address}/services", source="2026-03-02")
    assert answer.headers["location"] == f"{address}?saved=2"
    assert 'value="40"' in field_of(page.get(address).text, "covers.lunch_20260309")
    none = save(page, f"{address}/services", version="2", source="2026-01-01")
    assert none.status_code == 404
    slip = save(page, f"{address}/services", version="2", source="monday")
    assert slip.status_code == 422


def test_save_and_build_asks_for_a_plan_of_what_was_entered(page: TestClient) -> None:
    answer = save(page, covers__lunch="55", then="build")
    found = re.fullmatch(r"/plans/([0-9a-f-]{36})/build", answer.headers["location"])
    assert found is not None
    status = wait_for(page, f"/api/v1/plans/{found[1]}", ended)
    assert (status["state"], status["kitchen_version"]) == ("done", 2)
    assert f"/plans/{found[1]}" in page.get(PAGE, headers=HTML).text


def test_the_kitchen_leads_to_its_today_and_a_picked_date_to_its_day(page: TestClient) -> None:
    today = page.get("/kitchens/test-kitchen", follow_redirects=False)
    assert today.headers["location"].startswith(f"{DAYS}/20")
    picked = page.get(f"{DAYS}?date=2026-03-05", follow_redirects=False)
    assert picked.headers["location"] == f"{DAYS}/2026-03-05"
    assert page.get("/kitchens/nowhere").status_code == 404


def test_only_a_form_is_taken(page: TestClient) -> None:
    answer = page.post(PAGE, content=json.dumps({"version": 1}), headers=HTML)
    assert answer.status_code == 415
