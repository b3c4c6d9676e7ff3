"""What is printed of a plan, over HTTP."""

import re
from collections.abc import Iterator

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.settings import Settings
from tests.service import labelled, stubs
from tests.service.api.conftest import MakeClient, ended, start_plan, wait_for
from tests.service.api.test_pages import HTML
from tests.web.printing.reading import open_pdf, sizes_of, text_of


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    settings = Settings(data_dir=tmp_path_factory.mktemp("printing"))
    app = create_app(settings, labelled.make_with_labels)
    with TestClient(app, base_url="http://localhost", raise_server_exceptions=False) as found:
        yield found


@pytest.fixture(scope="module")
def plan(client: TestClient) -> str:
    """Path of a plan that is done."""
    address = start_plan(client)
    wait_for(client, address, ended)
    return address.removeprefix("/api/v1")


@pytest.fixture(autouse=True)
def _as_a_new_device(client: TestClient) -> None:
    client.cookies.clear()


def test_the_plans_pages_lead_to_what_can_be_printed(client: TestClient, plan: str) -> None:
    for tail in ("", "/cooks/ada", "/wall"):
        assert f'href="{plan}/print"' in client.get(plan + tail, headers=HTML).text
    page = client.get(f"{plan}/print", headers=HTML).text
    for tail in (
        "/print/sheets.pdf?paper=a4",
        "/print/sheets.pdf?cook=ada&amp;paper=letter",
        "/print/pull-list",
        "/print/pull-list.pdf?paper=a4",
        "/print/labels",
        "/print/wall.pdf",
        "/wall",
        "/cooks/ada",
    ):
        assert f'href="{plan}{tail}"' in page, tail


def test_every_link_to_a_file_leads_to_one(client: TestClient, plan: str) -> None:
    page = client.get(f"{plan}/print", headers=HTML).text
    links = re.findall(r'href="([^"]+\.pdf[^"]*)"', page)
    assert len(links) >= 7
    for link in links:
        answer = client.get(link.replace("&amp;", "&"))
        assert answer.status_code == 200, link
        assert answer.headers["Content-Type"] == "application/pdf"
        assert answer.headers["Content-Disposition"].startswith("attachment; filename=")
        assert "2026-03-02.pdf" in answer.headers["Content-Disposition"]
        assert len(open_pdf(answer.content).pages) >= 1


def test_a_release_leads_there_too(client: TestClient, plan: str) -> None:
    client.post(f"{plan}/release", headers={"Origin": "http://localhost"})
    page = client.get("/floor/test-kitchen/2026-03-02/changes", headers=HTML)
    assert page.status_code == 200
    assert f'href="{plan}/print"' in page.text


def test_files_are_in_the_readers_units_language_and_on_the_usual_paper(
    client: TestClient, plan: str
) -> None:
    address = f"{plan}/print/sheets.pdf"
    metric = client.get(f"{address}?units=metric&clock=24").content
    assert "kg" in text_of(metric)
    assert set(sizes_of(metric)) == {(210.0, 297.0)}
    us = client.get(f"{address}?units=us&clock=12&language=es").content
    assert "lb" in text_of(us)
    assert "am" in text_of(us)
    assert set(sizes_of(us)) == {(215.9, 279.4)}
    assert open_pdf(us).root_object["/Lang"] == "es"


def test_one_cooks_sheet(client: TestClient, plan: str) -> None:
    answer = client.get(f"{plan}/print/sheets.pdf?cook=ada")
    assert "Ada 1/1" in text_of(answer.content)
    missing = client.get(f"{plan}/print/sheets.pdf?cook=bob")
    assert missing.status_code == 404
    assert "ada" in missing.text


@pytest.mark.parametrize(
    ("query", "status", "said"),
    [
        ("sheets.pdf?paper=a5", 422, "a4, letter"),
        ("labels?stock=blue", 422, "a4-3x8"),
        ("labels?first=0", 422, "first"),
        ("labels?stock=a4-3x8&first=25", 422, "1 to 24"),
        ("labels?cook=bob", 404, "ada"),
        ("labels?only=ada.9.1", 404, "no such label"),
        ("labels?n.ada.1.1=many", 422, "whole number from 0 to 99"),
        ("labels.pdf?n.ada.1.1=0&n.ada.2.1=0", 404, "no label is asked for"),
    ],
)
def test_what_cannot_be_had_is_refused_with_what_can(
    client: TestClient, plan: str, query: str, status: int, said: str
) -> None:
    answer = client.get(f"{plan}/print/{query}")
    assert answer.status_code == status
    assert said in answer.text


