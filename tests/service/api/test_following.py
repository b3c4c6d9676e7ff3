"""What is kept at hand never shows: pages follow the file and the ticks, for each reader."""

import datetime as dt
import json
from concurrent.futures import ThreadPoolExecutor
from typing import cast

from fastapi import FastAPI
from fastapi.testclient import TestClient

from planner.kitchen.reading import read_kitchen
from service.documents import kept_kitchen, kept_sheet, read_sheet, sheet_text
from service.usecases.floor import FloorNow, floor_now
from service.usecases.released import ReleasedPlans
from tests.service import stubs
from tests.service.api.conftest import MakeClient, ended, start_plan, wait_for

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


def test_the_floor_follows_every_tick_and_what_is_taken_back(make_client: MakeClient) -> None:
    client = make_client(stubs.make_with_work)
    address = start_plan(client)
    wait_for(client, address, ended)
    client.post(f"{address}/release").raise_for_status()
    services = cast("FastAPI", client.app).state.services
    date, now = dt.date(2026, 3, 2), dt.datetime.now(dt.UTC)

    def stands(plans: ReleasedPlans) -> FloorNow:
        return floor_now(services.database, plans, "test-kitchen", date, now=lambda: now)

    begun = {"key": "key-00000001", "act": "begun", "tasks": ["1:dice"]}
    done = {"key": "key-00000002", "act": "done", "tasks": ["1:dice"]}
    back = {"key": "key-00000003", "act": "taken back", "takes_back": "key-00000002"}
    seen = [stands(services.released)]
    for tick in (begun, done, back):
        tick |= {"at": now.isoformat(), "cook": "ada", "release": 1}
        body = {"device": "phone-1", "sent_at": now.isoformat(), "ticks": [tick]}
        answer = client.post("/api/v1/floor/test-kitchen/2026-03-02/ticks", json=body).json()
        assert answer["received"][0]["outcome"] == "kept", answer
        seen.append(stands(services.released))
        assert seen[-1] == stands(ReleasedPlans(services.database)), "as if read for the first time"
        assert seen[-1].floor != seen[-2].floor
    assert [one.version for one in seen] == [0, 1, 2, 3]
    assert seen[3].floor == seen[1].floor
    assert stands(services.released).floor is seen[3].floor, "nothing new is folded once"
