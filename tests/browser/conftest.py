"""Browser tests are collected only when asked for, and then fail where the browser is missing."""

from pathlib import Path

import pytest


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Leave this folder out of a run that deselects its marker: its extra may not be installed."""
    del collection_path
    return True if config.option.markexpr == "not browser" else None
