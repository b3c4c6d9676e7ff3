"""Language, units and clock of whoever asks."""

import pytest
from fastapi.testclient import TestClient

HTML = {"Accept": "text/html"}


@pytest.mark.parametrize(
    ("accepted", "language"),
    [
        ("", "en"),
        ("es", "es"),
        ("es-MX,es;q=0.9,en;q=0.8", "es"),
        ("fr-CA, es;q=0.5", "es"),
        ("en-GB,es;q=0.5", "en"),
        ("tlh", "en"),
        (";;,=", "en"),
    ],
)
def test_a_browser_is_answered_in_the_language_it_prefers(
    client: TestClient, accepted: str, language: str
) -> None:
    answer = client.get("/", headers={**HTML, "Accept-Language": accepted})
    assert f'<html lang="{language}">' in answer.text
    assert answer.headers["content-language"] == language
    assert "Accept-Language" in answer.headers["vary"]


def test_what_is_chosen_is_kept_and_goes_before_what_the_browser_prefers(
    client: TestClient,
) -> None:
    client.get("/?language=es&units=us", headers=HTML)
    answer = client.get("/", headers={**HTML, "Accept-Language": "en"})
    assert '<html lang="es">' in answer.text
    assert '<a href="?units=us" aria-current="true">' in answer.text
    assert "set-cookie" not in answer.headers, "it is kept already"
    assert '<html lang="en">' in client.get("/?language=en", headers=HTML).text


def test_a_cookie_of_somebody_else_changes_nothing(client: TestClient) -> None:
    answer = client.get("/", headers={**HTML, "Cookie": 'language=xx; units="; clock=13; x=\x01'})
    assert answer.status_code == 200
    assert '<html lang="en">' in answer.text


def test_what_cannot_be_chosen_is_refused_by_name(client: TestClient) -> None:
    answer = client.get("/?language=xx")
    assert answer.status_code == 422
    assert answer.json()["errors"][0]["remedy"] == "Choose one of: en, es"
    assert "set-cookie" not in answer.headers
    page = client.get("/?units=stones", headers={**HTML, "Accept-Language": "es"})
    assert page.status_code == 422
    assert '<html lang="es">' in page.text
    assert "metric, us" in page.text
