"""Lines of a day and their sums: every minute is somewhere, once; what is not timed is apart."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.floor.days import day_labor
from planner.floor.lines import BatchLine, batch_lines
from planner.floor.progress import Stage
from planner.floor.state import Floor, floor_of
from planner.floor.sums import Amounts, amounts_of, labor_sums, whole_sum
from planner.floor.ticks import Act, Tick
from planner.sheet.batch_types import DishShare, SheetBatch
from planner.sheet.types import Away, KitchenSheet
from tests.web.floor.example import floor_sheet, tick, worked_until


@pytest.fixture(scope="module")
def sheet() -> KitchenSheet:
    return floor_sheet()


def _two(sheet: KitchenSheet) -> tuple[SheetBatch, SheetBatch]:
    first, second = sheet.cooks[0].batches[:2]
    return first, second


def _line(lines: tuple[BatchLine, ...], number: int) -> BatchLine:
    return next(line for line in lines if line.number == number)


@given(
    planned=st.integers(0, 300),
    took=st.none() | st.integers(0, 20_000),
    grams=st.lists(st.floats(0, 1e5), min_size=1, max_size=9),
)
def test_a_batch_of_many_dishes_is_shared_out_whole(
    planned: int, took: int | None, grams: list[float]
) -> None:
    line = BatchLine(
        "ana", "Ana", 1, "Dice", "Onion", "work", "Board",
        tuple((f"Dish {i}", each) for i, each in enumerate(grams)),
        480, None, planned, 3, 1000.0, Stage.DONE, took, 130, 61, 0, (),
    )  # fmt: skip
    sums = labor_sums([line], lambda one: one.dishes)
    whole = amounts_of(line)
    for name in ("planned", "leads", "planned_timed", "took", "worked", "changeover", "waiting"):
        assert sum(getattr(one.amounts, name) for one in sums) == getattr(whole, name)


def test_the_shares_of_a_dish_follow_its_grams(sheet: KitchenSheet) -> None:
    batch = replace(
        _two(sheet)[0],
        hands_on=10,
        dish_shares=(
            DishShare("Soup", "Soup (Lunch)", 300),
            DishShare("Stew", "Stew (Lunch)", 100),
            DishShare("Soup", "Soup (Dinner)", 100),
        ),
    )
    one = replace(sheet, cooks=(replace(sheet.cooks[0], batches=(batch,)),))
    lines = batch_lines(one, floor_of([]))
    sums = labor_sums(lines, lambda line: line.dishes)
    assert [(found.name, found.amounts.planned) for found in sums] == [("Soup", 8), ("Stew", 2)]


def test_an_old_sheet_shares_equally_and_knows_dishes_by_their_names(sheet: KitchenSheet) -> None:
    batch = replace(
        _two(sheet)[0], dishes=("Soup (Lunch)", "Soup (Dinner, Thu 26 Nov)", "Stew (L)")
    )
    one = replace(sheet, cooks=(replace(sheet.cooks[0], batches=(batch,)),))
    assert batch_lines(one, Floor())[0].dishes == (("Soup", 2.0), ("Stew", 1.0))


def test_every_way_to_sum_keeps_every_minute(sheet: KitchenSheet) -> None:
    lines = batch_lines(sheet, floor_of(worked_until(sheet, 2000)))
    whole = whole_sum(lines)
    assert whole.batches == len(lines)
    assert whole.amounts.took > 0
    for key in (
        lambda line: ((line.station, 1.0),),
        lambda line: ((line.cook_name, 1.0),),
        lambda line: line.dishes,
    ):
        sums = labor_sums(lines, key)
        assert sum(one.amounts.took for one in sums) == whole.amounts.took
        assert sum(one.amounts.planned for one in sums) == whole.amounts.planned
    assert whole_sum(()).amounts == Amounts()


def _gap(sheet: KitchenSheet, done: float, begun: float, start: int, lead: int) -> BatchLine:
    """The second of two batches of a cook, between which the clock went from done to begun."""
    cook = sheet.cooks[0]
    one, two = _two(sheet)
    two = replace(two, start=start, set_up=lead, changeover=0, hand_wash=0, clean=0, hands_on=10)
    changed = replace(
        sheet, cooks=(replace(cook, batches=(one, two), away=(Away("break", 610, 620),)),)
    )
    ticks = [
        tick(Act.BEGUN, one, done - one.hands_on),
        tick(Act.DONE, one, done),
        tick(Act.BEGUN, two, begun),
        tick(Act.DONE, two, begun + 10),
    ]
    return _line(batch_lines(changed, floor_of(ticks)), two.number)


def test_before_its_time_a_cook_waits_and_after_it_changes_over(sheet: KitchenSheet) -> None:
    line = _gap(sheet, done=540, begun=556, start=550, lead=4)
    assert (line.changeover, line.waiting) == (6 * 60, 10 * 60)


def test_who_is_behind_only_changes_over(sheet: KitchenSheet) -> None:
    line = _gap(sheet, done=560, begun=567, start=550, lead=4)
    assert (line.changeover, line.waiting) == (7 * 60, 0)


def test_who_begins_early_has_changed_over_all_the_same(sheet: KitchenSheet) -> None:
    line = _gap(sheet, done=530, begun=545, start=550, lead=4)
    assert (line.changeover, line.waiting) == (4 * 60, 11 * 60)


def test_a_break_between_two_batches_is_neither(sheet: KitchenSheet) -> None:
    line = _gap(sheet, done=608, begun=623, start=600, lead=4)
    assert (line.changeover, line.waiting) == (5 * 60, 0)


def test_the_first_batch_of_a_cook_has_no_gap_that_is_known(sheet: KitchenSheet) -> None:
    one, _ = _two(sheet)
    ticks = [tick(Act.BEGUN, one, 500), tick(Act.DONE, one, 520)]
    line = _line(batch_lines(sheet, floor_of(ticks)), one.number)
    assert (line.changeover, line.waiting) == (None, None)
    assert line.lead_worked == line.lead * 60


def test_beside_a_batch_that_was_not_timed_no_gap_is_known(sheet: KitchenSheet) -> None:
    one, two, three = sheet.cooks[0].batches[:3]
    ticks = [
        tick(Act.BEGUN, one, 400),
        tick(Act.DONE, one, 420),
        tick(Act.DONE, two, 460),
        tick(Act.BEGUN, three, 465),
        tick(Act.DONE, three, 480),
    ]
    lines = batch_lines(sheet, floor_of(ticks))
    assert [_line(lines, batch.number).changeover for batch in (one, two, three)] == [None] * 3


def test_what_was_ticked_at_once_afterwards_is_done_and_not_timed(sheet: KitchenSheet) -> None:
    one, _ = _two(sheet)
    assert one.hands_on >= 2
    ticks = [tick(Act.BEGUN, one, 700), tick(Act.DONE, one, 700.1)]
    line = _line(batch_lines(sheet, floor_of(ticks)), one.number)
    assert (line.stage, line.took, line.assumed) == (Stage.DONE, None, True)
    assert line.worked == one.hands_on * 60


def test_a_day_worked_by_plan_differs_in_nothing(sheet: KitchenSheet) -> None:
    day = day_labor(sheet, sheet, floor_of(worked_until(sheet, 5000)), 1)
    assert day.split.volume == day.split.mix == 0
    assert day.covers == sum(one.covers for one in sheet.services if one.date == sheet.date)


def test_a_batch_that_was_not_done_is_less_volume(sheet: KitchenSheet) -> None:
    left = _two(sheet)[0]
    ticks = [
        one for one in worked_until(sheet, 5000) if not set(one.tasks) & {t.id for t in left.tasks}
    ]
    day = day_labor(sheet, sheet, floor_of(ticks), 1)
    assert day.split.volume < 0
    assert day.split.volume + day.split.mix == -left.hands_on * 60
    assert day.money.total == sum(
        (day.money.volume, day.money.mix, day.money.rate, day.money.changeover, day.money.wage)
    )


def test_work_of_a_new_release_is_judged_against_the_plan_of_the_morning(
    sheet: KitchenSheet,
) -> None:
    cook = sheet.cooks[0]
    dropped = cook.batches[0]
    after = replace(sheet, cooks=(replace(cook, batches=cook.batches[1:]), *sheet.cooks[1:]))
    ticks: list[Tick] = worked_until(after, 5000)
    day = day_labor(sheet, after, floor_of(ticks), 2)
    assert day.split.plan == day_labor(sheet, sheet, Floor(), 1).split.plan
    assert day.split.volume + day.split.mix == -dropped.hands_on * 60
