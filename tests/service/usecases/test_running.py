import datetime as dt
import uuid
from dataclasses import dataclass, field

import pytest

from service.db.unit_of_work import Database
from service.documents import read_traces
from service.errors import NotFoundError, NothingMadeError, NotReadyError
from service.planning import Made, MakePlan
from service.solving import SolveError
from service.usecases.kitchens import store_kitchen
from service.usecases.plans import (
    list_plans,
    plan_status,
    plan_texts,
    request_plan,
    trace_of,
)
from service.usecases.running import LOST_AFTER, RunTools, Watcher, run_plan, settle_lost_runs
from service.values import PlanChoices, PlanState
from tests.service import stubs
from tests.service.conftest import NOW


@dataclass
class Writer:
    """Notes what is written, or fails as a full disk does."""

    full: bool = False
    written: list[str] = field(default_factory=list)

    def __call__(self, plan_id: uuid.UUID, made: Made, whole: bool) -> None:
        del plan_id, whole
        if self.full:
            raise OSError(28, "No space left on device")
        self.written.append(made.texts.document)


def _tools(database: Database, make: MakePlan, writer: Writer | None = None) -> RunTools:
    return RunTools(database, make, writer or Writer(), lambda: NOW)


def _ask(database: Database, date: dt.date | None = None) -> uuid.UUID:
    store_kitchen(database, stubs.kitchen_bytes(), actor="api", now=lambda: NOW)
    return request_plan(
        database, "test-kitchen", date, PlanChoices(), actor="api", now=lambda: NOW
    ).id


def test_a_plan_is_asked_for_on_the_kitchens_own_today(database: Database) -> None:
    late_evening = dt.datetime(2026, 3, 3, 2, 0, tzinfo=dt.UTC)
    store_kitchen(database, stubs.kitchen_bytes(), actor="api", now=lambda: NOW)
    status = request_plan(
        database, "test-kitchen", None, PlanChoices(), actor="api", now=lambda: late_evening
    )
    assert status.date == dt.date(2026, 3, 2), "in New York it is still the 2nd"
    assert status.state is PlanState.QUEUED


def test_a_run_stores_its_progress_then_its_last_plan_and_writes_each(database: Database) -> None:
    plan_id = _ask(database)
    writer = Writer()
    seen: list[str] = []
    watcher = Watcher(on_first=lambda made: seen.append(made.texts.document))
    run_plan(_tools(database, stubs.make_well, writer), plan_id, watcher)
    status = plan_status(database, plan_id)
    assert status.state is PlanState.DONE
    assert (status.error, status.note) == (None, None)
    assert [step.labor for step in status.progress] == [110, 100]
    assert plan_texts(database, plan_id).document == '{"origin": "last with seed 1"}'
    assert writer.written == ['{"origin": "first"}', '{"origin": "last with seed 1"}']
    assert seen == ['{"origin": "first"}']


def test_a_crash_marks_the_run_failed_and_leaves_its_first_sheet_readable(
    database: Database,
) -> None:
    plan_id = _ask(database)
    with pytest.raises(SolveError):
        run_plan(_tools(database, stubs.make_crash), plan_id)
    status = plan_status(database, plan_id)
    assert status.state is PlanState.FAILED
    assert status.error is not None
    assert "exit code 9" in status.error
    assert plan_texts(database, plan_id).document == '{"origin": "first"}'


def test_a_run_that_made_nothing_says_why_when_it_is_read(database: Database) -> None:
    plan_id = _ask(database)
    with pytest.raises(NotReadyError, match="queued and has made nothing"):
        plan_texts(database, plan_id)
    with pytest.raises(SolveError):
        run_plan(_tools(database, stubs.make_refusal), plan_id)
    with pytest.raises(NothingMadeError, match="it failed: date: 2026"):
        plan_texts(database, plan_id)


def test_a_stopped_run_is_done_with_its_first_plan_and_says_so(database: Database) -> None:
    plan_id = _ask(database)
    tools = _tools(database, stubs.make_slowly)
    run_plan(tools, plan_id, Watcher(on_progress=lambda _: tools.stop.set()))
    status = plan_status(database, plan_id)
    assert status.state is PlanState.DONE
    assert status.note is not None
    assert "stopped early" in status.note


def test_a_full_disk_does_not_lose_the_plan(database: Database) -> None:
    plan_id = _ask(database)
    run_plan(_tools(database, stubs.make_well, Writer(full=True)), plan_id)
    status = plan_status(database, plan_id)
    assert status.state is PlanState.DONE
    assert status.has_sheet
    assert status.note is not None
    assert status.note.count("No space left on device") == 1


def test_an_error_of_a_watcher_does_not_leave_the_run_running(database: Database) -> None:
    def fall_over(_: object) -> None:
        raise KeyboardInterrupt

    plan_id = _ask(database)
    with pytest.raises(KeyboardInterrupt):
        run_plan(_tools(database, stubs.make_slowly), plan_id, Watcher(on_progress=fall_over))
    assert plan_status(database, plan_id).state is PlanState.FAILED


def test_runs_of_a_program_that_fell_silent_are_failed(database: Database) -> None:
    plan_id = _ask(database)
    settle_lost_runs(database, lambda: NOW + LOST_AFTER)
    assert plan_status(database, plan_id).state is PlanState.QUEUED
    settle_lost_runs(database, lambda: NOW + LOST_AFTER + dt.timedelta(seconds=1))
    status = plan_status(database, plan_id)
    assert status.state is PlanState.FAILED
    assert status.error is not None
    assert "Start it again" in status.error


def test_a_trace_is_read_by_item_and_an_unknown_item_is_named(database: Database) -> None:
    plan_id = _ask(database)
    run_plan(_tools(database, stubs.make_well), plan_id)
    traces = read_traces(plan_texts(database, plan_id).traces)
    assert trace_of(traces, "onion").grams == 3529.4
    with pytest.raises(NotFoundError, match=r"item: leek: .*Use one of: onion"):
        trace_of(traces, "leek")
    with pytest.raises(NotFoundError, match=r"item: onoin: .*Did you mean onion\?"):
        trace_of(traces, "onoin")
    with pytest.raises(NotFoundError, match=r"item: onion: .*plan the day anew"):
        trace_of({}, "onion")


def test_runs_that_are_not_there_are_named(database: Database) -> None:
    unknown = uuid.uuid4()
    with pytest.raises(NotFoundError, match=str(unknown)):
        plan_status(database, unknown)
    with pytest.raises(NotFoundError, match="kitchen: nowhere"):
        request_plan(database, "nowhere", None, PlanChoices(), actor="api", now=lambda: NOW)
    assert list_plans(database, limit=5) == ()
