"""What is counted as left short or late, and which of two ends is better for guests."""

from planner.plan import Trouble
from planner.schedule.problem import (
    Family,
    Hygiene,
    Job,
    Problem,
    Promise,
    Serving,
    Task,
    Worker,
)
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Assignment, Lead, Timetable
from planner.troubles.left import Left, least, left
from planner.troubles.plated import Lack, Plated

PLATE, PAR = "dinner:plate", "the kitchen:stock"
NOTHING = Plated()


def day(*, missing: str = "") -> Problem:
    """Ham for seven plates and stock for the kitchen itself, each due at 09:00."""
    return Problem(
        start=480,
        horizon=1020,
        workers=(Worker("ana", 480, 1020, 1020),),
        resources=(),
        families=(Family("cut", "pork", "board", Hygiene(), 0),),
        tasks=tuple(Task(f"t{n}", n, 0, {0: 10}, 480, due=540) for n in range(2)),
        jobs=(
            Job("ham", (0,), serves=(Serving(0, "ham", 7),), impossible=missing),
            Job("stock", (1,), serves=(Serving(1, "stock", 4),)),
        ),
        promises=(Promise(PLATE, 7, 3), Promise(PAR, 1)),
    )


def made(*ends: tuple[int, int]) -> Timetable:
    return Timetable(tuple(Assignment(task, 0, end - 10, end, Lead()) for task, end in ends))


def test_guests_and_the_kitchens_own_are_counted_apart_and_without_weights() -> None:
    assert left(day(), made(), NOTHING) == Left({PLATE: 7}, 4)
    assert left(day(), made((0, 545), (1, 560)), NOTHING) == Left({}, 0, 5, 20)


def test_a_dish_is_as_short_as_what_it_lacks_most_of_plated_food_among_it() -> None:
    for lacking, short in ((5, 7), (9, 9)):
        plated = Plated((Lack(PLATE, "cream", lacking, 0),))
        assert left(day(), made((1, 500)), plated).short == {PLATE: short}


def test_plated_food_that_comes_late_is_late_whatever_is_made() -> None:
    plated = Plated((), (Trouble("late", "cream", "", 12, 7, ""),))
    assert left(day(), made((0, 500), (1, 500)), plated).late == 12


def test_no_plan_leaves_less_than_what_none_can_make() -> None:
    plated = Plated((Lack("dinner:soup", "salt", 2, 0),))
    assert least(tables_of(day(missing="no pork")), plated).short == {PLATE: 7, "dinner:soup": 2}
    assert not any(least(tables_of(day()), NOTHING).rank)


def test_guests_come_before_the_kitchens_own_par() -> None:
    """Ten kilos of stock are not worth a minute that guests wait."""
    before = Left({PLATE: 25}, 10, 68)
    assert not Left({PLATE: 25}, 0, 164).helps(before)
    assert Left({PLATE: 25}, 10, 60).helps(before)
    assert Left({PLATE: 25}, 0, 68).helps(before)
    assert Left({PLATE: 25}, 12, 60).rank < Left({PLATE: 25}, 0, 68).rank


def test_other_guests_go_short_or_are_late_only_where_more_are_served() -> None:
    before = Left({PLATE: 25}, late=30)
    assert not Left({"dinner:soup": 25}).helps(before)
    assert Left({"dinner:soup": 1}, late=60).helps(before)
    assert Left({PLATE: 20}, late=60).helps(before)
    assert not Left({PLATE: 26}).helps(before)
