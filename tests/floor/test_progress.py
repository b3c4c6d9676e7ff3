"""Where batches stand, and what runs by itself."""

from planner.floor.progress import Stage, alone_of, current, progress_of, timers_of
from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Act, Tick
from tests.web.floor.example import first, floor_sheet, tick

SHEET = floor_sheet()
COOK = SHEET.cooks[1]
ROAST = first(SHEET, COOK.cook, operation_name="Roast", part="work")
OUT = first(SHEET, COOK.cook, operation_name="Roast", part="finish")


def _tick(key: str, act: Act, at: float, *tasks: str) -> Tick:
    return Tick(key, act, at, COOK.cook, tasks)


def test_a_batch_is_done_when_all_its_tasks_are() -> None:
    tasks = [task.id for task in ROAST.tasks]
    part = floor_of([_tick("a", Act.DONE, 380, *tasks[:-1])])
    stages = progress_of(COOK, part)
    at_hand = current(stages)
    assert at_hand is not None
    assert (at_hand.batch.number, at_hand.stage) == (ROAST.number, Stage.UNDER_WAY)
    whole = floor_of([_tick("a", Act.DONE, 380, *tasks[:-1]), _tick("b", Act.DONE, 384, tasks[-1])])
    found = next(one for one in progress_of(COOK, whole) if one.batch.number == ROAST.number)
    assert found.done is not None
    assert (found.stage, found.done.at) == (Stage.DONE, 384)


def test_each_lot_runs_from_its_own_start_until_it_is_taken_out() -> None:
    tasks = [task.id for task in ROAST.tasks]
    ticks = [_tick("a", Act.DONE, 380, tasks[0]), _tick("b", Act.DONE, 384, tasks[1])]
    dues = [(timer.task, timer.due) for timer in timers_of(SHEET, floor_of(ticks))]
    alone = ROAST.unattended
    assert dues == [(tasks[0], 380 + alone), (tasks[1], 384 + alone)]
    out = _tick("c", Act.DONE, 430, OUT.tasks[0].id)
    assert [timer.task for timer in timers_of(SHEET, floor_of([*ticks, out]))] == [tasks[1]]


def test_an_answered_alarm_ends_only_what_nobody_takes_out() -> None:
    ends = {one.task: one.take_out for one in alone_of(SHEET)}
    left = next(task for task, take_out in ends.items() if take_out is None)
    taken = ROAST.tasks[0].id
    ticks = [_tick("a", Act.DONE, 380, left, taken), _tick("b", Act.HEARD, 500, left, taken)]
    assert [timer.task for timer in timers_of(SHEET, floor_of(ticks))] == [taken]


def test_all_that_may_run_alone_is_known_before_anything_is_said() -> None:
    assert timers_of(SHEET, Floor()) == ()
    known = {one.task: one for one in alone_of(SHEET)}
    assert known[ROAST.tasks[0].id].take_out == OUT.tasks[0].id
    assert known[ROAST.tasks[0].id].taken_out_by == COOK.cook


def test_a_problem_stays_with_its_batch() -> None:
    floor = floor_of([tick(Act.PROBLEM, ROAST, 380, reason="Equipment fails")])
    told = {one.batch.number: one.problems for one in progress_of(COOK, floor)}
    assert told[ROAST.number] == ("Equipment fails",)
    assert sum(map(len, told.values())) == 1