def test_more_labels_than_anybody_needs_are_refused(
    client: TestClient, plan: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("service.api.printing.MOST_LABELS", 5)
    answer = client.get(f"{plan}/print/labels.pdf")
    assert answer.status_code == 422
    assert "no more than 5" in answer.text


class TestLabels:
    def test_one_for_each_container_unless_asked_otherwise(
        self, client: TestClient, plan: str
    ) -> None:
        everything = client.get(f"{plan}/print/labels.pdf?stock=roll-62")
        assert len(sizes_of(everything.content)) == 6
        said = text_of(everything.content)
        for part in (
            "Diced onion",
            "4.2 kg in all, sixth pan 3 of 3",
            "Use by Tue 3 Mar, end of day",
            "Made Mon 2 Mar, planned",
            "Allergens: celery",
            "Keep cold, batch 2",
        ):
            assert part in said
        fewer = client.get(f"{plan}/print/labels.pdf?stock=roll-62&n.ada.1.1=1&n.ada.2.1=0")
        assert len(sizes_of(fewer.content)) == 1
        one = client.get(f"{plan}/print/labels.pdf?stock=roll-62&only=ada.2.1")
        assert len(sizes_of(one.content)) == 3
        assert "batch 1" not in text_of(one.content)

    def test_the_page_shows_what_the_file_holds(self, client: TestClient, plan: str) -> None:
        page = client.get(f"{plan}/print/labels?stock=letter-3x10&first=28", headers=HTML).text
        assert page.count('class="printed-page on-letter"') == 2
        assert page.count("Diced onion</text>") == 6
        link = re.search(r'href="([^"]+labels\.pdf[^"]*)"', page)
        assert link is not None
        made = client.get(link.group(1).replace("&amp;", "&"))
        assert sizes_of(made.content) == [(215.9, 279.4)] * 2

    def test_a_page_holds_under_the_policy(self, client: TestClient, plan: str) -> None:
        page = client.get(f"{plan}/print/labels?stock=roll-62", headers=HTML).text
        assert " style=" not in page
        assert "<style" not in page
        assert "<script" not in page

    def test_letter_is_usual_where_units_are_us(self, client: TestClient, plan: str) -> None:
        page = client.get(f"{plan}/print/labels?units=us", headers=HTML).text
        assert '<option value="letter-3x10" selected>' in page

    def test_a_plan_without_containers_says_so(self, make_client: MakeClient) -> None:
        client = make_client(stubs.make_well)
        address = start_plan(client)
        wait_for(client, address, ended)
        page = client.get(f"{address.removeprefix('/api/v1')}/print/labels", headers=HTML)
        assert "Nothing of this plan goes into a container" in page.text


class TestCode:
    def test_a_server_of_its_own_machine_only_prints_none_and_says_why(
        self, client: TestClient, plan: str
    ) -> None:
        assert "live-code" not in client.get(f"{plan}/cooks/ada", headers=HTML).text
        assert "phones cannot reach this computer" in client.get(f"{plan}/print").text

    @pytest.mark.parametrize(
        ("tls", "address"), [(None, "http://kitchen:8000/"), (8443, "https://kitchen:8443/")]
    )
    def test_it_leads_to_the_cooks_live_page(
        self,
        tmp_path_factory: pytest.TempPathFactory,
        monkeypatch: pytest.MonkeyPatch,
        tls: int | None,
        address: str,
    ) -> None:
        monkeypatch.setattr("service.addresses.own_addresses", lambda: ())
        monkeypatch.setattr("service.addresses.own_names", lambda: ("kitchen",))
        settings = Settings(
            data_dir=tmp_path_factory.mktemp("open"), host="192.0.2.7", tls_port=tls
        )
        with TestClient(
            create_app(settings, labelled.make_with_labels), base_url="http://localhost"
        ) as client:
            path = start_plan(client)
            wait_for(client, path, ended)
            page = path.removeprefix("/api/v1")
            sheet = client.get(f"{page}/cooks/ada", headers=HTML).text
            made = client.get(f"{page}/print/sheets.pdf")
            written = next(settings.sheets_dir.glob("*/*/sheets.pdf")).read_bytes()
        live = f"{address}floor/test-kitchen/2026-03-02/cooks/ada"
        assert "live-code" in sheet
        assert live in text_of(made.content)
        assert live in text_of(written)
