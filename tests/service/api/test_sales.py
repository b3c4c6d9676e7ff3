"""The sales history over HTTP: pages that people use, and the same for programs."""

import datetime as dt
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.settings import Settings
from tests.service import stubs
from tests.service.api.conftest import send_kitchen
from tests.service.api.test_days import field_of

HTML = {"Accept": "text/html"}
SALES = "/kitchens/test-kitchen/sales"
API = f"/api/v1{SALES}"
DAY = "/kitchens/test-kitchen/days/2026-03-02"
LAST = dt.date(2026, 3, 1)


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    """A server on the day that the kitchen file is about."""
    app = create_app(
        Settings(data_dir=tmp_path / "data"),
        stubs.make_well,
        now=lambda: dt.datetime(2026, 3, 2, 17, 0, tzinfo=dt.UTC),
    )
    with TestClient(app, base_url="http://localhost", raise_server_exceptions=False) as client:
        send_kitchen(client)
        yield client


def history(days: int = 60, dish: str = "soup", lost: int = -1) -> str:
    lines = ["date,service,dish,count"]
    for back in range(days, -1, -1):
        date = LAST - dt.timedelta(back)
        if back != lost:
            busy = 60 if date.weekday() > 3 else 40
            lines += [f"{date},Lunch,covers,{busy + back % 3}", f"{date},Lunch,{dish},{busy // 2}"]
    return "\n".join(lines) + "\n"


def bring(client: TestClient, text: str | bytes, name: str = "sales.csv", **fields: str) -> Any:
    return client.post(
        SALES,
        files={"file": (name, text, "text/csv")},
        data=fields,
        headers=HTML,
        follow_redirects=False,
    )


def test_an_empty_history_says_what_to_do_and_how_a_file_begins(client: TestClient) -> None:
    text = client.get(SALES, headers=HTML).text
    assert "No sales are kept yet" in text
    assert "2026-03-01,Lunch,covers,40\n2026-03-01,Lunch,soup,20" in text
    assert 'enctype="multipart/form-data"' in text
    assert "No sales are kept yet" in client.get(DAY, headers=HTML).text


def test_a_file_is_kept_shown_and_taken_away_again(client: TestClient) -> None:
    answer = bring(client, history())
    assert answer.status_code == 303
    text = client.get(answer.headers["location"], headers=HTML).text
    assert "122 counts are kept." in text
    assert "Sun 1 Mar" in text
    assert "How forecasts of Lunch would have done" in text
    assert f'src="{SALES}/charts/covers-1.svg"' in text
    assert client.get(f"{SALES}/charts/covers-1.svg").text.startswith("<svg")
    assert client.get(f"{SALES}/charts/covers-9.svg", headers=HTML).status_code == 404
    file = client.get(f"{SALES}.csv")
    again = bring(client, file.content)
    assert "Nothing new" in client.get(again.headers["location"], headers=HTML).text


def test_pages_of_days_lead_to_each_other(client: TestClient) -> None:
    bring(client, history())
    text = client.get(SALES, headers=HTML).text
    (before,) = re.findall(rf'href="{SALES}\?until=([-0-9]+)#days"', text)
    assert before == "2026-02-15"
    older = client.get(f"{SALES}?until={before}", headers=HTML).text
    assert "Sun 1 Mar" not in older.partition('id="days"')[2].partition("</table>")[0]
    assert f"{SALES}?until=2026-03-01#days" in older


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (b"date,service,dish,count\n2026-13-01,Lunch,soup,4\n", ["Line 2", "2026-13-01", "Write"]),
        (b"date,service,dish,count\n2026-03-01,Lunch,soup,-4\n", ["Line 2", "-4", "refunds"]),
        (b"date,service,dish,count\n2027-03-01,Lunch,soup,4\n", ["Line 2", "up to 2026-03-02"]),
        (b"date,dish\n", ["Begin the file with"]),
        (b"\xff\xfe", ["UTF-8"]),
        (b"", ["Begin the file with"]),
    ],
)
def test_a_bad_file_is_told_line_by_line_and_nothing_is_kept(
    client: TestClient, text: bytes, words: list[str]
) -> None:
    answer = bring(client, text)
    assert answer.status_code == 422
    assert "Nothing of it is kept" in answer.text
    for word in words:
        assert word in answer.text
    assert client.get(API).json()["version"] == 0


