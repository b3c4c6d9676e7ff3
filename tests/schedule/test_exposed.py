"""Minutes out of temperature control bind where work is placed, by rule and put in again."""

from dataclasses import replace

import pytest

from planner.check.timetable import check_timetable
from planner.schedule.construct import constructive_plans
from planner.schedule.exposed import NOWHERE, keeps_others, minutes_out, too_long_out
from planner.schedule.problem import (
    Exposure,
    Family,
    Hygiene,
    Job,
    Problem,
    Promise,
    Serving,
    Task,
    Wait,
    Worker,
)
from planner.schedule.search import SearchOptions, solve
from planner.schedule.state import Placement, State
from planner.schedule.tables import tables_of

EIGHT = 480


def problem(*exposures: Exposure, blocked: tuple[tuple[int, int], ...] = ()) -> Problem:
    """Two lots of two tasks of five minutes: pressed and taken out, tied and wrapped."""
    return Problem(
        start=EIGHT,
        horizon=EIGHT + 120,
        workers=(Worker("ana", EIGHT, EIGHT + 120, EIGHT + 120, blocked),),
        resources=(),
        families=(Family("press", "ham", "board", Hygiene(), 0),),
        tasks=tuple(Task(f"task {n}", n // 2, 0, {0: 5}, EIGHT) for n in range(4)),
        jobs=(
            Job("pressed", (0, 1)),
            Job("tied", (2, 3), needs=(0,), serves=(Serving(0, "ham", 1),)),
        ),
        waits=(Wait(0, 1), Wait(1, 2), Wait(2, 3)),
        promises=(Promise("plate", 1),),
        exposures=exposures,
    )


def placed(given: Problem, *starts: int) -> State:
    """Tasks in their order, so many minutes after 08:00."""
    state = State(tables_of(given))
    for task, start in enumerate(starts):
        state.put(task, Placement(0, EIGHT + start, EIGHT + start + 5, 0))
    return state


def test_sums_take_the_longest_way_and_only_what_is_done() -> None:
    exposures = (
        Exposure(0, 0, 99),
        Exposure(0, 1, 99, spent=4),
        Exposure(2, 2, 99, after=(0, 1)),
        Exposure(3, 3, 99, after=(2,), since=EIGHT),
    )
    spans = {0: (480, 485), 1: (490, 495), 2: (500, 505)}
    assert minutes_out(exposures, spans) == {0: 5, 1: 19, 2: 24}
    assert minutes_out(exposures, {**spans, 3: (510, 515)})[3] == 35 + 24


@pytest.mark.parametrize(("limit", "first"), [(40, 0), (39, 35)])
def test_a_rule_begins_later_what_would_be_out_too_long(limit: int, first: int) -> None:
    """From 08:05 to 08:35 the cook is away: pressed before and taken out after is 40 minutes."""
    given = problem(Exposure(0, 1, limit), blocked=((EIGHT + 5, EIGHT + 35),))
    _, timetable, score = next(constructive_plans(tables_of(given)))
    assert score.short == 0
    assert check_timetable(given, timetable) == ()
    start = {item.task: item.start - EIGHT for item in timetable.assignments}
    assert start[0] == first


def test_what_is_out_too_long_wherever_it_goes_is_left_short_at_once() -> None:
    given = problem(Exposure(0, 0, 5), Exposure(2, 3, 14, after=(0,)))
    _, timetable, score = next(constructive_plans(tables_of(given)))
    assert timetable.assignments == ()
    assert score.short == 1
    assert solve(given, SearchOptions(seconds=5, workers=1)).score.short == 1


def test_of_a_long_way_the_last_stretch_that_can_be_shorter_moves() -> None:
    """Pressed from 0 to 25 and tied at 30: ten of thirty minutes too many, of the pressing."""
    given = problem(Exposure(0, 1, 99), Exposure(2, 2, 20, after=(0,)))
    state = placed(given, 0, 20, 30)
    assert too_long_out(state, 2, (0, 1, 2)) == (0, EIGHT + 10)
    assert too_long_out(state, 2, (2,)) == NOWHERE, "the pressing stands where it is"
    assert too_long_out(placed(given, 10, 20, 30), 2, (0, 1, 2)) is None


def test_what_is_put_in_again_leaves_what_comes_after_within_its_limit() -> None:
    given = problem(Exposure(0, 1, 99), Exposure(2, 2, 20, after=(0,)))
    assert keeps_others(placed(given, 10, 20, 30), (0, 1))
    assert not keeps_others(placed(given, 9, 20, 30), (0, 1))
    assert keeps_others(placed(given, 9, 20), (0, 1)), "nothing comes after"


def test_the_exact_model_knows_the_limit_too() -> None:
    """Freshness wants pressing late and there is time to be late with taking out: it may not."""
    given = problem(Exposure(0, 1, 12), Exposure(2, 3, 22, after=(0,)))
    tasks = list(given.tasks)
    tasks[3] = replace(tasks[3], due=EIGHT + 100, fresh_weight=1)
    tasks[0] = replace(tasks[0], due=EIGHT + 5, due_weight=3)
    solution = solve(replace(given, tasks=tuple(tasks)), SearchOptions(seconds=5, workers=1))
    assert check_timetable(given, solution.timetable) == ()
    assert solution.score.tardiness == 0
    spans = {item.task: (item.start, item.end) for item in solution.timetable.assignments}
    assert minutes_out(given.exposures, spans)[1] <= 22
    assert spans[3][1] == EIGHT + 100, "what is pressed waits in the cold"
