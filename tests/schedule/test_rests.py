"""Breaks that the plan places, and work put down over them: each choice flips with its cost."""

from dataclasses import replace

import pytest

from planner.check.timetable import check_timetable
from planner.schedule.capacity import free_minutes
from planner.schedule.construct import constructive_plans
from planner.schedule.problem import Family, Hygiene, Job, Problem, Promise, Rest, Task, Worker
from planner.schedule.problem import Serving as Serves
from planner.schedule.rests import first_slots, make_way, slots_of
from planner.schedule.search import SearchOptions, solve
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Solution, Status
from tests.kitchens.problems import at


def morning(*tasks: Task, rests: tuple[Rest, ...]) -> Problem:
    """One cook, in from 08:00 for an hour and no longer; every task a lot of its own."""
    return Problem(
        start=at(0),
        horizon=at(60),
        workers=(Worker("a", at(0), at(60), at(60), rests=rests),),
        resources=(),
        families=(Family("cut", "onion", "board", Hygiene(), 0),),
        tasks=tasks,
        jobs=tuple(
            Job(task.id, (index,), serves=(Serves(index, "all", 1),))
            for index, task in enumerate(tasks)
        ),
        promises=tuple(Promise(task.id, 1) for task in tasks),
    )


def task(lot: int, minutes: int, due: int, release: int = 0, *, pausable: bool = False) -> Task:
    return Task(
        f"lot {lot}",
        lot,
        0,
        {0: minutes},
        at(release),
        due=at(due),
        until=at(60),
        pausable=pausable,
    )


def best(problem: Problem) -> Solution:
    found = solve(problem, SearchOptions(seconds=5, workers=1))
    assert found.status is Status.OPTIMAL
    return found


def rest_of(problem: Problem, found: Solution) -> tuple[int, int]:
    ((slot,),) = slots_of(problem, found.timetable)
    return slot


def test_a_break_goes_where_the_work_leaves_it_room() -> None:
    """Twenty minutes, due at 20: a break that is fixed at 10 leaves room from 20 to 40 only."""
    work = task(0, 20, 20)
    fixed = morning(work, rests=(Rest(10, at(10), at(10)),))
    assert best(fixed).score.tardiness == 40 - 20
    moves = morning(work, rests=(Rest(10, at(10), at(20)),))
    found = best(moves)
    assert found.score.tardiness == 0
    assert rest_of(moves, found) == (at(20), at(30))


def test_a_break_goes_before_the_work_where_that_is_due_late_and_the_window_ends_early() -> None:
    late = morning(task(0, 20, 40, release=15), rests=(Rest(10, at(5), at(20)),))
    found = best(late)
    assert found.score.tardiness == 0
    assert rest_of(late, found)[1] <= at(15)


@pytest.mark.parametrize(("minutes", "start"), [(20, 0), (40, 0), (12, 0)])
def test_work_is_put_down_over_a_break_where_that_is_sooner(minutes: int, start: int) -> None:
    """The break is at 10: work of 20 minutes ends at 30 with a pause, else at 40."""
    rests = (Rest(10, at(10), at(10)),)
    whole = morning(task(0, minutes, 12), rests=rests)
    paused = morning(task(0, minutes, 12, pausable=True), rests=rests)
    assert best(whole).score.tardiness == minutes + 20 - 12
    found = best(paused)
    (done,) = found.timetable.assignments
    assert (done.start, done.end) == (at(start), at(minutes + 10))
    assert found.score.tardiness == minutes + 10 - 12
    assert found.score.labor == minutes


def test_work_that_fits_before_the_break_is_not_put_down_over_it() -> None:
    """What fits before the break goes there, what may pause goes around it: nothing is late."""
    problem = morning(
        task(0, 10, 10, pausable=True), task(1, 5, 25), rests=(Rest(10, at(10), at(10)),)
    )
    found = best(problem)
    assert found.score.tardiness == 0
    assert {a.end - a.start for a in found.timetable.assignments} == {10, 5}


def test_two_breaks_fall_into_one_long_task() -> None:
    rests = (Rest(5, at(10), at(12)), Rest(5, at(20), at(30)))
    problem = morning(task(0, 48, 60, pausable=True), rests=rests)
    found = best(problem)
    (done,) = found.timetable.assignments
    assert done.end - done.start == 58
    assert found.score.tardiness == 0


def test_every_constructive_plan_lets_breaks_make_way() -> None:
    problem = morning(
        task(0, 20, 20), task(1, 20, 60, release=25), rests=(Rest(10, at(10), at(45)),)
    )
    for _, timetable, score in constructive_plans(tables_of(problem)):
        assert (score.short, score.tardiness) == (0, 0)
        assert check_timetable(problem, timetable) == ()


COOK = Worker("a", 0, 100, 100, ((60, 70),), rests=(Rest(10, 20, 50), Rest(5, 80, 80)))
SLOTS = ((20, 30), (80, 85))


@pytest.mark.parametrize(
    ("stretch", "line", "slot"),
    [
        ((30, 30, 40), (), (20, 30)),
        ((15, 15, 35), (), (35, 45)),
        ((15, 15, 35), ((35, 42),), (42, 52)),
        ((25, 25, 60), (), (15, 25)),
        ((30, 32, 58), (), (20, 30)),
    ],
    ids=["is clear", "goes after", "beyond other work", "nowhere", "right before the lead"],
)
def test_a_break_in_the_way_goes_elsewhere_in_its_window(
    stretch: tuple[int, int, int], line: tuple[tuple[int, int], ...], slot: tuple[int, int]
) -> None:
    way = make_way(COOK, SLOTS, line, stretch, pausable=False)
    if slot[0] < COOK.rests[0].earliest:
        assert way.again == 30  # it stays, and the lead may begin when it is over
    else:
        assert way.again is None
        assert way.slots == (slot, (80, 85))


def test_a_fixed_break_is_no_room_to_work_but_a_pause_if_the_work_may() -> None:
    assert make_way(COOK, SLOTS, (), (75, 75, 90), pausable=False).again == 85
    way = make_way(COOK, SLOTS, (), (75, 75, 90), pausable=True)
    assert (way.again, way.end) == (None, 95)
    lead_in_break = make_way(COOK, SLOTS, (), (80, 82, 90), pausable=True)
    assert lead_in_break.again == 85


def test_breaks_that_do_not_fit_are_refused() -> None:
    worker = replace(COOK, blocked=((15, 65),))
    assert first_slots(worker) is None
    problem = replace(morning(rests=()), workers=(worker,))
    with pytest.raises(ValueError, match="rests of a do not fit"):
        tables_of(problem)


def test_the_minutes_there_are_lack_a_break_that_moves_only_where_it_cannot_leave() -> None:
    """Blocked 60 to 70, a break at 80 to 85, and one that starts from 20 to 50 for 10."""
    assert free_minutes(COOK, 0, 100) == 100 - 10 - 5 - 10
    assert free_minutes(COOK, 21, 100) == 79 - 10 - 5
    assert free_minutes(COOK, 20, 60) == 40 - 10
    assert free_minutes(COOK, 20, 59) == 39
