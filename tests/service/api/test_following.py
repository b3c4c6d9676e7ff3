"""What is kept at hand never shows: pages follow the plan, the file and the ticks, for each reader."""

import json
from concurrent.futures import ThreadPoolExecutor

from fastapi.testclient import TestClient

from planner.kitchen.reading import read_kitchen
from service.documents import kept_kitchen, kept_sheet, read_sheet, sheet_text
from tests.service import stubs
from tests.service.api.conftest import ended, start_plan, wait_for

READERS = [
    {"Accept": "text/html", "Accept-Language": language, "Cookie": f"units={units}; clock={clock}"}
    for language in ("en", "es")
    for units, clock in (("metric", "24"), ("us", "12"))
]


def _plan_page(client: TestClient) -> str:
    address = start_plan(client)
    wait_for(client, address, ended)
    return address.removeprefix("/api/v1")


def _read(client: TestClient, path: str, reader: dict[str, str]) -> str:
    return client.get(path, headers=reader).raise_for_status().text


def test_a_chart_is_drawn_for_each_reader_whoever_came_first(client: TestClient) -> None:
    for path in ("", "/wall"):
        page = f"{_plan_page(client)}{path}"
        first = [_read(client, page, reader) for reader in READERS]
        assert "Lane chart" in first[0]
        assert "Lane chart" not in first[2]
        assert len(set(first)) == len(READERS)
        again = [_read(client, page, reader) for reader in reversed(READERS)]
        assert again[::-1] == first


def test_readers_at_the_same_time_get_their_own_page(client: TestClient) -> None:
    page = _plan_page(client)
    alone = [_read(client, page, reader) for reader in READERS]
    with ThreadPoolExecutor(4) as pool:
        together = list(pool.map(lambda reader: _read(client, page, reader), READERS * 4))
    assert together == alone * 4


def test_a_new_version_of_the_kitchen_file_is_on_its_pages_at_once(client: TestClient) -> None:
    address = "/api/v1/kitchens/test-kitchen"
    document = stubs.kitchen_document()
    client.put(address, json=document).raise_for_status()
    day = f"/kitchens/test-kitchen/days/{document['as_of']}"
    assert "Ada" in client.get(day).raise_for_status().text
    renamed = json.loads(json.dumps(document).replace('"Ada"', '"Zenobia"'))
    assert renamed != document
    client.put(address, json=renamed).raise_for_status()
    assert "Zenobia" in client.get(day).raise_for_status().text


def test_another_text_is_another_sheet() -> None:
    kitchen = read_kitchen(stubs.kitchen_bytes())
    sheet = stubs.sheet_of(kitchen, kitchen.as_of)
    text = sheet_text(sheet)
    assert kept_sheet(text) == read_sheet(text)
    assert kept_sheet(f"{text} ") == read_sheet(text)
    other = text.replace(sheet.kitchen, "Another Kitchen")
    assert kept_sheet(other).kitchen == "Another Kitchen"
    assert kept_sheet(text).kitchen == sheet.kitchen


def test_what_is_kept_of_stored_texts_is_bounded() -> None:
    for kept in (kept_sheet, kept_kitchen):
        assert (kept.cache_info().maxsize or 0) in range(1, 33)
