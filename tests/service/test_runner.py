import datetime as dt
import time
import uuid
from collections.abc import Callable

import pytest

from service.clock import utc_now
from service.db.unit_of_work import Database
from service.planning import Made, MakePlan
from service.runner import Runner
from service.usecases.kitchens import store_kitchen
from service.usecases.plans import plan_status, plan_texts, request_plan
from service.usecases.running import RunTools
from service.values import PlanChoices, PlanState, PlanStatus
from tests.service import stubs


def _write_nothing(plan_id: uuid.UUID, made: Made, whole: bool) -> None:
    del plan_id, made, whole


def _runner(database: Database, make: MakePlan) -> Runner:
    return Runner(RunTools(database, make, _write_nothing, utc_now), beat_seconds=0.1)


def _ask(database: Database, at: dt.datetime | None = None) -> uuid.UUID:
    store_kitchen(database, stubs.kitchen_bytes(), actor="api", now=utc_now)
    now = utc_now if at is None else lambda: at
    return request_plan(database, "test-kitchen", None, PlanChoices(), actor="api", now=now).id


def _wait(
    database: Database, plan_id: uuid.UUID, until: Callable[[PlanStatus], bool]
) -> PlanStatus:
    deadline = time.monotonic() + 30
    while time.monotonic() < deadline:
        status = plan_status(database, plan_id)
        if until(status):
            return status
        time.sleep(0.05)
    pytest.fail(f"still {status.state} after 30 s")


def test_runs_are_done_in_the_background_one_after_the_other(database: Database) -> None:
    runner = _runner(database, stubs.make_well)
    runner.start()
    first, second = _ask(database), _ask(database)
    runner.submit(first)
    runner.submit(second)
    done = _wait(database, second, lambda status: status.state.ended)
    assert done.state is PlanState.DONE
    earlier = plan_status(database, first)
    assert earlier.finished_at is not None
    assert done.started_at is not None
    assert earlier.finished_at <= done.started_at
    runner.stop()


def test_a_failed_run_does_not_stop_the_next(database: Database) -> None:
    runner = _runner(database, stubs.make_refusal)
    runner.start()
    for plan_id in (_ask(database), _ask(database)):
        runner.submit(plan_id)
        assert _wait(database, plan_id, lambda s: s.state.ended).state is PlanState.FAILED
    runner.stop()


def test_stopping_ends_the_run_in_hand_and_fails_those_that_wait(database: Database) -> None:
    runner = _runner(database, stubs.make_slowly)
    runner.start()
    running, waiting = _ask(database), _ask(database)
    runner.submit(running)
    runner.submit(waiting)
    _wait(database, running, lambda status: bool(status.progress))
    runner.stop()
    assert plan_status(database, running).state is PlanState.DONE
    assert "stopped early" in str(plan_status(database, running).note)
    assert plan_status(database, waiting).state is PlanState.FAILED


def test_enough_of_one_run_ends_it_with_its_best_and_the_next_runs_on(database: Database) -> None:
    told: list[uuid.UUID] = []
    tools = RunTools(database, stubs.make_until_stopped, _write_nothing, utc_now)
    runner = Runner(tools, beat_seconds=0.1, tell=told.append)
    runner.start()
    first, second = _ask(database), _ask(database)
    runner.submit(first)
    runner.submit(second)
    _wait(database, first, lambda status: bool(status.progress))
    assert runner.enough(first)
    done = _wait(database, first, lambda status: status.state.ended)
    assert (done.state, "stopped early" in str(done.note)) == (PlanState.DONE, True)
    assert plan_texts(database, first).document == '{"origin": "best so far"}'
    _wait(database, second, lambda status: len(status.progress) > 2)
    assert plan_status(database, second).state is PlanState.RUNNING
    assert runner.enough(first) is False, "it is done already"
    assert first in told
    runner.stop()


def test_a_run_that_waits_is_taken_back_by_enough(database: Database) -> None:
    runner = _runner(database, stubs.make_slowly)
    waiting = _ask(database)
    runner.submit(waiting)
    assert runner.enough(waiting)
    runner.start()
    assert _wait(database, waiting, lambda s: s.state.ended).state is PlanState.FAILED
    runner.stop()


def test_runs_left_behind_by_a_killed_program_are_failed_at_the_start(
    database: Database,
) -> None:
    left = _ask(database, utc_now() - dt.timedelta(hours=1))
    mine = _ask(database, utc_now() - dt.timedelta(hours=1))
    runner = _runner(database, stubs.make_well)
    runner.submit(mine)
    runner.start()
    assert _wait(database, left, lambda s: s.state.ended).state is PlanState.FAILED
    assert _wait(database, mine, lambda s: s.state.ended).state is PlanState.DONE
    runner.stop()
