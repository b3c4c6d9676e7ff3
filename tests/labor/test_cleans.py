"""Allergens come last where that saves a clean, and cleans are counted and charged where not."""

import pytest

from planner.check.timetable import check_timetable
from planner.labor.cleans import cleans_of
from planner.plan_file.convert import plan_document
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
    Worker,
)
from planner.schedule.search import SearchOptions, solve
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Solution
from tests.kitchens.seeds import planned_seed

PLAIN, SESAME = Hygiene(), Hygiene(allergens=frozenset({"sesame"}))
BOTH = Hygiene(allergens=frozenset({"milk", "sesame"}))
CLEAN = 4


def board(*lots: tuple[str, Hygiene, int]) -> Problem:
    """One cook, one board; each lot takes ten minutes and is late after a time after 08:00."""
    count = range(len(lots))
    return Problem(
        start=480,
        horizon=1000,
        workers=(Worker("ana", 480, 1000, 1000),),
        resources=(Resource("board", 1, contact=True),),
        families=tuple(Family("cut", name, "board", hygiene, 0) for name, hygiene, _ in lots),
        tasks=tuple(
            Task(name, lot, lot, {0: 10}, 480, due=480 + due)
            for lot, (name, _, due) in enumerate(lots)
        ),
        jobs=tuple(
            Job(name, (lot,), serves=(Serving(lot, name, 1),))
            for lot, (name, _, _) in enumerate(lots)
        ),
        holds=tuple(Hold(0, lot, lot) for lot in count),
        promises=tuple(Promise(name, 1) for name, _, _ in lots),
        changeovers=Changeovers(clean=CLEAN),
    )


def best(problem: Problem) -> tuple[Solution, list[str]]:
    """The best plan, and its lots in the order they are worked on."""
    solution = solve(problem, SearchOptions(seconds=10, workers=1))
    assert check_timetable(problem, solution.timetable) == ()
    done = sorted(solution.timetable.assignments, key=lambda item: item.start)
    return solution, [problem.tasks[item.task].id for item in done]


def test_with_time_for_either_order_the_allergens_come_last_and_nothing_is_cleaned() -> None:
    problem = board(("slaw", BOTH, 300), ("dressing", SESAME, 300), ("lettuce", PLAIN, 300))
    solution, order = best(problem)
    assert order == ["lettuce", "dressing", "slaw"]
    assert cleans_of(tables_of(problem), solution.timetable) == (0, 0)
    assert solution.score.labor == 30


@pytest.mark.parametrize(("due", "cleans"), [(20, 0), (19, 1)])
def test_a_due_time_that_leaves_no_time_for_it_forces_the_clean(due: int, cleans: int) -> None:
    """Dressing due 20 minutes in can wait for the lettuce; due a minute sooner it cannot."""
    problem = board(("dressing", SESAME, due), ("lettuce", PLAIN, 300))
    solution, order = best(problem)
    assert order == (["lettuce", "dressing"] if cleans == 0 else ["dressing", "lettuce"])
    assert solution.score.tardiness == 0
    assert cleans_of(tables_of(problem), solution.timetable) == (cleans, cleans * CLEAN)
    assert solution.score.labor == 20 + cleans * CLEAN


def test_two_due_times_that_cross_cost_one_clean_and_not_two() -> None:
    """Dressing by 10 and 45, lettuce twice between: like goes with like as far as it can."""
    problem = board(
        ("dressing", SESAME, 10),
        ("lettuce", PLAIN, 50),
        ("cress", PLAIN, 50),
        ("tahini", SESAME, 50),
    )
    solution, order = best(problem)
    assert solution.score.tardiness == 0
    assert cleans_of(tables_of(problem), solution.timetable) == (1, CLEAN)
    assert order[0] == "dressing"


def test_the_demos_cleans_are_those_in_its_leads() -> None:
    kitchen, plan = planned_seed("demo")
    each = plan.workload.problem.changeovers.clean
    minutes = sum(item.lead.clean for item in plan.solution.timetable.assignments)
    assert plan.labor.cleans * each == plan.labor.clean_minutes == minutes > 0
    told = plan_document(kitchen, plan).labor
    assert (told.cleans, told.clean_minutes) == (plan.labor.cleans, minutes)
