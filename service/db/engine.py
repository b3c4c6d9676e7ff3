"""The engine, with what SQLite needs to behave: journal, foreign keys, patience, transactions."""

from pathlib import Path

from sqlalchemy import Engine, create_engine, event, make_url
from sqlalchemy.engine import Connection
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.pool import ConnectionPoolEntry

BUSY_MILLISECONDS = 5000
WRITING = "writing"
"""Execution option: this transaction will write, so SQLite takes the write lock at its start."""


def make_engine(url: str, *, foreign_keys: bool = True) -> Engine:
    """Make the engine for ``url``.

    Parameters
    ----------
    url
        Database URL. A SQLite file's folder is made if missing.
    foreign_keys
        False only while tables are rebuilt by a migration.

    Raises
    ------
    OSError
        The folder of a SQLite file cannot be made.
    """
    parsed = make_url(url)
    engine = create_engine(parsed)
    if parsed.get_backend_name() == "sqlite":
        if parsed.database:
            Path(parsed.database).parent.mkdir(parents=True, exist_ok=True)
        _tune_sqlite(engine, foreign_keys=foreign_keys)
    return engine


def _tune_sqlite(engine: Engine, *, foreign_keys: bool) -> None:
    @event.listens_for(engine, "connect")
    def _connected(connection: DBAPIConnection, entry: ConnectionPoolEntry) -> None:
        del entry
        # The driver must not open transactions by itself: it would leave table changes outside.
        connection.isolation_level = None
        cursor = connection.cursor()
        cursor.execute(f"PRAGMA busy_timeout = {BUSY_MILLISECONDS}")
        cursor.execute("PRAGMA journal_mode = WAL")
        cursor.execute("PRAGMA synchronous = NORMAL")
        cursor.execute(f"PRAGMA foreign_keys = {'ON' if foreign_keys else 'OFF'}")
        cursor.close()

    @event.listens_for(engine, "begin")
    def _begun(connection: Connection) -> None:
        # A reader that turns writer half-way would be refused at once instead of waiting.
        writing = connection.get_execution_options().get(WRITING, False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")
