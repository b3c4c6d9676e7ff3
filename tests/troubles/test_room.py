"""How much of a resource is missing for what is not made, and whether hands are free for it."""

from planner.schedule.assemble import incumbent_of
from planner.schedule.problem import (
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Resource,
    Task,
    Wait,
    Worker,
)
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Assignment, Lead, Timetable
from planner.troubles.room import Want, hands_are_free, most_wanted


def day(
    made: list[tuple[int, int]],
    wanted: list[int],
    *,
    capacity: int = 1,
    alone: int = 50,
    until: int = 600,
    minutes: int = 10,
    waits: tuple[Wait, ...] = (),
) -> tuple[bool, Want | None]:
    """Hands free, and what is missing, for lots that are not made and want so many units each.

    ``made`` are (start, units) of lots that are. Each lot takes ``minutes`` of the one cook's hands
    and ``alone`` more in the oven, between 08:00 and ``until``.
    """
    units = [*(units for _, units in made), *wanted]
    problem = Problem(
        start=480,
        horizon=until,
        workers=(Worker("ana", 480, until, until),),
        resources=(Resource("equipment:oven", capacity),),
        families=(Family("roast", "beet", "oven", Hygiene(), 0),),
        tasks=tuple(
            Task(f"t{n}", n, 0, {0: minutes}, 480, until=until - alone) for n in range(len(units))
        ),
        jobs=tuple(Job(f"j{n}", (n,)) for n in range(len(units))),
        waits=waits,
        holds=tuple(Hold(0, n, n, count, alone) for n, count in enumerate(units)),
    )
    table = Timetable(
        tuple(Assignment(n, 0, at, at + minutes, Lead()) for n, (at, _) in enumerate(made))
    )
    tables = tables_of(problem)
    plan, jobs = incumbent_of(tables, table), range(len(made), len(units))
    return hands_are_free(tables, plan, jobs), most_wanted(tables, plan, jobs)


def test_an_oven_with_room_lacks_nothing() -> None:
    """One hour in use of two."""
    assert day([(480, 1)], [1]) == (True, None)


def test_an_oven_in_use_all_day_lacks_what_is_wanted() -> None:
    assert day([(480, 1), (540, 1)], [1]) == (True, Want(0, 60))


def test_room_in_two_pieces_lacks_what_is_in_the_way_at_the_best_moment() -> None:
    """Free until 08:50 and from 09:50 on: ten minutes are in use whenever the hour begins."""
    assert day([(530, 1)], [1]) == (True, Want(0, 10))


def test_food_that_is_made_is_there_when_the_plan_has_it_done() -> None:
    """The oven is free from 08:00 to 09:00, but what goes into it is only ready at 08:10."""
    made = [(480, 0), (540, 1)]
    assert day(made, [1])[1] is None
    assert day(made, [1], waits=(Wait(0, 2),))[1] == Want(0, 10)


def test_lots_that_each_find_room_but_not_together_lack_the_rest() -> None:
    """Three hours wanted of two."""
    assert day([], [1, 1, 1]) == (True, Want(0, 60))


def test_a_lot_that_takes_more_than_there_is_lacks_it_for_as_long_as_it_lasts() -> None:
    assert day([], [3], capacity=1) == (True, Want(0, 120))


def test_hands_that_are_full_are_not_free() -> None:
    """Fifty of Ana's sixty minutes are taken, by what leaves the oven at once."""
    free, _ = day([(480, 0), (530, 0)], [1], alone=0, minutes=50, until=580)
    assert not free
