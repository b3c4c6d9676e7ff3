"""What has really begun, worked out from a plan of which every minute is known."""

from planner.lots.types import Part
from planner.replan.begun import Begun, standing
from planner.replan.course import Course, as_told
from planner.replan.events import (
    CookGone,
    CookLate,
    EquipmentDown,
    Event,
    Overran,
    Progress,
    Spoiled,
)
from tests.kitchens.plans import ANA, BEN
from tests.replan.mornings import (
    DICE,
    DICE_STOCK,
    PEEL,
    ROAST,
    SIMMER,
    lot_id,
    tiny_course,
)


def begun_at(now: int, *events: Event, course: Course | None = None) -> dict[int, Begun]:
    return standing(course or tiny_course(), now, events).by_lot


def test_before_the_first_minute_nothing_has_begun() -> None:
    assert begun_at(610) == {}


def test_a_lot_has_begun_with_its_set_up() -> None:
    """Ben sets up at 10:10 and peels from 10:14 to 10:23."""
    assert set(begun_at(611)) == {PEEL}
    assert standing(tiny_course(), 611).busy == {BEN: 623}


def test_what_is_in_the_pot_has_its_take_out_left() -> None:
    one = begun_at(700)[SIMMER]
    assert (one.work_end, one.ready, one.worker) == (655, 655 + 180, ANA)
    assert one.under_way
    assert one.to_take_out
    assert len(one.left) == 1


def test_what_is_taken_out_is_ready_when_that_ends() -> None:
    """The stock is taken out at 14:00; its 180 minutes were over at 13:55."""
    one = begun_at(850)[SIMMER]
    assert (one.ready, one.left) == (847, ())


def test_a_cook_who_left_has_not_begun_what_came_after() -> None:
    course = tiny_course()
    assert set(begun_at(700, CookGone("ben", 625), course=course)) == {PEEL}


def test_hands_alone_leave_a_part_done_and_a_pot_does_not() -> None:
    """Ben dices from 10:28 to 10:42 and leaves after half of it; Ana leaves at her pot."""
    assert begun_at(660, CookGone("ben", 635))[DICE].share == 0.5
    assert SIMMER not in begun_at(660, CookGone("ana", 653))


def test_what_was_to_come_after_unmade_food_has_not_begun_either() -> None:
    """Without Ben's dice there is no stock to set on, whatever the plan says of Ana."""
    assert SIMMER not in begun_at(700, CookGone("ben", 625))


def test_a_cook_who_is_late_has_done_nothing_before() -> None:
    assert begun_at(700, CookLate("ben", 720)) == {}


def test_an_overrun_of_hands_keeps_the_cook_and_puts_off_the_next() -> None:
    """Told at 10:30, when the plan has Ben at the dice: he still peels."""
    day = standing(tiny_course(), 630, (Overran(lot_id(tiny_course(), PEEL), 640),))
    assert set(day.by_lot) == {PEEL}
    assert day.busy == {BEN: 640}


def test_an_overrun_of_what_goes_on_by_itself_puts_off_its_take_out() -> None:
    day = standing(tiny_course(), 845, (Overran(lot_id(tiny_course(), SIMMER), 900),))
    one = day.by_lot[SIMMER]
    assert (one.ready, len(one.left)) == (900, 1)
    assert day.busy == {}


def test_spoiled_food_keeps_nobody() -> None:
    course = tiny_course()
    day = standing(course, 635, (Spoiled(lot_id(course, DICE)),))
    assert day.by_lot[DICE].spoiled
    assert day.busy == {}


def test_equipment_down_takes_the_last_begun_out_of_it() -> None:
    """Ana's thighs have both trays; of two, one is not enough."""
    course = tiny_course()
    day = standing(course, 820, (EquipmentDown("tray", 1),))
    assert [lot.index for lot in day.interrupted] == [ROAST]
    assert ROAST not in day.by_lot
    assert SIMMER in day.by_lot


def test_equipment_down_until_before_now_does_nothing() -> None:
    assert standing(tiny_course(), 820, (EquipmentDown("tray", 2, 815),)).interrupted == ()


def test_late_food_that_was_not_there_was_not_worked_on() -> None:
    day = standing(tiny_course(), 700, (), {"onion": 10.0})
    assert day.by_lot == {}


def test_the_floor_has_the_last_word() -> None:
    """Ben says he is still peeling at 10:30, and that Ana diced for the stock."""
    course = tiny_course()
    peel, small = (course.workload.lots[lot].tasks[0].task for lot in (PEEL, DICE_STOCK))
    told = as_told(course, [Progress(peel, "ben", 620), Progress(small, "ana", 624, 626)], 630)
    day = standing(told, 630)
    assert day.ended[peel] == 631
    assert day.busy == {BEN: 631}
    assert day.by_lot[DICE_STOCK].worker == ANA


def test_the_floor_may_say_that_a_task_has_not_begun() -> None:
    course = tiny_course()
    peel = course.workload.lots[PEEL].tasks[0].task
    told = as_told(course, [Progress(peel, "ben", 640)], 630)
    assert standing(told, 630).by_lot == {}


def test_every_part_of_a_lot_is_done_or_left() -> None:
    for now in range(600, 900, 7):
        day = standing(tiny_course(), now)
        for one in day.begun:
            parts = {item.task for item in one.lot.tasks if item.part is not Part.CHECK}
            assert parts == {t for t in parts if t in day.ended} | (parts & set(one.left))
