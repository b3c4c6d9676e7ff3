import datetime as dt
import uuid

import pytest
from sqlmodel import Session, select

from planner.schedule.timetable import Progress, Score
from service.db.engine import make_engine
from service.db.tables import KitchenVersionRow
from service.db.unit_of_work import Database
from service.values import PlanChoices, PlanState, PlanTexts
from tests.service.conftest import NOW


def _add_and_fail(database: Database) -> None:
    with database.writing() as unit:
        unit.kitchens.add(slug="k", name="K", document=b"{}", actor="api", now=NOW)
        raise RuntimeError


def _kitchen(database: Database, document: bytes = b"{}") -> None:
    with database.writing() as unit:
        unit.kitchens.add(slug="k", name="K", document=document, actor="api", now=NOW)
        unit.commit()


def _run(database: Database, at: dt.datetime = NOW) -> uuid.UUID:
    with database.writing() as unit:
        version = unit.kitchens.newest("k")
        assert version is not None
        plan_id = unit.runs.add(version, NOW.date(), PlanChoices(), actor="api", now=at)
        unit.commit()
    return plan_id


def test_what_is_not_committed_is_not_stored(database: Database) -> None:
    with database.writing() as unit:
        unit.kitchens.add(slug="k", name="K", document=b"{}", actor="api", now=NOW)
    with database.reading() as unit:
        assert unit.kitchens.summaries() == ()


def test_an_error_in_the_middle_takes_back_the_whole_unit(database: Database) -> None:
    with pytest.raises(RuntimeError):
        _add_and_fail(database)
    with database.reading() as unit:
        assert unit.kitchens.summaries() == ()


def test_the_same_file_again_adds_no_version_and_another_adds_the_next(
    database: Database,
) -> None:
    _kitchen(database, b'{"a": 1}')
    _kitchen(database, b'{"a": 1}')
    with database.reading() as unit:
        assert [kitchen.version for kitchen in unit.kitchens.summaries()] == [1]
    _kitchen(database, b'{"a": 2}')
    with database.reading() as unit:
        assert [kitchen.version for kitchen in unit.kitchens.summaries()] == [2]


def test_a_stored_kitchen_file_cannot_be_changed_or_deleted(database: Database, url: str) -> None:
    _kitchen(database)
    with Session(make_engine(url)) as session:
        row = session.exec(select(KitchenVersionRow)).one()
        row.document = "changed"
        with pytest.raises(ValueError, match="never changed"):
            session.flush()
        session.rollback()
        session.delete(session.exec(select(KitchenVersionRow)).one())
        with pytest.raises(ValueError, match="never changed"):
            session.flush()


def test_a_plan_keeps_the_version_that_made_it_when_a_newer_one_comes(
    database: Database,
) -> None:
    _kitchen(database, b'{"old": 1}')
    plan_id = _run(database)
    _kitchen(database, b'{"new": 1}')
    with database.reading() as unit:
        version_id, date, choices = unit.plans.inputs(plan_id)
        assert unit.kitchens.version(version_id).document == b'{"old": 1}'
        assert (date, choices) == (NOW.date(), PlanChoices())


def test_a_run_is_followed_from_queued_to_done(database: Database) -> None:
    _kitchen(database)
    plan_id = _run(database)
    later = NOW + dt.timedelta(seconds=3)
    with database.writing() as unit:
        unit.runs.start(plan_id, NOW)
        for labor in (90, 80):
            score = Score(short=0, tardiness=4, labor=labor, freshness=2, finish=300)
            unit.runs.step(plan_id, Progress(1.5, score, "rule"), NOW)
        unit.runs.keep(plan_id, PlanTexts("{1}", "{2}", "{3}"), NOW)
        unit.runs.keep(plan_id, PlanTexts("{4}", "{5}", "{6}"), later)
        unit.runs.end(plan_id, later, error=None, note="stopped early")
        unit.commit()
    with database.reading() as unit:
        status = unit.plans.status(plan_id)
        assert unit.plans.texts(plan_id) == PlanTexts("{4}", "{5}", "{6}")
    assert status is not None
    assert status.state is PlanState.DONE
    assert status.has_sheet
    assert (status.started_at, status.finished_at, status.note) == (NOW, later, "stopped early")
    assert [(step.number, step.labor, step.tardiness) for step in status.progress] == [
        (1, 90, 4),
        (2, 80, 4),
    ]


def test_runs_are_listed_newest_first_and_can_be_limited_to_those_with_a_sheet(
    database: Database,
) -> None:
    _kitchen(database)
    first, second, third = (_run(database, NOW + dt.timedelta(minutes=n)) for n in range(3))
    with database.writing() as unit:
        unit.runs.keep(first, PlanTexts("{}", "{}", "{}"), NOW)
        unit.commit()
    with database.reading() as unit:
        assert [run.id for run in unit.plans.summaries(limit=2)] == [third, second]
        assert [run.id for run in unit.plans.summaries(limit=9, with_sheet=True)] == [first]


def test_silent_runs_are_those_unfinished_that_nobody_has_beaten_for(
    database: Database,
) -> None:
    _kitchen(database)
    dead, alive, ended = (_run(database) for _ in range(3))
    with database.writing() as unit:
        unit.runs.beat((alive,), NOW + dt.timedelta(seconds=40))
        unit.runs.end(ended, NOW, error="no", note=None)
        unit.commit()
    with database.reading() as unit:
        assert unit.runs.silent_since(NOW + dt.timedelta(seconds=30)) == (dead,)


def test_what_is_not_there_is_none(database: Database) -> None:
    with database.reading() as unit:
        assert unit.kitchens.summary("none") is None
        assert unit.kitchens.newest("none") is None
        assert unit.plans.status(uuid.uuid4()) is None
        assert unit.plans.texts(uuid.uuid4()) is None
