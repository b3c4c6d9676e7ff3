import json
from collections.abc import Iterator

import pytest
from fastapi.testclient import TestClient

from service.api.guards import BODY_LIMIT
from service.api.headers import SECURITY_HEADERS
from tests.service import stubs
from tests.service.api.conftest import MakeClient
from tests.service.stubs import make_well

JSON = {"Content-Type": "application/json"}


def _check(answer: object, status: int) -> dict[str, object]:
    assert answer.status_code == status  # type: ignore[attr-defined]
    assert answer.headers["Content-Type"] == "application/problem+json"  # type: ignore[attr-defined]
    for name, value in SECURITY_HEADERS.items():
        assert answer.headers[name] == value  # type: ignore[attr-defined]
    problem: dict[str, object] = answer.json()  # type: ignore[attr-defined]
    assert problem["status"] == status
    assert problem["title"]
    assert problem["detail"]
    return problem


def test_an_unknown_path_is_404(client: TestClient) -> None:
    assert _check(client.get("/api/v1/nothing"), 404)["instance"] == "/api/v1/nothing"


def test_a_floor_without_a_release_leads_to_the_day(client: TestClient) -> None:
    floor = "/floor/test-kitchen/2026-03-02"
    for path in (floor, f"{floor}/wall", f"{floor}/cooks/ada"):
        page = client.get(path, headers={"Accept": "text/html"})
        assert page.status_code == 404
        assert "Open a plan of that day and release it." in page.text
        assert 'href="/kitchens/test-kitchen/days/2026-03-02">The day</a>' in page.text


def test_a_method_that_is_not_possible_is_405_and_names_those_that_are(
    client: TestClient,
) -> None:
    for path, methods in (
        ("/api/v1/kitchens", {"GET", "POST"}),
        ("/api/v1/kitchens/any", {"GET", "PUT"}),
        ("/api/v1/kitchens/any/plans", {"POST"}),
        ("/api/v1/plans", {"GET"}),
        ("/api/v1/openapi.json", {"GET", "HEAD"}),
        ("/static/screen.css", {"GET", "HEAD"}),
        ("/", {"GET"}),
    ):
        answer = client.delete(path)
        _check(answer, 405)
        assert set(answer.headers["Allow"].split(", ")) == methods, path


@pytest.mark.parametrize("path", ["/api/v1/kitchens", "/api/v1/kitchens/any/plans"])
@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", ""])
def test_a_body_that_is_not_sent_as_json_is_415(client: TestClient, path: str, kind: str) -> None:
    answer = client.post(path, content=b"{}", headers={"Content-Type": kind} if kind else {})
    detail = str(_check(answer, 415)["detail"])
    assert (kind or "missing") in detail
    assert "Send it as application/json" in detail
    assert answer.headers["Accept"] == "application/json"


def test_a_body_that_is_no_json_says_where(client: TestClient) -> None:
    answer = client.post("/api/v1/kitchens/any/plans", content=b'{"seed": }', headers=JSON)
    (fault,) = _check(answer, 422)["errors"]  # type: ignore[misc]
    assert (fault["path"], fault["value"]) == ("body, character 9", "")
    assert "not JSON" in fault["message"]


@pytest.mark.parametrize("body", [b"\xff", b"[" * 100_000])
def test_a_body_that_no_reader_can_take_says_what_to_send(client: TestClient, body: bytes) -> None:
    answer = client.post("/api/v1/kitchens/any/plans", content=body, headers=JSON)
    assert "Send plain JSON as UTF-8" in str(_check(answer, 400)["detail"])


def test_an_address_with_a_slash_too_many_leads_nowhere(client: TestClient) -> None:
    """A redirect would be one more answer that clients have to know of."""
    _check(client.get("/api/v1/kitchens/", follow_redirects=False), 404)


def test_a_body_that_says_it_is_too_large_is_413(client: TestClient) -> None:
    answer = client.post("/api/v1/kitchens", content=b" " * (BODY_LIMIT + 1), headers=JSON)
    _check(answer, 413)


