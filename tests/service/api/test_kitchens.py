import json

from fastapi.testclient import TestClient

from tests.service.api.conftest import send_kitchen
from tests.service.stubs import kitchen_bytes, kitchen_document

JSON = {"Content-Type": "application/json"}


def test_a_kitchen_is_stored_listed_and_read_back_byte_for_byte(client: TestClient) -> None:
    answer = send_kitchen(client)
    assert answer.status_code == 201
    assert answer.headers["Location"] == "/api/v1/kitchens/test-kitchen"
    listed = client.get("/api/v1/kitchens").json()
    assert [(kitchen["slug"], kitchen["version"]) for kitchen in listed] == [("test-kitchen", 1)]
    assert client.get("/api/v1/kitchens/test-kitchen").content == kitchen_bytes()


def test_a_bad_kitchen_file_is_answered_with_every_error_and_nothing_is_stored(
    client: TestClient,
) -> None:
    document = kitchen_document()
    document["services"][0]["covers"] = "forty"
    document["cooks"][0]["initials"] = "TOO LONG"
    answer = send_kitchen(client, json.dumps(document).encode())
    assert answer.status_code == 422
    assert answer.headers["Content-Type"] == "application/problem+json"
    problem = answer.json()
    assert (problem["status"], problem["instance"]) == (422, "/api/v1/kitchens")
    assert problem["type"] == "urn:prepwright:problem:kitchen-file"
    paths = {error["path"].partition(" ")[0] for error in problem["errors"]}
    assert paths == {"services[0].covers", "cooks[0].initials"}
    assert all(error["message"] and error["remedy"] for error in problem["errors"])
    assert client.get("/api/v1/kitchens").json() == []


def test_text_that_is_no_json_is_told_apart_from_a_wrong_content_type(client: TestClient) -> None:
    assert send_kitchen(client, b"{").status_code == 422
    answer = client.post("/api/v1/kitchens", content=kitchen_bytes())
    assert answer.status_code == 415
    assert "application/json" in answer.json()["detail"]


def test_put_adds_versions_and_post_does_not(client: TestClient) -> None:
    send_kitchen(client)
    other = kitchen_bytes().replace(b'"covers": 40', b'"covers": 41')
    conflict = send_kitchen(client, other)
    assert conflict.status_code == 409
    assert "PUT the file to /api/v1/kitchens/test-kitchen" in conflict.json()["detail"]
    added = client.put("/api/v1/kitchens/test-kitchen", content=other, headers=JSON)
    assert (added.status_code, added.json()["version"]) == (201, 2)
    again = client.put("/api/v1/kitchens/test-kitchen", content=other, headers=JSON)
    assert (again.status_code, again.json()["version"]) == (200, 2)


def test_a_kitchen_that_is_not_there_is_404(client: TestClient) -> None:
    answer = client.get("/api/v1/kitchens/nowhere")
    assert answer.status_code == 404
    assert answer.json()["errors"][0]["value"] == "nowhere"