def test_names_are_asked_and_the_answers_keep_the_whole_file(client: TestClient) -> None:
    asked = bring(client, history(dish="Soupe <1>"))
    assert asked.status_code == 409
    assert "Nothing of the file is kept yet" in asked.text
    assert "Dish “Soupe &lt;1&gt;”, on 61 lines" in asked.text
    (name,) = re.findall(r'<select name="([^"]+)"', asked.text)
    assert name == "is.dish.Soupe &lt;1&gt;"
    (text,) = re.findall(r"<textarea[^>]*>\n(.*?)</textarea>", asked.text, re.DOTALL)
    assert client.get(API).json()["version"] == 0
    fields = {
        "text": text.replace("&lt;", "<").replace("&gt;", ">").replace("\n", "\r\n"),
        "source": "sales.csv",
        "is.dish.Soupe <1>": "=soup",
    }
    answer = client.post(
        SALES,
        data=fields,
        files={"nothing": ("", b"")},
        headers=HTML,
        follow_redirects=False,
    )
    assert answer.status_code == 303, answer.text
    kept = client.get(API).json()
    assert len(kept["lines"]) == 122
    assert {line["dish"] for line in kept["lines"]} == {"covers", "soup"}


def test_a_count_that_differs_is_asked_about_replaced_and_put_back(client: TestClient) -> None:
    bring(client, history())
    other = "date,service,dish,count\n2026-03-01,Lunch,covers,71\n"
    asked = bring(client, other)
    assert asked.status_code == 409
    assert "60 kept, 71 in the file" in asked.text
    assert bring(client, other, differing="replace", shown="0").status_code == 409, "was not shown"
    done = bring(client, other, differing="replace", shown="1")
    assert "replaced another" in client.get(done.headers["location"], headers=HTML).text
    counts = [line for line in client.get(API).json()["lines"] if line["date"] == "2026-03-01"]
    assert {line["dish"]: line["count"] for line in counts}["covers"] == 71
    back = client.post(f"{SALES}/back", data={"entry": "2"}, headers=HTML, follow_redirects=False)
    assert back.status_code == 303
    text = client.get(SALES, headers=HTML).text
    assert "It was put back." in text
    again = client.post(f"{SALES}/back", data={"entry": "1"}, headers=HTML)
    assert again.status_code == 409
    assert "newer" in again.text


def test_a_gap_is_asked_about_and_answered(client: TestClient) -> None:
    bring(client, history(lost=9))
    text = client.get(SALES, headers=HTML).text
    assert "Closed, or missing?" in text
    assert "missing?" in text
    gap = {"date": "2026-02-20", "service": "Lunch"}
    bad = client.post(f"{SALES}/day", data={**gap, "then": "enter", "covers": "lots"}, headers=HTML)
    assert bad.status_code == 422
    assert "whole number" in bad.text
    client.post(f"{SALES}/day", data={**gap, "then": "closed"}, headers=HTML)
    text = client.get(SALES, headers=HTML).text
    assert "Closed, or missing?" not in text
    assert ">closed<" in text


def test_holidays_are_named_where_the_country_is_known(client: TestClient) -> None:
    bring(client, history(90))
    wrong = client.post(f"{SALES}/country", data={"country": "US", "region": "XX"}, headers=HTML)
    assert wrong.status_code == 422
    assert "US has no region" in wrong.text
    client.post(f"{SALES}/country", data={"country": "US", "region": ""}, headers=HTML)
    text = client.get(f"{SALES}?until=2026-02-20", headers=HTML).text
    assert "Washington" in text
    spanish = client.get(
        f"{SALES}?until=2026-02-20", headers={**HTML, "Accept-Language": "es"}
    ).text
    assert "Washington" in spanish


