"""The sales history in rows: the newest count holds, and none is ever changed."""

import datetime as dt
import uuid

import pytest
from sqlalchemy.exc import IntegrityError

from service.db.unit_of_work import Database, UnitOfWork
from service.sales_values import CLOSED, SalesChange, SalesWay
from tests.service import stubs
from tests.service.conftest import NOW

DAY = dt.date(2026, 3, 1)


def kitchen_of(unit: UnitOfWork) -> uuid.UUID:
    unit.kitchens.add(
        slug="test-kitchen", name="Test", document=stubs.kitchen_bytes(), actor="test", now=NOW
    )
    stored = unit.kitchens.newest("test-kitchen")
    assert stored is not None
    return stored.kitchen_id


def change(count: int | None, dish: str = "soup") -> SalesChange:
    return SalesChange(DAY, "Lunch", dish, count)


def add(unit: UnitOfWork, key: uuid.UUID, *changes: tuple[SalesChange, int | None]) -> int:
    return unit.sales.add(key, SalesWay.FILE, changes, source="a.csv", actor="test", now=NOW)


def test_nothing_is_kept_at_first(database: Database) -> None:
    with database.writing() as unit:
        key = kitchen_of(unit)
        assert unit.sales.version(key) == 0
        assert unit.sales.kept(key).counts == {}
        assert unit.sales.entries(key) == ()


def test_the_newest_count_of_a_dish_holds_and_what_is_taken_back_is_gone(
    database: Database,
) -> None:
    with database.writing() as unit:
        key = kitchen_of(unit)
        assert add(unit, key, (change(4), None), (change(7, "stew"), None)) == 1
        assert add(unit, key, (change(5), 4)) == 2
        assert add(unit, key, (change(None, "stew"), 7)) == 3
        unit.commit()
    with database.reading() as unit:
        kept = unit.sales.kept(key)
        assert kept.version == 3
        assert kept.counts == {(DAY, "Lunch", "soup"): 5}
        assert unit.sales.changes(key, 2) == ((change(5), 4),)
        assert unit.sales.later(key, 1) == {(DAY, "Lunch", "soup"): 2, (DAY, "Lunch", "stew"): 3}
        newest, second, first = unit.sales.entries(key)
    assert (first.added, first.changed, first.first, first.last) == (2, 0, DAY, DAY)
    assert (second.added, second.changed, second.source, second.actor) == (0, 1, "a.csv", "test")
    assert (newest.number, newest.at) == (3, NOW)


def test_closed_days_are_no_sales(database: Database) -> None:
    with database.writing() as unit:
        key = kitchen_of(unit)
        add(unit, key, (change(0, CLOSED), None))
        kept = unit.sales.kept(key)
    assert kept.sales == ()
    assert kept.closed == {("Lunch", DAY)}


def test_kitchens_do_not_see_each_other_s(database: Database) -> None:
    with database.writing() as unit:
        key = kitchen_of(unit)
        unit.kitchens.add(
            slug="other", name="Other", document=stubs.kitchen_bytes(), actor="test", now=NOW
        )
        other = unit.kitchens.newest("other")
        assert other is not None
        add(unit, key, (change(4), None))
        assert unit.sales.kept(other.kitchen_id).counts == {}
        assert add(unit, other.kitchen_id, (change(9), None)) == 1


def test_a_count_stands_once_in_an_entry(database: Database) -> None:
    with database.writing() as unit:
        key = kitchen_of(unit)
        with pytest.raises(IntegrityError):
            add(unit, key, (change(4), None), (change(5), None))


def test_what_is_not_committed_is_not_there(database: Database) -> None:
    with database.writing() as unit:
        key = kitchen_of(unit)
        unit.commit()
    with database.writing() as unit:
        add(unit, key, (change(4), None))
    with database.reading() as unit:
        assert unit.sales.version(key) == 0
