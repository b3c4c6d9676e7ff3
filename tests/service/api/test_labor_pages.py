"""The manager's pages over days: pages, charts and files of one range; wrong ranges say so."""

import csv
import datetime as dt
import io
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.settings import Settings
from tests.service.api.conftest import send_kitchen
from tests.service.worked import SLUG, add_day, moment

MONDAY = dt.date(2026, 3, 2)
BASE = f"/kitchens/{SLUG}/labor"
RANGE = f"{BASE}/2026-03-02/2026-03-08"
TODAY = MONDAY + dt.timedelta(6)


@pytest.fixture
def empty(tmp_path: Path) -> Iterator[TestClient]:
    app = create_app(Settings(data_dir=tmp_path / "data"), now=lambda: moment(TODAY, 600))
    with TestClient(app, base_url="http://localhost") as client:
        send_kitchen(client)
        yield client


@pytest.fixture
def client(empty: TestClient) -> TestClient:
    database = empty.app.state.services.database  # type: ignore[attr-defined]
    for at in range(3):
        add_day(database, MONDAY + dt.timedelta(at), took=22 + at)
    return empty


def test_the_usual_range_ends_with_the_last_day_that_was_worked(client: TestClient) -> None:
    answer = client.get(BASE, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (
        303,
        f"{BASE}/2026-02-05/2026-03-04",
    )
    picked = client.get(f"{BASE}?from=2026-03-01&to=2026-03-03", follow_redirects=False)
    assert picked.headers["location"] == f"{BASE}/2026-03-01/2026-03-03"


def test_a_range_shows_its_sums_with_a_table_beside_every_chart(client: TestClient) -> None:
    page = client.get(RANGE)
    assert page.status_code == 200
    for heading in ("Over time", "Why it took other minutes", "By operation", "By dish"):
        assert heading in page.text
    assert "Dice" in page.text
    images = re.findall(r'<img src="([^"]+)" alt="([^"]+)"', page.text)
    assert len(images) == 4
    for href, alt in images:
        assert len(alt) > 40
        drawn = client.get(href)
        assert drawn.headers["content-type"] == "image/svg+xml"
        assert drawn.text.startswith("<svg")
        assert "<script" not in drawn.text
    assert page.text.count("<table") >= len(images)
    assert "style=" not in page.text


def test_the_week_is_on_a_page_of_its_own(client: TestClient) -> None:
    page = client.get(f"{BASE}/week/2026-03-05")
    assert "Labor of the week" in page.text
    assert f"{BASE}/2026-03-02/2026-03-08" in page.text
    assert f"{BASE}/week/2026-02-23" in page.text


def test_files_say_the_same_in_numbers(client: TestClient) -> None:
    batches = list(csv.DictReader(io.StringIO(client.get(f"{RANGE}/batches.csv").text)))
    assert len(batches) == 6
    assert [row["took_minutes"] for row in batches[:2]] == ["22.00", "22.00"]
    sums = list(csv.DictReader(io.StringIO(client.get(f"{RANGE}/sums.csv").text)))
    by = {row["by"] for row in sums}
    assert by == {"day", "operation", "station", "cook", "dish"}
    for kind in by:
        took = sum(float(row["timed_took_minutes"]) for row in sums if row["by"] == kind)
        assert took == 2 * (22 + 23 + 24)
    why = list(csv.DictReader(io.StringIO(client.get(f"{RANGE}/variance.csv").text)))
    assert len(why) == 6
    for row in why:
        terms = sum(float(row[term]) for term in ("volume", "mix", "rate", "changeover", "wage"))
        assert float(row["worked"]) - float(row["planned"]) == pytest.approx(terms)


def test_an_empty_range_leads_to_days_that_have_something(client: TestClient) -> None:
    page = client.get(f"{BASE}/2025-01-01/2025-01-07")
    assert page.status_code == 200
    assert "Nothing was worked from a plan in these days" in page.text
    assert f"{BASE}/2026-03-02/2026-03-04" in page.text


def test_before_the_first_release_the_page_says_what_to_do(empty: TestClient) -> None:
    page = empty.get(BASE)
    assert page.status_code == 200
    assert "Build a plan, release it" in page.text
    assert f'href="/kitchens/{SLUG}"' in page.text
    assert "<img" not in page.text
    assert empty.get(f"{RANGE}/batches.csv").text.count("\n") == 1


def test_a_page_in_spanish_speaks_spanish(client: TestClient) -> None:
    page = client.get(f"{RANGE}?language=es")
    assert "Por operación" in page.text
    assert "By operation" not in page.text


@pytest.mark.parametrize(
    ("path", "status", "says"),
    [
        (f"{BASE}/2026-03-08/2026-03-02", 422, "it is after"),
        (f"{BASE}/2020-03-08/2026-03-02", 422, "more than 126 days"),
        (f"{BASE}/yesterday/2026-03-02", 404, ""),
        (f"{RANGE}/charts/pie.svg", 404, "minutes"),
        (f"{RANGE}/all.csv", 404, "batches"),
        ("/kitchens/nobody/labor", 404, "nobody"),
    ],
)
def test_what_cannot_be_says_why(client: TestClient, path: str, status: int, says: str) -> None:
    answer = client.get(path)
    assert answer.status_code == status
    assert says in answer.text


def test_the_review_of_a_day_leads_to_the_others(client: TestClient) -> None:
    assert f'href="{BASE}"' in client.get(f"/floor/{SLUG}/2026-03-02/review").text


def test_a_day_s_review_says_why_and_what_batching_saved(client: TestClient) -> None:
    page = client.get(f"/floor/{SLUG}/2026-03-02/review").text
    assert "Why it took other minutes than planned" in page
    assert "Batching sav" in page
    # Today is not over: what is not done yet is not less work.
    database = client.app.state.services.database  # type: ignore[attr-defined]
    add_day(database, TODAY, took=22)
    today = client.get(f"/floor/{SLUG}/{TODAY}/review").text
    assert "Why it took other minutes than planned" not in today
    assert "Batching sav" in today
