"""The morning of these tests, and what cooks do to its pages."""

import time
from collections.abc import Callable

from playwright.sync_api import Page, expect

from tests.web.floor.example import floor_sheet

SHEET = floor_sheet()
NOW = 7 * 60 + 12.0
"""Minutes after midnight at which the tests begin."""
INES, TOMAS = SHEET.cooks[0], SHEET.cooks[1]
PHONE = {"width": 360, "height": 740}
SCREENS = {
    "phone": PHONE,
    "tablet": {"width": 768, "height": 1024},
    "wall": {"width": 1920, "height": 1080},
}

expect.set_options(timeout=10_000)  # machines that do other work too

Open = Callable[..., Page]
"""Opens a page of the floor by its path, on a device of its own or in a given context."""


def current_batch(page: Page) -> int:
    """The number of the batch that a cook's page shows large."""
    found = page.locator(".now [data-job]").get_attribute("data-job")
    assert found is not None
    return int(found)


def tap(page: Page, act: str) -> None:
    """Tap a button of the bar, late enough not to be taken for wet fingers."""
    page.wait_for_timeout(950)
    page.locator(f'[data-act="{act}"]').click()


def until(met: Callable[[], bool], seconds: float = 10) -> None:
    """Wait for something of the server's that no page shows."""
    end = time.monotonic() + seconds
    while not met():
        assert time.monotonic() < end, "it did not happen"
        time.sleep(0.05)
