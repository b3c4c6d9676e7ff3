"""A floor in the middle of its morning, and devices to open it on."""

import time
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.browser.floor.floor_server import FloorServer, serve
from tests.browser.floor.hands import NOW, PHONE, SHEET, Open
from tests.web.floor.example import worked_until


@pytest.fixture
def server() -> Iterator[FloorServer]:
    """A floor where the morning has gone as planned until 07:12."""
    found = FloorServer(SHEET, NOW, worked_until(SHEET, NOW))
    running, thread = serve(found)
    time.sleep(0.2)
    yield found
    running.should_exit = True
    thread.join(5)


@pytest.fixture
def phone(browser: Browser, server: FloorServer) -> Iterator[Open]:
    """Opens a page of the floor on a device of its own."""
    contexts: list[BrowserContext] = []
    faults: list[str] = []

    def opened(where: str, context: BrowserContext | None = None, **more: object) -> Page:
        if context is None:
            context = browser.new_context(**{"viewport": PHONE, **more})  # type: ignore[arg-type]
            contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.on(
            "console",
            lambda said: faults.append(said.text) if "Content Security" in said.text else None,
        )
        page.goto(server.address + server.base + where)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert faults == []
