import pytest
from fastapi.testclient import TestClient

from service.api.headers import SECURITY_HEADERS
from tests.service import stubs
from tests.service.api.conftest import MakeClient, ended, start_plan, wait_for
from web.links import STYLESHEETS

HTML = {"Accept": "text/html"}


def _plan_page(client: TestClient) -> str:
    address = start_plan(client)
    wait_for(client, address, ended)
    return address.removeprefix("/api/v1")


def test_the_empty_list_says_what_to_do(client: TestClient) -> None:
    answer = client.get("/", headers=HTML)
    assert answer.status_code == 200
    assert "prepwright demo" in answer.text
    assert answer.headers["Content-Security-Policy"] == SECURITY_HEADERS["Content-Security-Policy"]


def test_the_list_leads_to_each_plan(client: TestClient) -> None:
    page = _plan_page(client)
    listed = client.get("/", headers=HTML).text
    assert f'href="{page}"' in listed
    assert "Test Kitchen" in listed
    assert "ready" in listed


@pytest.mark.parametrize("tail", ["", "/cooks/ada", "/wall", "/costs", "/why", "/why/onion"])
def test_every_page_of_a_plan_opens_and_keeps_the_readers_units(
    client: TestClient, tail: str
) -> None:
    page = _plan_page(client)
    answer = client.get(f"{page}{tail}?units=us&clock=12", headers=HTML)
    assert answer.status_code == 200
    assert '<a href="?units=us" aria-current="true">' in answer.text
    again = client.get(f"{page}{tail}", headers=HTML)
    assert '<a href="?units=us" aria-current="true">' in again.text, "the device keeps it"
    assert '<a href="?clock=12" aria-current="true">' in again.text
    assert "<style" not in answer.text, "the policy allows no style in the page"
    assert " style=" not in answer.text


def test_units_that_are_not_known_are_refused(client: TestClient) -> None:
    answer = client.get(f"{_plan_page(client)}?units=stone", headers=HTML)
    assert answer.status_code == 422


def test_a_cook_who_is_not_on_the_sheet_is_404_and_names_those_who_are(client: TestClient) -> None:
    answer = client.get(f"{_plan_page(client)}/cooks/bob", headers=HTML)
    assert answer.status_code == 404
    assert "ada" in answer.text


def test_a_page_says_why_a_quantity_is_what_it_is(client: TestClient) -> None:
    answer = client.get(f"{_plan_page(client)}/why/onion", headers=HTML)
    assert "20 x 150 g / 0.85" in answer.text


def test_why_of_what_is_not_in_the_plan_is_404_and_names_what_is_close(client: TestClient) -> None:
    answer = client.get(f"{_plan_page(client)}/why/onoin", headers=HTML)
    assert answer.status_code == 404
    assert "Did you mean onion?" in answer.text


def test_why_of_a_longer_name_than_any_is_404_too(client: TestClient) -> None:
    answer = client.get(f"{_plan_page(client)}/why/{'o' * 61}", headers=HTML)
    assert answer.status_code == 404


def test_a_plan_stored_without_traces_opens_without_links_to_them(
    make_client: MakeClient,
) -> None:
    client = make_client(stubs.make_without_traces)
    page = _plan_page(client)
    for tail in ("", "/cooks/ada", "/wall"):
        answer = client.get(f"{page}{tail}", headers=HTML)
        assert answer.status_code == 200
        assert "/why" not in answer.text
    answer = client.get(f"{page}/why/onion", headers=HTML)
    assert answer.status_code == 404
    assert "plan the day anew" in answer.text


def test_a_page_that_waits_for_its_sheet_looks_again_by_itself(make_client: MakeClient) -> None:
    client = make_client(stubs.make_nothing_ever)
    page = start_plan(client).removeprefix("/api/v1")
    answer = client.get(page, headers=HTML)
    assert answer.status_code == 409
    assert answer.headers["Refresh"] == "2"


def test_a_failed_plan_is_listed_with_its_reason_and_no_link(make_client: MakeClient) -> None:
    client = make_client(stubs.make_refusal)
    page = _plan_page(client)
    listed = client.get("/", headers=HTML).text
    assert "has no service then" in listed
    assert f'href="{page}"' not in listed


def test_the_style_sheets_are_served(client: TestClient) -> None:
    for href in STYLESHEETS:
        answer = client.get(href)
        assert answer.status_code == 200
        assert answer.headers["Content-Type"].startswith("text/css")
    assert client.get("/static/../pages.py").status_code == 404
