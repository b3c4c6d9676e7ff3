import datetime as dt
import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from service.db.engine import make_engine
from service.db.migrate import migrate
from service.db.unit_of_work import Database
from service.settings import PREFIX

NOW = dt.datetime(2026, 3, 2, 6, 0, tzinfo=dt.UTC)


@pytest.fixture(autouse=True)
def _no_outside_settings(monkeypatch: pytest.MonkeyPatch) -> None:
    """Tests never meet the settings, or the data, of whoever runs them."""
    for name in [name for name in os.environ if name.startswith(PREFIX)]:
        monkeypatch.delenv(name)


@pytest.fixture
def url(tmp_path: Path) -> str:
    return f"sqlite:///{tmp_path / 'data' / 'test.sqlite3'}"


@pytest.fixture
def database(url: str) -> Iterator[Database]:
    migrate(url)
    database = Database(make_engine(url))
    yield database
    database.close()
