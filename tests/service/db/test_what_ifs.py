"""What-ifs are kept until they are thrown away; what comes of those is dropped."""

import datetime as dt
import uuid

import pytest

from planner.kitchen.reading import read_kitchen
from service.comparing import WhatIf
from service.db.unit_of_work import Database
from service.values import PlanChoices, WhatIfState
from tests.service import stubs
from tests.service.conftest import NOW
from web.chef.compare_view import Otherwise

TODAY = NOW.date()
OUT = Otherwise("out", "Ada")
MORE = Otherwise("covers", percent=20)
KITCHEN = read_kitchen(stubs.kitchen_bytes())
FOUND = stubs.compare_well(WhatIf(KITCHEN, KITCHEN, NOW.date(), PlanChoices()))


@pytest.fixture
def plan(database: Database) -> uuid.UUID:
    with database.writing() as unit:
        unit.kitchens.add(slug="k", name="K", document=b"{}", actor="api", now=NOW)
        unit.commit()
    return _plan(database)


def _plan(database: Database, date: dt.date = TODAY) -> uuid.UUID:
    with database.writing() as unit:
        version = unit.kitchens.newest("k")
        assert version is not None
        plan = unit.runs.add(version, date, PlanChoices(), actor="api", now=NOW)
        unit.commit()
    return plan


def _add(
    database: Database, plan: uuid.UUID, otherwise: Otherwise = MORE, after: int = 0
) -> uuid.UUID:
    at = NOW + dt.timedelta(seconds=after)
    with database.writing() as unit:
        key = unit.what_ifs.add(plan, otherwise.change, "20", otherwise, actor="api", now=at)
        unit.commit()
    return key


def test_what_came_of_it_comes_back_as_it_was(database: Database, plan: uuid.UUID) -> None:
    key = _add(database, plan)
    with database.writing() as unit:
        assert unit.what_ifs.start(key)
        assert unit.what_ifs.of(plan)[0].state is WhatIfState.RUNNING
        unit.what_ifs.keep(key, FOUND)
        unit.commit()
    with database.reading() as unit:
        (one,) = unit.what_ifs.of(plan)
    assert (one.state, one.found, one.otherwise) == (WhatIfState.DONE, FOUND, MORE)
    assert (one.change, one.value, one.at) == ("covers", "20", NOW)


def test_those_of_a_day_are_those_of_all_its_plans_oldest_first(
    database: Database, plan: uuid.UUID
) -> None:
    other, tomorrow = _plan(database), _plan(database, NOW.date() + dt.timedelta(days=1))
    late, early = _add(database, plan, after=9), _add(database, other, OUT, after=5)
    _add(database, tomorrow)
    with database.reading() as unit:
        assert [one.id for one in unit.what_ifs.of_day(plan)] == [early, late]
        assert [one.id for one in unit.what_ifs.of(plan)] == [late]


def test_only_what_is_not_over_is_cut_off(database: Database, plan: uuid.UUID) -> None:
    waiting, begun, done, refused = (_add(database, plan, after=n) for n in range(4))
    with database.writing() as unit:
        unit.what_ifs.start(begun)
        unit.what_ifs.keep(done, FOUND)
        unit.what_ifs.end(refused, WhatIfState.REFUSED, "no service")
        unit.what_ifs.cut_off()
        unit.commit()
    with database.writing() as unit:
        states = {one.id: (one.state, one.error) for one in unit.what_ifs.of(plan)}
        unit.what_ifs.again(begun, actor="api", now=NOW + dt.timedelta(minutes=1))
        assert unit.what_ifs.of(plan)[-1].id == begun
        assert unit.what_ifs.of(plan)[-1].state is WhatIfState.QUEUED
    assert states == {
        waiting: (WhatIfState.CUT_OFF, ""),
        begun: (WhatIfState.CUT_OFF, ""),
        done: (WhatIfState.DONE, ""),
        refused: (WhatIfState.REFUSED, "no service"),
    }


def test_nothing_is_written_of_one_that_was_thrown_away(
    database: Database, plan: uuid.UUID
) -> None:
    key = _add(database, plan)
    with database.writing() as unit:
        unit.what_ifs.remove(key)
        unit.what_ifs.remove(key)
        assert not unit.what_ifs.start(key)
        unit.what_ifs.keep(key, FOUND)
        unit.what_ifs.end(key, WhatIfState.FAILED, "no")
        unit.commit()
    with database.reading() as unit:
        assert unit.what_ifs.of(plan) == ()
