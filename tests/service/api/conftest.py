import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.planning import MakePlan
from service.settings import Settings
from tests.service import stubs

MakeClient = Callable[[MakePlan], TestClient]


@pytest.fixture
def make_client(tmp_path: Path) -> Iterator[MakeClient]:
    """Opens a client of a server of its own, which plans with the function given."""
    with ExitStack() as stack:

        def make(plan: MakePlan) -> TestClient:
            app = create_app(Settings(data_dir=tmp_path / "data"), plan)
            client = TestClient(app, base_url="http://localhost", raise_server_exceptions=False)
            return stack.enter_context(client)

        yield make


@pytest.fixture
def client(make_client: MakeClient) -> TestClient:
    return make_client(stubs.make_well)


def send_kitchen(client: TestClient, data: bytes | None = None) -> Any:
    return client.post(
        "/api/v1/kitchens",
        content=data or stubs.kitchen_bytes(),
        headers={"Content-Type": "application/json"},
    )


def start_plan(client: TestClient, **wish: object) -> str:
    """Store the kitchen, ask for a plan of the day it is about, and return its address."""
    send_kitchen(client)
    wish.setdefault("date", "2026-03-02")
    answer = client.post("/api/v1/kitchens/test-kitchen/plans", json=wish)
    assert answer.status_code == 202, answer.text
    return str(answer.headers["Location"])


def wait_for(
    client: TestClient, address: str, until: Callable[[dict[str, Any]], bool]
) -> dict[str, Any]:
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline:
        status: dict[str, Any] = client.get(address).json()
        if until(status):
            return status
        time.sleep(0.05)
    pytest.fail(f"still {status['state']} after 30 s")


def ended(status: dict[str, Any]) -> bool:
    return status["state"] in ("done", "failed")
