import sqlite3

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import IntegrityError

from service.db.engine import BUSY_MILLISECONDS, WRITING, make_engine
from service.db.migrate import migrate


@pytest.fixture
def engine(url: str) -> Engine:
    migrate(url)
    return make_engine(url)


@pytest.mark.parametrize(
    ("pragma", "value"),
    [("journal_mode", "wal"), ("foreign_keys", 1), ("busy_timeout", BUSY_MILLISECONDS)],
)
def test_every_connection_has_the_journal_the_foreign_keys_and_the_patience(
    engine: Engine, pragma: str, value: object
) -> None:
    with engine.connect() as connection:
        assert connection.execute(text(f"PRAGMA {pragma}")).scalar_one() == value


@pytest.mark.parametrize(
    ("fault", "statement"),
    [
        (
            "FOREIGN KEY",
            "INSERT INTO kitchen_version (created_by, created_at, id, kitchen_id, number, "
            "document, sha256) VALUES ('api', '2026-03-02', 'v', 'no such kitchen', 1, '{}', 'x')",
        ),
        (
            "ck_plan_state",
            "INSERT INTO plan (created_by, created_at, id, kitchen_id, kitchen_version_id, "
            "date, state, choices, beat_at) VALUES ('api', '2026-03-02', 'p', 'k', 'v', "
            "'2026-03-02', 'paused', '{}', '2026-03-02')",
        ),
    ],
)
def test_a_row_that_refers_to_nothing_or_has_an_unknown_state_is_refused(
    engine: Engine, fault: str, statement: str
) -> None:
    with engine.connect() as connection, pytest.raises(IntegrityError, match=fault):
        connection.exec_driver_sql(statement)


def test_changes_of_tables_are_inside_the_transaction_too(engine: Engine) -> None:
    with engine.connect() as connection:
        connection.execute(text("CREATE TABLE half (a int)"))
        connection.rollback()
    with engine.connect() as connection:
        names = connection.execute(text("SELECT name FROM sqlite_master")).scalars().all()
    assert "half" not in names


def test_a_writing_transaction_takes_the_write_lock_at_its_start(engine: Engine) -> None:
    database = engine.url.database
    assert database is not None
    other = sqlite3.connect(database, timeout=0)
    with engine.execution_options(**{WRITING: True}).begin() as connection:
        connection.execute(text("SELECT 1"))
        with pytest.raises(sqlite3.OperationalError, match="locked"):
            other.execute("BEGIN IMMEDIATE")
    with engine.begin() as connection:
        connection.execute(text("SELECT 1"))
        other.execute("BEGIN IMMEDIATE")
    other.close()
