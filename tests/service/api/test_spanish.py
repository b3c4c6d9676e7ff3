"""The sous chef's and the general pages in Spanish: nothing of them stays English by mistake."""

import datetime as dt
import json
import re
from pathlib import Path
from typing import Any

import pytest
from babel import Locale
from fastapi.testclient import TestClient

from service.app import create_app
from service.settings import Settings
from tests.service import stubs
from tests.service.api.conftest import MakeClient, ended, send_kitchen, start_plan, wait_for
from tests.service.api.test_comparing import found, plan_of
from tests.web.texts import ENGLISH, STOPS, kitchen_words, read_texts, without

DEMO = Path(__file__).parents[3] / "seed_data" / "demo.json"
DAY = "/kitchens/test-kitchen/days/2026-03-02"
SAME = {"1 plan", "Error 404"}
"""Texts that are rightly the same in both languages."""
FIGURES = re.compile(
    r"^(?:[\W\d_]|\b(?:kg|g|lb|oz|l|ml|min|h|s|C|F|AP|UTC|USD|par|am|pm|http\w*|localhost|enrol)\b)*$"
)
"""Numbers, signs of units and addresses."""


def both(client: TestClient, address: str, data: set[str], **fields: str) -> list[str]:
    """Texts that stay English on the Spanish page, wholly or in part, but for the kitchen's own."""
    pages = []
    for language in ("en", "es"):
        headers = {"Accept": "text/html", "Accept-Language": language}
        if fields:
            answer = client.post(address, data=fields, headers=headers)
        else:
            answer = client.get(address, headers=headers)
        assert f'<html lang="{language}">' in answer.text or "<html" not in answer.text
        pages.append(read_texts(answer.text))
    english, spanish = pages
    assert len(english) == len(spanish), "one page says more than the other"
    left = [
        text
        for text, other in zip(english, spanish, strict=True)
        if text == other
        and text not in SAME
        and not FIGURES.fullmatch(text)
        and text.strip(STOPS).casefold() not in data
    ]
    return left + [
        text for text in spanish if ENGLISH.search(text) and ENGLISH.search(without(data, text))
    ]


@pytest.fixture
def demo(make_client: MakeClient) -> tuple[TestClient, str, dict[str, Any]]:
    """A server with the demonstration's kitchen, the path of its days, and its file."""
    client = make_client(stubs.make_well)
    document = json.loads(DEMO.read_bytes())
    answer = send_kitchen(client, DEMO.read_bytes())
    return client, f"/kitchens/{answer.json()['slug']}/days", document


def _day(document: dict[str, Any]) -> str:
    return str(document["services"][0]["date"])


def test_the_day_of_a_whole_kitchen(demo: tuple[TestClient, str, dict[str, Any]]) -> None:
    client, days, document = demo
    assert both(client, f"{days}/{_day(document)}", kitchen_words(document)) == []


def test_what_is_wrong_with_a_day(demo: tuple[TestClient, str, dict[str, Any]]) -> None:
    client, days, document = demo
    service, cook = document["services"][0]["id"], document["cooks"][0]["id"]
    wrong = {
        f"covers.{service}": "many",
        f"dish.{service}": "x",
        f"in.{cook}": "in",
        f"start.{cook}": "noon",
        f"end.{cook}": "",
        "version": "1",
    }
    data = kitchen_words(document) | {"many", "noon", "x"}
    assert both(client, f"{days}/{_day(document)}", data, **wrong) == []
    stale = {**wrong, "version": "9"}
    assert both(client, f"{days}/{_day(document)}", data, **stale) == []


def test_a_day_without_services_and_one_that_is_saved(client: TestClient) -> None:
    send_kitchen(client)
    data = kitchen_words(stubs.kitchen_document())
    assert both(client, "/kitchens/test-kitchen/days/2026-03-09", data) == []
    assert both(client, f"{DAY}?saved=1&left=shifts", data) == []
    assert both(client, f"{DAY}?saved=7", data) == []


def test_general_pages(client: TestClient) -> None:
    data = kitchen_words(stubs.kitchen_document())
    assert both(client, "/", data) == []
    send_kitchen(client)
    wait_for(client, start_plan(client), ended)
    assert both(client, "/", data) == []
    assert both(client, "/enrol", data | {"prepwright_tls_port"}) == []
    nothing = {"/nowhere", "nowhere"}
    assert both(client, "/kitchens/nowhere", data | nothing) == []
    assert both(client, "/nowhere", data | nothing) == []


