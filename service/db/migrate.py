"""Bring a database to this version's tables."""

from importlib.resources import files

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, make_url
from sqlalchemy.engine import Connection
from sqlalchemy.exc import SQLAlchemyError

from service.db.engine import WRITING, make_engine
from service.errors import UserError


class DatabaseVersionError(UserError):
    """The database was made by a newer version of the program."""


class DatabaseError(UserError):
    """The database cannot be opened."""


def migration_config(connection: Connection | None = None) -> Config:
    """Alembic's settings for the packaged migrations, on ``connection`` where one is given."""
    config = Config()
    config.set_main_option("script_location", str(files("service").joinpath("migrations")))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    return config


def migrate(url: str, revision: str = "head") -> None:
    """Upgrade (or downgrade) the database at ``url`` to ``revision``, wholly or not at all.

    Raises
    ------
    DatabaseVersionError
        The database is at a revision this version does not know.
    DatabaseError
        There is no driver for it, it does not answer, or it is no database.
    """
    try:
        engine = make_engine(url, foreign_keys=False)
        _migrate(engine, url, revision)
    except (ImportError, OSError, SQLAlchemyError) as error:
        reason = str(error).partition("\n")[0]
        raise DatabaseError(
            f"PREPWRIGHT_DATABASE_URL: {_shown(url)}: it cannot be opened ({reason}). Name a "
            "database that can, or unset it for a SQLite file in PREPWRIGHT_DATA_DIR."
        ) from None


def _migrate(engine: Engine, url: str, revision: str) -> None:
    try:
        with engine.execution_options(**{WRITING: True}).connect() as connection:
            config = migration_config(connection)
            with connection.begin():
                current = MigrationContext.configure(connection).get_current_revision()
                _refuse_unknown(config, current, url)
                if revision == "base":
                    command.downgrade(config, revision)
                else:
                    command.upgrade(config, revision)
    finally:
        engine.dispose()


def _refuse_unknown(config: Config, current: str | None, url: str) -> None:
    known = {script.revision for script in ScriptDirectory.from_config(config).walk_revisions()}
    if current is not None and current not in known:
        raise DatabaseVersionError(
            f"PREPWRIGHT_DATABASE_URL: {_shown(url)}: its tables are at revision {current!r}, "
            "which this version does not know. Install the version that made it, or name another "
            "database."
        )


def _shown(url: str) -> str:
    """The URL without its password."""
    return make_url(url).render_as_string(hide_password=True)
