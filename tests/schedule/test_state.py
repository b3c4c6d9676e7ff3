"""What a partial timetable says of pools and units."""

from planner.schedule.placing import best_placement
from planner.schedule.problem import (
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Resource,
    Task,
    Worker,
)
from planner.schedule.state import Placement, State
from planner.schedule.tables import tables_of

FISH, PLAIN = Hygiene("fish"), Hygiene()


def state_of(*hygiene: Hygiene, holds: tuple[Hold, ...], resource: Resource) -> State:
    """A cook who is in from 10, a task of ten minutes for each class, and a resource."""
    families = tuple(
        Family("cut", f"food {n}", "board", one, set_up=0) for n, one in enumerate(hygiene)
    )
    tasks = tuple(Task(f"t{n}", n, n, {0: 10}, 0) for n in range(len(hygiene)))
    jobs = tuple(Job(f"j{n}", (n,)) for n in range(len(hygiene)))
    worker = Worker("ana", 10, 200, 200)
    return State(
        tables_of(Problem(0, 200, (worker,), (resource,), families, tasks, jobs, (), holds))
    )


def test_a_hold_of_more_units_than_there_are_never_fits() -> None:
    state = state_of(PLAIN, holds=(Hold(0, 0, 0, units=3),), resource=Resource("oven", 2))
    assert state.pool_free_from(0, 20, 30) is None
    assert best_placement(state, 0, 0, 0.0) is None


def test_a_unit_in_use_is_waited_for_and_not_dirtied_for_who_has_it_next() -> None:
    holds = tuple(Hold(0, n, n) for n in range(2))
    state = state_of(FISH, PLAIN, holds=holds, resource=Resource("board", 1, contact=True))
    state.put(1, Placement(0, 50, 60, 0, {1: 0}))
    assert state.unit_free_from(0, 0, 55, 65) == 60, "it is in use"
    assert state.unit_free_from(0, 0, 20, 30) == 60, "the plain food after it was clean so far"
    assert state.unit_free_from(0, 0, 60, 70) == 60


def test_nobody_works_before_the_shift() -> None:
    state = state_of(PLAIN, holds=(), resource=Resource("oven", 2))
    found = best_placement(state, 0, 0, 0.0)
    assert found is not None
    assert found.start == 10