def test_the_day_s_page_says_what_is_usual_and_takes_it_over_only_into_the_form(
    client: TestClient,
) -> None:
    bring(client, history())
    text = client.get(DAY, headers=HTML).text
    (usual,) = re.findall(r"Usually (\d+), give or take \d+\.", text)
    assert 38 <= int(usual) <= 44
    assert f"Take over {usual}" in text
    assert "came a week before" in text
    taken = client.post(
        DAY, data={"version": "1", "covers.lunch": "40", "take": "covers.lunch"}, headers=HTML
    )
    assert taken.status_code == 200
    assert f'value="{usual}"' in field_of(taken.text, "covers.lunch")
    assert "Nothing is saved yet" in taken.text
    assert client.get("/api/v1/kitchens/test-kitchen").json()["services"][0]["covers"] == 40
    spread = re.findall(r'value="([^"]*)"', field_of(taken.text, "spread.lunch"))[0]
    saved = client.post(
        DAY,
        data={"version": "1", "covers.lunch": usual, "spread.lunch": spread},
        headers=HTML,
        follow_redirects=False,
    )
    assert saved.status_code == 303
    lunch = client.get("/api/v1/kitchens/test-kitchen").json()["services"][0]
    assert lunch["covers"] == int(usual)
    assert lunch["covers_spread"] == pytest.approx(float(spread) / 100)


def test_the_usual_mix_is_taken_over_and_what_was_typed_stays(client: TestClient) -> None:
    bring(client, history())
    taken = client.post(
        DAY, data={"version": "1", "covers.lunch": "77", "take": "mix.lunch"}, headers=HTML
    )
    assert 'value="77"' in field_of(taken.text, "covers.lunch")
    share = re.findall(r'value="([^"]*)"', field_of(taken.text, "mix.lunch.soup"))[0]
    assert 47 <= float(share) <= 51
    other = client.post(DAY, data={"version": "7", "take": "mix.lunch"}, headers=HTML)
    assert other.status_code == 409, "somebody has changed the file meanwhile"


def test_programs_send_lines_and_hear_what_became_of_them(client: TestClient) -> None:
    lines = [
        {"date": "2026-03-01", "service": "Lunch", "dish": "covers", "count": 40},
        {"date": "2026-03-01", "service": "Lunch", "dish": "Bowl", "count": 12},
    ]
    asked = client.post(API, json={"lines": lines})
    assert asked.status_code == 409
    (fault,) = asked.json()["errors"]
    assert (fault["path"], fault["value"]) == ("line 2, dish", "Bowl")
    taken = client.post(API, json={"lines": lines, "dishes": {"Bowl": "soup"}})
    assert taken.status_code == 200
    assert (taken.json()["number"], taken.json()["added"]) == (1, 2)
    assert client.post(API, json={"lines": lines}).json()["same"] == 2
    back = client.post(f"{API}/1/back")
    assert back.json() == {"number": 2, "puts_back": 1}
    assert client.get(API).json()["lines"] == []
    assert client.post(f"{API}/9/back").status_code == 404
    future = [{**lines[0], "date": "2030-01-01"}]
    assert client.post(API, json={"lines": future}).status_code == 422


def test_what_is_no_form_or_no_kitchen_is_refused(client: TestClient) -> None:
    assert client.post(SALES, content=b"x", headers=HTML).status_code == 415
    broken = {**HTML, "Content-Type": "multipart/form-data; boundary=x"}
    assert client.post(SALES, content=b"--y\r\n", headers=broken).status_code in (400, 422)
    assert client.get("/kitchens/nowhere/sales", headers=HTML).status_code == 404
    assert client.post("/kitchens/nowhere/sales/back", data={"entry": "1"}).status_code == 404
    odd = client.post(f"{SALES}/day", data={"date": "soon", "service": "Lunch"}, headers=HTML)
    assert odd.status_code == 422
