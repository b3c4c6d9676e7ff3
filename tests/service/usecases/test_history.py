"""Days that were worked are read with few queries, kept, and read again only where more is said."""

import datetime as dt
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from sqlalchemy import event

from service.db.engine import make_engine
from service.db.migrate import migrate
from service.db.unit_of_work import Database
from service.errors import InvalidError, NotFoundError
from service.usecases.history import MOST_DAYS, LaborHistories
from tests.service.worked import SLUG, add_day, moment, send

MONDAY = dt.date(2026, 3, 2)
DAYS = [MONDAY + dt.timedelta(i) for i in range(6)]


def _now() -> dt.datetime:
    return moment(DAYS[-1], 600)


@contextmanager
def _counted(engine: object) -> Iterator[list[str]]:
    asked: list[str] = []

    def listen(*args: object) -> None:
        asked.append(str(args[2]))

    event.listen(engine, "before_cursor_execute", listen)
    yield asked
    event.remove(engine, "before_cursor_execute", listen)


def test_days_are_summed_up_as_they_were_ticked(database: Database) -> None:
    add_day(database, MONDAY)
    found = LaborHistories(database).of(SLUG, None, None, now=_now)
    (day,) = found.days
    assert (found.first, found.last) == (MONDAY - dt.timedelta(27), MONDAY)
    assert (day.date, day.covers, day.release) == (MONDAY, 40, 1)
    assert [line.took for line in day.lines] == [24 * 60, 24 * 60]
    # Done at 7:54; the second was planned to be set about at 7:57 and was begun at 8:00.
    assert (day.lines[1].changeover, day.lines[1].waiting) == (180, 180)
    assert day.split.rate == 8 * 60
    assert sum((day.split.volume, day.split.mix)) == 0
    assert day.money.total == sum(
        (day.money.volume, day.money.mix, day.money.rate, day.money.changeover, day.money.wage)
    )
    assert found.kitchen == "Test Kitchen"
    assert not found.invented


def test_however_many_days_there_are_so_few_queries_read_them(url: str) -> None:
    migrate(url)
    engine = make_engine(url)
    database = Database(engine)
    for date in DAYS:
        add_day(database, date)
    histories = LaborHistories(database)
    with _counted(engine) as cold:
        assert len(histories.of(SLUG, None, DAYS[-1], now=_now).days) == len(DAYS)
    with _counted(engine) as warm:
        assert len(histories.of(SLUG, None, DAYS[-1], now=_now).days) == len(DAYS)
    selects = [one for one in cold if one.startswith("SELECT")]
    again = [one for one in warm if one.startswith("SELECT")]
    assert len(selects) - len(again) == 3, "sheets, kitchen files, ticks: each once for all days"
    assert len(again) <= 6
    assert not any("plan_result" in one or "tick.key" in one for one in again)
    database.close()


def test_a_new_tick_is_seen_and_the_other_days_stay(database: Database) -> None:
    add_day(database, DAYS[0])
    release = add_day(database, DAYS[1], ticked=False)
    histories = LaborHistories(database)
    before = histories.of(SLUG, DAYS[0], DAYS[1], now=_now).days
    send(database, release, 1, "problem", 455, reason="Too little food")
    after = histories.of(SLUG, DAYS[0], DAYS[1], now=_now).days
    assert after[0] is before[0]
    assert after[1].lines[0].problems == ("Too little food",)
    assert before[1].lines[0].problems == ()


def test_a_kitchen_without_releases_has_an_empty_range(database: Database) -> None:
    add_day(database, DAYS[0])
    found = LaborHistories(database).of(SLUG, DAYS[3], DAYS[5], now=_now)
    assert found.days == ()
    assert found.known == (DAYS[0], DAYS[0])


def test_a_kitchen_nobody_has_is_an_error(database: Database) -> None:
    with pytest.raises(NotFoundError, match="kitchen"):
        LaborHistories(database).of("nobody", None, None, now=_now)


@pytest.mark.parametrize(
    ("first", "says"),
    [
        (DAYS[5], "it is after"),
        (DAYS[4] - dt.timedelta(MOST_DAYS), "more than"),
    ],
)
def test_a_range_that_cannot_be_is_an_error(database: Database, first: dt.date, says: str) -> None:
    add_day(database, DAYS[0])
    with pytest.raises(InvalidError, match=says):
        LaborHistories(database).of(SLUG, first, DAYS[4], now=_now)


def test_the_longest_range_is_allowed(database: Database) -> None:
    add_day(database, DAYS[0])
    first = DAYS[4] - dt.timedelta(MOST_DAYS - 1)
    assert len(LaborHistories(database).of(SLUG, first, DAYS[4], now=_now).days) == 1
