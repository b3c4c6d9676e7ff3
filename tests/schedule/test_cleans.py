"""Surfaces are cleaned after so long in use: when, at what cost, and never later."""

from dataclasses import replace

import pytest

from planner.check.timetable import check_timetable
from planner.labor.cleans import cleans_of
from planner.schedule.assemble import Choice, assemble
from planner.schedule.cleans import overdue
from planner.schedule.construct import construct
from planner.schedule.mend import mended
from planner.schedule.problem import (
    Changeovers,
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Promise,
    Resource,
    Serving,
    Task,
    Wait,
    Worker,
)
from planner.schedule.removal import state_of, take_out
from planner.schedule.search import SearchOptions, solve
from planner.schedule.state import State
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import Timetable
from planner.schedule.together import place_cluster

FAMILY = Family("dice", "onion", "board", Hygiene(), 0)
CHICKEN = Family("dice", "chicken", "board", Hygiene(raw_animal="poultry"), 0)
CLEAN = 5


def day(
    tasks: tuple[Task, ...],
    every: int | None,
    *,
    boards: int = 1,
    cooks: int = 1,
    holds: tuple[Hold, ...] = (),
    waits: tuple[Wait, ...] = (),
) -> Problem:
    """Lots on a board from minute 0 to 600: each task one of its own unless it says otherwise."""
    lots = sorted({task.lot for task in tasks})
    return Problem(
        start=0,
        horizon=600,
        workers=tuple(Worker(f"cook {n}", 0, 600, 600) for n in range(cooks)),
        resources=(Resource("board", boards, contact=True),),
        families=(FAMILY, CHICKEN),
        tasks=tasks,
        jobs=tuple(
            Job(
                f"lot {lot}",
                tuple(t for t, task in enumerate(tasks) if task.lot == lot),
                serves=(Serving(lot, "all", 1),),
            )
            for lot in lots
        ),
        waits=waits,
        holds=holds or tuple(Hold(0, t, t) for t in range(len(tasks))),
        promises=tuple(Promise(f"dish {lot}", 1) for lot in lots),
        changeovers=Changeovers(clean=CLEAN, clean_every=every),
    )


def released(*starts: int, minutes: int = 20, family: int = 0) -> tuple[Task, ...]:
    return tuple(
        Task(f"task {n}", n, family, {0: minutes}, start, due=start + minutes)
        for n, start in enumerate(starts)
    )


def solved(problem: Problem) -> Timetable:
    solution = solve(problem, SearchOptions(seconds=2.0, seed=1, workers=1))
    assert check_timetable(problem, solution.timetable) == ()
    assert solution.score.short == 0
    return solution.timetable


def cleans(problem: Problem) -> int:
    return cleans_of(tables_of(problem), solved(problem))[0]


@pytest.mark.parametrize(("every", "count"), [(None, 0), (300, 0), (240, 1), (90, 2)])
def test_a_long_day_on_one_board_has_as_many_cleans_as_the_clock_asks(
    every: int | None, count: int
) -> None:
    """Work at 0, 50, 100, ... 250, each 20 min: in use from 0 to 270."""
    assert cleans(day(released(*range(0, 300, 50)), every)) == count


def test_a_clean_is_charged_in_the_lead_of_the_task_after_it() -> None:
    found = solved(day(released(0, 100, 230), 240))
    third = found.assignments[2]
    assert (third.lead.clean, third.cleaned) == (CLEAN, (2,))
    assert [item.lead.clean for item in found.assignments[:2]] == [0, 0]


def test_cleaned_after_chicken_the_board_begins_anew() -> None:
    """Chicken to minute 120, onions from then to 330: never 240 minutes in one run."""
    tasks = released(0, 100, 130, 230, 310)
    tasks = tuple(replace(t, family=1 if n < 2 else 0) for n, t in enumerate(tasks))
    found = solved(day(tasks, 240))
    assert [item.lead.clean for item in found.assignments] == [0, 0, CLEAN, 0, 0]


def test_what_is_longer_than_the_clock_allows_is_done_alone() -> None:
    tasks = (*released(0, minutes=20), Task("long", 1, 0, {0: 300}, 20))
    found = solved(day(tasks, 240))
    assert found.assignments[1].cleaned == (1,)


@pytest.mark.parametrize(("boards", "count"), [(1, 1), (2, 0)])
def test_a_second_board_saves_the_clean(boards: int, count: int) -> None:
    assert cleans(day(released(0, 230), 240, boards=boards)) == count


@pytest.mark.parametrize(("clean", "cook"), [(2, 0), (5, 1)])
def test_a_slower_cook_who_comes_later_does_it_where_that_costs_less_than_a_clean(
    clean: int, cook: int
) -> None:
    """The quick one is in until 25 only: the board is in use from the morning then."""
    first = Task("first", 0, 0, {0: 20, 1: 24}, 0, until=100)
    problem = day((first, Task("second", 1, 0, {1: 20}, 230, due=260)), 240, cooks=2)
    quick, slow = problem.workers
    problem = replace(
        problem,
        workers=(replace(quick, blocked=((25, 600),)), replace(slow, blocked=((0, 30),))),
        changeovers=Changeovers(clean=clean, clean_every=240),
    )
    found = solved(problem)
    assert found.assignments[0].worker == cook
    assert found.assignments[1].lead.clean == (clean if cook == 0 else 0)


