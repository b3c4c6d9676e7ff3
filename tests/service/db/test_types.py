import datetime as dt

import pytest
from sqlalchemy import Column, MetaData, Table, create_engine, insert, select
from sqlalchemy.exc import StatementError

from service.db.types import UtcDateTime

TABLE = Table("moments", MetaData(), Column("at", UtcDateTime))


def _round_trip(moment: dt.datetime | None) -> dt.datetime | None:
    engine = create_engine("sqlite://")
    with engine.begin() as connection:
        TABLE.metadata.create_all(connection)
        connection.execute(insert(TABLE).values(at=moment))
        return connection.execute(select(TABLE.c.at)).scalar_one()


def test_a_moment_comes_back_the_same_and_in_utc() -> None:
    zone = dt.timezone(dt.timedelta(hours=-5))
    moment = dt.datetime(2026, 3, 2, 6, 30, 15, 123456, tzinfo=zone)
    found = _round_trip(moment)
    assert found == moment
    assert found is not None
    assert found.tzinfo is dt.UTC


def test_a_naive_time_is_refused() -> None:
    with pytest.raises(StatementError, match="has no time zone; pass an aware time"):
        _round_trip(dt.datetime(2026, 3, 2, 6, 30))  # noqa: DTZ001


def test_nothing_stays_nothing() -> None:
    assert _round_trip(None) is None
