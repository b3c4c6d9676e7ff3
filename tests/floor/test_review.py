"""Planned against ticked minutes: what is timed is compared, what is not is said apart."""

import datetime as dt
from dataclasses import replace

import pytest

from planner.floor.progress import Stage, timers_of
from planner.floor.review import batch_reviews, cook_days
from planner.floor.state import floor_of
from planner.floor.ticks import Act, Tick
from planner.sheet.types import Away, KitchenSheet
from tests.web.example import example_sheet


def said(act: Act, at: float, *tasks: str, key: str = "") -> Tick:
    return Tick(key or f"{act}{at}{tasks}", act, at, "ana", tasks)


@pytest.fixture(scope="module")
def sheet() -> KitchenSheet:
    return example_sheet()


def ids(sheet: KitchenSheet, cook: int, batch: int) -> tuple[str, ...]:
    return tuple(task.id for task in sheet.cooks[cook].batches[batch].tasks)


def test_a_batch_takes_from_begin_to_end_less_the_planned_break(sheet: KitchenSheet) -> None:
    cook = replace(sheet.cooks[0], away=(Away("break", 610, 625),))
    rested = replace(sheet, cooks=(cook, *sheet.cooks[1:]))
    work = ids(sheet, 0, 0)
    floor = floor_of([said(Act.BEGUN, 600, *work), said(Act.DONE, 650.5, *work)])
    review = batch_reviews(rested, floor)[0]
    assert review.took == pytest.approx(35.5)
    assert review.over == pytest.approx(35.5 - review.planned)
    assert review.stage is Stage.DONE


def test_a_batch_that_was_only_ticked_done_is_done_and_not_timed(sheet: KitchenSheet) -> None:
    review = batch_reviews(sheet, floor_of([said(Act.DONE, 650, *ids(sheet, 0, 0))]))[0]
    assert review.stage is Stage.DONE
    assert review.took is None


def test_a_cook_is_at_work_between_batches_or_away(sheet: KitchenSheet) -> None:
    first, second = ids(sheet, 0, 0), ids(sheet, 0, 1)
    floor = floor_of(
        [
            said(Act.BEGUN, 400, *first),
            said(Act.DONE, 420, *first),
            said(Act.BEGUN, 427, *second),
            said(Act.DONE, 440, *second),
        ]
    )
    day = cook_days(sheet, batch_reviews(sheet, floor))[0]
    away = sum(max(0, min(440, one.end) - max(400, one.start)) for one in sheet.cooks[0].away)
    assert (day.first, day.last) == (400, 440)
    assert day.at_work + day.between + day.away == pytest.approx(40)
    assert day.away == away


def test_a_timer_runs_from_the_tick_until_it_is_taken_out(sheet: KitchenSheet) -> None:
    cook = sheet.cooks[0]
    batch = cook.batches[0]
    task = replace(batch.tasks[0], part="work", unattended=45, lot="7", id="7:bake")
    out = replace(batch.tasks[0], part="finish", lot="7", id="7:bake:finish")
    batches = (replace(batch, tasks=(task,)), replace(batch, number=99, tasks=(out,)))
    one = replace(sheet, date=dt.date(2026, 1, 2), cooks=(replace(cook, batches=batches),))
    put_on = said(Act.DONE, 600.5, "7:bake")
    assert timers_of(one, floor_of([])) == ()
    (timer,) = timers_of(one, floor_of([put_on]))
    assert (timer.due, timer.take_out) == (645.5, "7:bake:finish")
    assert timers_of(one, floor_of([put_on, said(Act.HEARD, 646, "7:bake")])) == (timer,)
    assert timers_of(one, floor_of([put_on, said(Act.DONE, 650, "7:bake:finish")])) == ()
