"""Browser tests are collected only when asked for, and then fail where the browser is missing."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Leave this folder out of a run that deselects its marker: its extra may not be installed."""
    del collection_path
    return True if config.option.markexpr == "not browser" else None


@pytest.fixture(scope="module")
def browser() -> "Iterator[Browser]":
    """Debian's Chromium, without a window."""
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - see above

    with sync_playwright() as playwright:
        found = playwright.chromium.launch(
            executable_path="/usr/bin/chromium", args=["--no-sandbox"]
        )
        yield found
        found.close()
