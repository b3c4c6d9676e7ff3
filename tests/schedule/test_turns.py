"""What a cook's day must cost in turns, by hand."""

from dataclasses import replace

from planner.schedule.assignment import assignment_bound
from planner.schedule.effort import Effort
from planner.schedule.least_labor import least_labor
from planner.schedule.problem import Changeovers, Family, Hold, Hygiene, Problem, Resource
from planner.schedule.spans import spans_of
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Score
from planner.schedule.turns import apart, crews, soiling, turns_of
from tests.schedule.test_bounds import day

EFFORT = Effort(seconds=5.0, deterministic=5.0)
PLAIN, FISH, MILK = Hygiene(), Hygiene(raw_animal="fish"), Hygiene(allergens=frozenset({"milk"}))
BOTH = Hygiene(raw_animal="fish", allergens=frozenset({"milk"}))
ON_TIME = Score(0, 0, 10_000, 0, 600)


def kitchen(*families: tuple[str, str, str], hygiene: tuple[Hygiene, ...] = ()) -> Problem:
    """One cook and a lot of ten minutes of each (operation, food, station)."""
    kinds = hygiene or (PLAIN,) * len(families)
    made = tuple(
        Family(operation, food, station, kind, 4)
        for (operation, food, station), kind in zip(families, kinds, strict=True)
    )
    problem = day((10,) * len(families))
    return replace(
        problem,
        families=made,
        tasks=tuple(replace(task, family=i) for i, task in enumerate(problem.tasks)),
        changeovers=Changeovers(1, 2, 3, hand_wash=1, clean=5),
    )


def labor(problem: Problem) -> tuple[int, int]:
    """Both bounds of a kitchen that leaves nothing short and is not late."""
    tables = tables_of(problem)
    simple = least_labor(tables, spans_of(tables, ON_TIME))
    return simple, assignment_bound(tables, ON_TIME, EFFORT).bound


THREE = (("cut", "bean", "board"), ("cut", "leek", "board"), ("fry", "bean", "stove"))


def test_one_cook_turns_to_each_food_operation_and_station_once() -> None:
    """Three set-ups, one turn to another food and one to another station."""
    assert labor(kitchen(*THREE)) == (30 + 12 + 1 + 3,) * 2


def test_operations_at_one_station_are_turned_to_for_less() -> None:
    problem = kitchen(*THREE[:2], ("peel", "bean", "board"))
    assert labor(problem) == (30 + 12 + 1 + 2,) * 2


def test_a_second_cook_saves_a_turn_but_no_set_up() -> None:
    problem = kitchen(*THREE)
    cooks = (problem.workers[0], replace(problem.workers[0], id="cook 1"))
    tasks = tuple(replace(task, minutes={0: 10, 1: 10}) for task in problem.tasks)
    assert labor(replace(problem, workers=cooks, tasks=tasks))[1] == 30 + 12 + 1


def test_hands_are_washed_after_each_soiling_food_but_the_last() -> None:
    problem = kitchen(*THREE, hygiene=(FISH, MILK, PLAIN))
    assert labor(problem)[1] == 30 + 12 + 1 + 3 + 1


def test_a_board_is_cleaned_after_each_soiling_food_but_the_last() -> None:
    problem = kitchen(*THREE, hygiene=(FISH, MILK, PLAIN))
    board = replace(
        problem,
        resources=(Resource("board", 1, contact=True),),
        holds=tuple(Hold(0, i, i) for i in range(3)),
    )
    assert set(soiling(tables_of(board), 0)) == {FISH, MILK}
    assert labor(board)[0] == labor(problem)[0] + 5
    two = replace(board, resources=(Resource("board", 2, contact=True),))
    assert labor(two)[0] == labor(problem)[0]


def test_kinds_that_may_follow_each_other_are_charged_once() -> None:
    """Fish with milk may follow milk uncleaned: one clean may serve both, so one is charged."""
    assert apart({MILK, BOTH}) == [BOTH]
    assert set(apart({FISH, MILK, PLAIN})) == {FISH, MILK}
    assert apart({PLAIN, FISH}) == [FISH]


def test_work_that_does_not_fit_one_cook_turns_two() -> None:
    """Three lots of an hour due after 100 minutes: two cooks at least."""
    problem = day((60, 60, 60), cooks=3, due=100)
    tables = tables_of(problem)
    found = crews(tables, spans_of(tables, ON_TIME), turns_of(tables))
    assert found == {("bench", "cut"): 2, ("bench", None): 2}


def test_equal_families_are_one() -> None:
    problem = kitchen(THREE[0], THREE[0])
    assert labor(problem) == (20 + 4, 20 + 4)
