"""How alembic connects: on the connection that is handed in, or to the configured database."""

from typing import Any, Literal

from alembic import context
from alembic.autogenerate.api import AutogenContext
from sqlalchemy.engine import Connection

from service.db.engine import WRITING, make_engine
from service.db.tables import Row
from service.db.types import UtcDateTime
from service.settings import load_settings


def render(kind: str, item: Any, context_: AutogenContext) -> str | Literal[False]:
    """Write our own column types as what they are in the database: a migration is a record."""
    del context_
    if kind == "type" and isinstance(item, UtcDateTime):
        return "sa.DateTime(timezone=True)"
    return False


def run_on(connection: Connection) -> None:
    """Run the migrations on ``connection``."""
    context.configure(
        connection=connection,
        target_metadata=Row.metadata,
        render_item=render,
        render_as_batch=True,  # SQLite alters a table by making it anew
    )
    with context.begin_transaction():
        context.run_migrations()


def run() -> None:
    """Run the migrations where the configuration says."""
    given = context.config.attributes.get("connection")
    if given is not None:
        run_on(given)
        return
    engine = make_engine(load_settings().url, foreign_keys=False)
    with engine.execution_options(**{WRITING: True}).begin() as connection:
        run_on(connection)


if context.is_offline_mode():
    raise SystemExit("offline mode (--sql) is not supported: migrate a copy of the database")
run()
