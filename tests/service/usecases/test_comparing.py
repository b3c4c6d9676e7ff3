"""What-ifs outlast the program, are bounded, and can be tried again and thrown away."""

import datetime as dt
import threading
import time
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import count

import pytest

from service.comparing import MakeComparison
from service.db.unit_of_work import Database
from service.db.what_ifs import Asked
from service.errors import NotFoundError
from service.usecases.comparing import (
    KEPT,
    ChangeError,
    Trying,
    ask_again,
    ask_what_if,
    throw_away,
    what_ifs_of,
)
from service.values import PlanChoices, WhatIfState
from service.what_ifs import Comparisons
from tests.service import stubs
from tests.service.conftest import NOW

DATE = dt.date(2026, 3, 2)
_MOMENTS = (NOW + dt.timedelta(seconds=n) for n in count())
"""A clock that goes on over restarts."""
PERCENTS = [str(percent) for percent in range(1, KEPT + 3)]


@pytest.fixture
def plan(database: Database) -> uuid.UUID:
    return _plan(database)


def _plan(database: Database) -> uuid.UUID:
    with database.writing() as unit:
        unit.kitchens.add(slug="k", name="K", document=stubs.kitchen_bytes(), actor="api", now=NOW)
        version = unit.kitchens.newest("k")
        assert version is not None
        plan = unit.runs.add(version, DATE, PlanChoices(), actor="api", now=NOW)
        unit.commit()
    return plan


@contextmanager
def _program(database: Database, make: MakeComparison = stubs.compare_well) -> Iterator[Trying]:
    """What a server has, from its start to its end."""
    comparisons = Comparisons(database, make)
    comparisons.start()
    try:
        yield Trying(database, comparisons, lambda: next(_MOMENTS), PlanChoices())
    finally:
        comparisons.stop()


def _idle(database: Database) -> Trying:
    """A program that takes what is asked and does nothing about it, as one that is killed."""
    return Trying(database, Comparisons(database), lambda: next(_MOMENTS), PlanChoices())


def _all(database: Database, plan: uuid.UUID) -> tuple[Asked, ...]:
    return what_ifs_of(database, plan)[0]


def _wait(database: Database, plan: uuid.UUID, so: Callable[[tuple[Asked, ...]], bool]) -> None:
    deadline = time.monotonic() + 30
    while not so(_all(database, plan)):
        assert time.monotonic() < deadline, _all(database, plan)
        time.sleep(0.05)


def _over(found: tuple[Asked, ...]) -> bool:
    return all(one.state.ended for one in found)


def test_what_came_of_it_is_there_after_a_restart(database: Database, plan: uuid.UUID) -> None:
    with _program(database) as tools:
        ask_what_if(tools, plan, "covers", "20", actor="api")
        _wait(database, plan, _over)
    with _program(database) as tools:
        (one,) = _all(database, plan)
        assert one.state is WhatIfState.DONE
        assert one.found is not None
        assert one.found.changed.short_portions == 12
        assert ask_what_if(tools, plan, "covers", " 20 % ", actor="api") == one.id
        assert _over(_all(database, plan)), "it is not planned again"


def test_what_the_program_left_undone_is_cut_off_and_can_be_tried_again(
    database: Database, plan: uuid.UUID
) -> None:
    with _program(database, stubs.compare_forever) as tools:
        for percent in ("20", "30"):
            ask_what_if(tools, plan, "covers", percent, actor="api")
        _wait(database, plan, lambda found: found[0].state is WhatIfState.RUNNING)
    assert [one.state for one in _all(database, plan)] == [WhatIfState.CUT_OFF] * 2
    with _program(database) as tools:
        first, _ = _all(database, plan)
        ask_again(tools, plan, first.id, actor="api")
        _wait(database, plan, lambda found: found[-1].state is WhatIfState.DONE)
    assert [one.state for one in _all(database, plan)] == [WhatIfState.CUT_OFF, WhatIfState.DONE]


def test_what_a_killed_program_left_is_cut_off_when_the_next_one_starts(
    database: Database, plan: uuid.UUID
) -> None:
    ask_what_if(_idle(database), plan, "out", "ada", actor="api")
    assert _all(database, plan)[0].state is WhatIfState.QUEUED
    with _program(database):
        (one,) = _all(database, plan)
    assert one.state is WhatIfState.CUT_OFF
    assert one.otherwise.name == "Ada"


def test_a_refusal_says_why_and_is_not_tried_again(database: Database, plan: uuid.UUID) -> None:
    with _program(database, stubs.compare_refusal) as tools:
        key = ask_what_if(tools, plan, "covers", "20", actor="api")
        _wait(database, plan, _over)
        ask_again(tools, plan, key, actor="api")
        (one,) = _all(database, plan)
    assert one.state is WhatIfState.REFUSED
    assert "no service then" in one.error


def test_a_process_that_ends_by_itself_fails_and_the_next_is_still_done(
    database: Database, plan: uuid.UUID
) -> None:
    with _program(database, stubs.compare_crash_with_more_covers) as tools:
        ask_what_if(tools, plan, "covers", "20", actor="api")
        ask_what_if(tools, plan, "covers", "-20", actor="api")
        _wait(database, plan, _over)
    first, second = _all(database, plan)
    assert (first.state, second.state) == (WhatIfState.FAILED, WhatIfState.DONE)
    assert "out of memory" in first.error


def test_the_oldest_of_a_day_go_and_what_waits_stays(database: Database, plan: uuid.UUID) -> None:
    other = _plan(database)
    with _program(database) as tools:
        ask_what_if(tools, plan, "out", "ada", actor="api")
        _wait(database, plan, _over)
    tools = _idle(database)
    for percent in PERCENTS[: KEPT - 1]:
        ask_what_if(tools, other, "covers", percent, actor="api")
    assert len(_all(database, plan)) == 1
    ask_what_if(tools, other, "covers", PERCENTS[KEPT - 1], actor="api")
    assert _all(database, plan) == (), "the only one that is over makes room"
    with pytest.raises(ChangeError, match="throw some away"):
        ask_what_if(tools, other, "covers", PERCENTS[KEPT], actor="api")
    assert [one.value for one in _all(database, other)] == PERCENTS[:KEPT]


def test_throwing_away_ends_what_is_in_hand(database: Database, plan: uuid.UUID) -> None:
    with _program(database, stubs.compare_forever) as tools:
        first = ask_what_if(tools, plan, "covers", "20", actor="api")
        second = ask_what_if(tools, plan, "covers", "30", actor="api")
        _wait(database, plan, lambda found: found[0].state is WhatIfState.RUNNING)
        throw_away(tools, plan, first)
        _wait(database, plan, lambda found: found[0].state is WhatIfState.RUNNING)
        assert [one.id for one in _all(database, plan)] == [second]
        with pytest.raises(NotFoundError, match="no such what-if"):
            throw_away(tools, plan, first)
        with pytest.raises(NotFoundError):
            throw_away(tools, _plan(database), second)
    assert [one.id for one in _all(database, plan)] == [second]


def test_no_thread_is_left(database: Database) -> None:
    before = threading.active_count()
    with _program(database):
        assert threading.active_count() == before + 1
    assert threading.active_count() == before