def test_a_plan_as_it_is_made(make_client: MakeClient) -> None:
    client = make_client(stubs.make_until_stopped)
    address = start_plan(client)
    wait_for(client, address, lambda status: len(status["progress"]) > 2)
    page = f"{address.removeprefix('/api/v1')}/build"
    data = kitchen_words(stubs.kitchen_document())
    headings = []
    for language in ("en", "es"):
        text = client.get(page, headers={"Accept": "text/html", "Accept-Language": language}).text
        headings.append(re.findall(r"<h[12][^>]*>([^<]*)</h", text))
    assert not set(headings[0]) & set(headings[1]), "it changes meanwhile: its headings are enough"
    client.post(page.replace("/build", "/stop"))
    wait_for(client, address, ended)
    # How a step was found is the planner's own word.
    how = {step["origin"].casefold() for step in client.get(address).json()["progress"]}
    assert both(client, page, data | how) == []


def test_a_plan_that_failed(make_client: MakeClient) -> None:
    client = make_client(stubs.make_crash)
    address = start_plan(client)
    wait_for(client, address, ended)
    page = f"{address.removeprefix('/api/v1')}/build"
    assert both(client, page, kitchen_words(stubs.kitchen_document())) == []
    assert both(client, DAY, kitchen_words(stubs.kitchen_document())) == []


def test_a_release_before_and_after(make_client: MakeClient) -> None:
    client = make_client(stubs.make_with_work_by_seed)
    data = kitchen_words(stubs.kitchen_document()) | {"ada", "ben", "dice onion", "dice"}
    first = plan_of(client)
    assert both(client, f"{first}/release", data) == []
    client.post(f"{first}/release")
    assert both(client, f"{first}/release", data) == []
    second = plan_of(client, seed=2)
    assert both(client, f"{second}/release", data) == []
    client.post(f"{second}/release")
    changes = "/floor/test-kitchen/2026-03-02/changes"
    assert both(client, changes, data) == []
    assert both(client, f"{changes}?release=1", data) == []


def test_plans_and_what_ifs_side_by_side(tmp_path: Path) -> None:
    app = create_app(
        Settings(data_dir=tmp_path / "data"),
        stubs.make_with_work_by_seed,
        compare=stubs.compare_well,
    )
    move = "dice onion: ada 07:30 → ben 08:00"
    data = kitchen_words(stubs.kitchen_document()) | {"dice onion", move}
    with TestClient(app, base_url="http://localhost", raise_server_exceptions=False) as client:
        first, second = plan_of(client), plan_of(client, seed=2)
        assert both(client, f"{first}/compare", data) == []
        for change, value in (("out", "ada"), ("covers", "20")):
            client.post(f"{second}/compare", data={"change": change, "value": value})
        found(client, second)
        assert both(client, f"{second}/compare", data) == []
        wrong = both(client, f"{second}/compare", data, change="covers", value="lots")
        assert wrong == []
        spanish = client.get(
            f"{second}/compare", headers={"Accept": "text/html", "Accept-Language": "es"}
        ).text
        assert "Ada no viene" in spanish, "whoever asked in English"
        assert "+20 % de cubiertos" in spanish


def test_what_was_sold(tmp_path: Path) -> None:
    app = create_app(
        Settings(data_dir=tmp_path / "data"),
        stubs.make_well,
        now=lambda: dt.datetime(2026, 3, 2, 17, 0, tzinfo=dt.UTC),
    )
    page = "/kitchens/test-kitchen/sales"
    data = kitchen_words(stubs.kitchen_document()) | {"api", "covers", "pie", "sales.csv"}
    lines = [
        {
            "date": f"2026-02-{day:02}",
            "service": "Lunch",
            "dish": dish,
            "count": 40 + day % 4,
        }
        for day in range(1, 29)
        if day != 11
        for dish in ("covers", "soup")
    ]
    example = {"2026-03-01,lunch,covers,40", "date,service,dish,count"}
    with TestClient(app, base_url="http://localhost", raise_server_exceptions=False) as client:
        send_kitchen(client)
        assert _same(both(client, page, data | example)) == []
        client.post(f"/api/v1{page}", json={"lines": lines, "source": "sales.csv"})
        assert _same(both(client, f"{page}?did=kept&added=3&changed=1&same=2", data)) == []
        assert both(client, DAY, data) == []
        assert both(client, DAY, data, version="1", take="covers.lunch") == []
        for text in ("2026-02-28,Lunch,covers,99", "2026-02-28,brunch,pie,9", "soon,Lunch,x,-1"):
            files = {"file": ("sales.csv", f"date,service,dish,count\n{text}\n", "text/csv")}
            said = client.post(
                page, files=files, headers={"Accept": "text/html", "Accept-Language": "es"}
            )
            spanish = without(data | example, " ".join(read_texts(said.text)))
            found = [word for word in ENGLISH.findall(spanish) if word not in ("a",)]
            assert found == [], spanish


def _same(left: list[str]) -> list[str]:
    """Without names of countries that both languages write alike, and the file that is shown."""
    spoken = {str(one) for one in Locale.parse("es").territories.values()}
    return [text for text in left if text not in spoken and "date,service" not in text]
