"""What dishes cost, as a page and as a file."""

import csv
import io

from tests.kitchens.tiny import tiny_kitchen
from tests.service import stubs
from tests.service.api.conftest import MakeClient

HTML = {"Accept": "text/html"}


def test_the_page_has_every_dish_and_leads_to_its_file(make_client: MakeClient) -> None:
    client = make_client(stubs.make_until_stopped)
    slug = client.post("/api/v1/kitchens", json=tiny_kitchen()).json()["slug"]
    page = client.get(f"/kitchens/{slug}/costs", headers=HTML)
    assert page.status_code == 200
    assert all(dish["name"] in page.text for dish in tiny_kitchen()["dishes"])
    assert f'href="/kitchens/{slug}/costs.csv?week=' in page.text
    found = client.get(f"/kitchens/{slug}/costs.csv")
    assert found.headers["content-type"].startswith("text/csv")
    rows = list(csv.DictReader(io.StringIO(found.text)))
    assert {row["dish"] for row in rows} == {dish["name"] for dish in tiny_kitchen()["dishes"]}


def test_no_such_kitchen_and_no_such_week_are_said(make_client: MakeClient) -> None:
    client = make_client(stubs.make_until_stopped)
    assert client.get("/kitchens/nowhere/costs", headers=HTML).status_code == 404
    slug = client.post("/api/v1/kitchens", json=tiny_kitchen()).json()["slug"]
    assert client.get(f"/kitchens/{slug}/costs?week=soon", headers=HTML).status_code == 422
    first = client.get(f"/kitchens/{slug}/costs?week=0001-01-01", headers=HTML)
    assert first.status_code == 200