@pytest.mark.parametrize(("due", "count"), [(20, 1), (200, 0)])
def test_work_that_can_wait_begins_later_and_saves_a_clean(due: int, count: int) -> None:
    first = Task("first", 0, 0, {0: 20}, 0, due=due)
    assert cleans(day((first, Task("second", 1, 0, {0: 20}, 230, due=260)), 240)) == count


def kept(tables: Tables, state: State) -> Timetable:
    choices = {t: Choice(e.worker, e.start, e.end) for t, e in state.entries.items()}
    return assemble(tables, choices, state.unit_of, state.rests, state.cleaned())


def test_without_the_task_that_was_cleaned_for_the_next_one_is() -> None:
    problem = day(released(0, 230, 260), 240)
    tables = tables_of(problem)
    state = state_of(tables, solved(problem))
    assert state.cleaned() == {1}
    assert take_out(state, [1], {t: [t] for t in range(3)}) == {1}
    found = kept(tables, state)
    assert [item.cleaned for item in found.assignments] == [(), (2,)]
    assert check_timetable(problem, found) == ()


def test_without_the_clean_a_later_task_is_cleaned_for_where_the_next_has_no_room() -> None:
    """Of 0, 200, 225 and 330 the second is taken out; the third alone would end in time."""
    problem = day(released(0, 200, 225, 330), 300)
    problem = replace(problem, workers=(replace(problem.workers[0], blocked=((221, 225),)),))
    tables = tables_of(problem)
    choices = {n: Choice(0, start, start + 20) for n, start in enumerate((0, 200, 225, 330))}
    units = dict.fromkeys(range(4), 0)
    state = state_of(tables, assemble(tables, choices, units, ((),), {1}))
    assert state.cleaned() == {1}
    assert take_out(state, [1], {t: [t] for t in range(4)}) == {1}
    assert state.cleaned() == {3}
    assert check_timetable(problem, kept(tables, state)) == ()


def test_without_room_for_a_clean_the_next_one_goes_too() -> None:
    """The cook is away just before it: there is nobody to clean."""
    problem = day(released(0, 230, 250), 240)
    tables = tables_of(problem)
    state = state_of(tables, solved(problem))
    assert state.cleaned() == {1}
    begin = state.entries[2].start
    cook = replace(problem.workers[0], blocked=((begin - 4, begin),))
    state.tables = tables_of(replace(problem, workers=(cook,)))
    assert take_out(state, [1], {t: [t] for t in range(3)}) == {1, 2}


def test_nothing_goes_before_a_run_that_would_last_too_long_then() -> None:
    problem = day(released(100, 330, 0), 250)
    tables = tables_of(problem)
    state = State(tables)
    assert place_cluster(state, [0], 0.0)
    assert place_cluster(state, [1], 0.0)
    assert place_cluster(state, [2], 0.0)
    assert state.entries[2].start >= state.entries[0].end
    assert check_timetable(problem, kept(tables, state)) == ()


def test_a_hold_over_several_tasks_is_cleaned_for_when_it_proves_too_long() -> None:
    """Put on the board at 200, taken off when the second cook has time: at 250."""
    tasks = (
        *released(0),
        Task("in", 1, 0, {0: 10}, 200),
        Task("out", 1, 0, {1: 10}, 250),
    )
    problem = day(tasks, 240, cooks=2, holds=(Hold(0, 0, 0), Hold(0, 1, 2)), waits=(Wait(1, 2),))
    tables = tables_of(problem)
    found = construct(tables, [[0], [1]], [(0, "", 0), (1, "", 1)], 0.0)
    assert check_timetable(problem, found) == ()
    assert found.assignments[1].cleaned == (1,)


def test_a_board_in_use_since_yesterday_is_cleaned_at_once() -> None:
    problem = day(released(0, 50), 240)
    holds = (replace(problem.holds[0], since=-200), problem.holds[1])
    found = solved(replace(problem, holds=holds))
    assert found.assignments[1].cleaned == (1,)


def test_a_plan_made_without_the_clock_is_mended_or_given_up() -> None:
    """Tasks of 20 min at 0, 100 and 230; the cook may be away before the last, or the last two."""
    problem = day(released(0, 100, 230), 240)
    tables = tables_of(problem)
    choices = {n: Choice(0, start, start + 20) for n, start in enumerate((0, 100, 230))}
    bare = assemble(tables, choices, dict.fromkeys(range(3), 0), ((),))
    assert overdue(tables, bare) == [(0, 1, 2)]
    found = mended(tables, bare)
    assert found is not None
    assert check_timetable(problem, found) == ()
    assert [item.cleaned for item in found.assignments] == [(), (), (2,)]
    worker = replace(problem.workers[0], blocked=((225, 230),))
    earlier = mended(tables_of(replace(problem, workers=(worker,))), bare)
    assert earlier is not None
    assert [item.cleaned for item in earlier.assignments] == [(), (1,), ()]
    worker = replace(worker, blocked=((95, 100), (225, 230)))
    assert mended(tables_of(replace(problem, workers=(worker,))), bare) is None


def test_cleans_that_the_clock_does_not_ask_for_are_left_out() -> None:
    tables = tables_of(day(released(0, 100, 230), 240))
    choices = {n: Choice(0, start, start + 20) for n, start in enumerate((0, 100, 230))}
    found = assemble(tables, choices, dict.fromkeys(range(3), 0), ((),), {0, 1, 2})
    assert [item.cleaned for item in found.assignments] == [(), (), (2,)]