@pytest.mark.parametrize("path", ["/api/v1/kitchens", "/api/v1/kitchens/k/plans"])
def test_a_body_of_unsaid_length_is_413_once_too_much_has_come(
    client: TestClient, path: str
) -> None:
    def chunks() -> Iterator[bytes]:
        for _ in range(BODY_LIMIT // 100_000 + 2):
            yield b" " * 100_000

    _check(client.post(path, content=chunks(), headers=JSON), 413)


def test_a_body_of_just_the_limit_is_read(client: TestClient) -> None:
    answer = client.post("/api/v1/kitchens", content=b" " * BODY_LIMIT, headers=JSON)
    _check(answer, 422)


def test_a_failure_of_the_program_is_500_and_shows_nothing_of_its_inside(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise RuntimeError("a secret path")

    monkeypatch.setattr("service.api.kitchens.list_kitchens", fail)
    answer = client.get("/api/v1/kitchens")
    _check(answer, 500)
    assert "secret" not in answer.text


def test_a_request_for_another_host_is_refused(client: TestClient) -> None:
    for host in ("prep.evil.example", "localhost.evil.example", ""):
        answer = client.get("/api/v1/kitchens", headers={"Host": host})
        assert "PREPWRIGHT_ALLOWED_HOSTS" in str(_check(answer, 421)["detail"])


@pytest.mark.parametrize("host", ["localhost:8000", "127.0.0.1", "[::1]:8000", "LOCALHOST"])
def test_requests_for_this_machine_are_served(client: TestClient, host: str) -> None:
    assert client.get("/api/v1/kitchens", headers={"Host": host}).status_code == 200


def test_another_sites_page_cannot_change_anything(client: TestClient) -> None:
    headers = {**JSON, "Sec-Fetch-Site": "cross-site"}
    _check(client.post("/api/v1/kitchens", content=b"{}", headers=headers), 403)
    assert client.get("/api/v1/kitchens", headers=headers).status_code == 200


@pytest.mark.parametrize(
    ("language", "told"),
    [("en", "does not answer for that name"), ("es", "no responde por ese nombre")],
)
def test_a_browser_that_is_refused_gets_a_page_in_its_language(
    client: TestClient, language: str, told: str
) -> None:
    headers = {"Accept": "text/html", "Accept-Language": language, "Host": "prep.example"}
    answer = client.get("/", headers=headers)
    assert answer.status_code == 421
    assert answer.headers["Content-Type"].startswith("text/html")
    assert f'<html lang="{language}">' in answer.text
    assert told in answer.text
    assert "PREPWRIGHT_ALLOWED_HOSTS" in answer.text


def test_errors_of_a_kitchen_file_are_told_in_the_language_that_is_asked_for(
    client: TestClient,
) -> None:
    bad = json.loads(stubs.kitchen_bytes())
    bad["cooks"][0]["colour"] = "red"
    bad["services"][0]["covers"] = -1
    told = {}
    for language in ("en", "es", "fr"):
        answer = client.post(
            "/api/v1/kitchens",
            content=json.dumps(bad).encode(),
            headers={**JSON, "Accept-Language": language},
        )
        told[language] = _check(answer, 422)["errors"]
    assert told["fr"] == told["en"]
    first, second = (
        {fault["path"]: fault for fault in faults}  # type: ignore[attr-defined]
        for faults in (told["en"], told["es"])
    )
    assert first.keys() == second.keys(), "paths are the file's own"
    for path, fault in first.items():
        assert fault["value"] == second[path]["value"]
        assert fault["message"] != second[path]["message"]
    assert "no existe ese campo" in {fault["message"] for fault in second.values()}
    assert "debe ser al menos 0" in {fault["message"] for fault in second.values()}


def test_a_length_that_is_none_is_400(client: TestClient) -> None:
    headers = {**JSON, "Content-Length": "many"}
    _check(client.post("/api/v1/kitchens", content=b"{}", headers=headers), 400)


def test_people_get_a_page_and_programs_get_json(make_client: MakeClient) -> None:
    client = make_client(make_well)
    page = client.get("/plans/none", headers={"Accept": "text/html,*/*"})
    assert page.status_code == 404
    assert page.headers["Content-Type"].startswith("text/html")
    _check(client.get("/plans/none"), 404)
    _check(client.get("/api/v1/plans/none", headers={"Accept": "text/html"}), 404)
