"""Cooling chains bind the lots: how late after the heat the cold step may start."""

from typing import Any

from planner.check.timetable import check_timetable
from planner.lots.types import Part, Workload
from planner.schedule.problem import Wait
from planner.schedule.search import SearchOptions, solve
from planner.schedule.timetable import Timetable
from tests.kitchens.bench import File, bench, cook, cut_from, dish, food, lots_of, work, workload

HOT = {"cautions": ["hot surface"], "unattended_minutes": 30}


def kitchen(*route: str | File, racks: int = 9, **parts: Any) -> File:
    """A kilo of ham: roasted, and then whatever the route says; ten minutes a kilo each."""
    return bench(
        ingredients=[food("pork")],
        operations=[
            work("roast", finish_minutes=4, **HOT),
            work("cut"),
            work("ice", unattended_minutes=60, finish_minutes=1, equipment=[{"equipment": "rack"}]),
            work("shelf", unattended_minutes=90),
        ],
        equipment=[{"id": "rack", "name": "Rack", "count": racks, "holds": "1 kg"}],
        components=[cut_from("pork", "ham", *route, tcs=True)],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )


def between(made: Workload, one: str, other: str) -> Wait:
    """The wait from the last task of a lot to the first of another."""
    (before,), (after,) = lots_of(made, one), lots_of(made, other)
    pair = before.tasks[-1].task, after.tasks[0].task
    (found,) = [w for w in made.problem.waits if (w.before, w.after) == pair]
    return found


ICE: File = {"operation": "ice", "temperature_c": 21}
SHELF: File = {"operation": "shelf", "temperature_c": 5}
ROAST: File = {"operation": "roast", "max_wait_minutes": 300}


def test_the_cold_step_starts_so_early_that_it_is_over_within_two_hours() -> None:
    """Ten minutes of hands and sixty alone of 120 leave fifty."""
    made = workload(kitchen(ROAST, ICE))
    assert between(made, "roast", "ice") == Wait(1, 2, 0, 50)


def test_a_shorter_wait_of_the_kitchens_own_stays() -> None:
    made = workload(kitchen("roast", ICE))
    assert between(made, "roast", "ice").maximum == 30


def test_the_slowest_cook_who_may_do_it_is_counted_with() -> None:
    slow = cook("ben", skills=[{"skill": "hands", "pace": 0.5}])
    made = workload(kitchen(ROAST, ICE, cooks=[cook("ana"), slow]))
    assert between(made, "roast", "ice").maximum == 40


def test_work_between_does_not_stop_the_clock() -> None:
    made = workload(kitchen("roast", "cut", ICE))
    assert between(made, "roast", "ice") == Wait(1, 3, 0, 50)
    assert between(made, "cut", "ice") == Wait(2, 3, 0, None)


def test_the_second_stage_counts_from_the_heat() -> None:
    made = workload(kitchen("roast", ICE, SHELF))
    assert between(made, "roast", "shelf").maximum == 360 - 10 - 90


def test_what_was_held_hot_counts_from_the_start_of_the_next_step() -> None:
    """Cutting may begin any time; from its start 120 less cutting, icing and an hour alone."""
    made = workload(kitchen({"operation": "roast", "hold": "hot"}, "cut", ICE))
    assert between(made, "roast", "cut").maximum is None
    assert between(made, "cut", "ice").maximum == 120 - 10 - 10 - 60


def test_one_rack_lets_hot_food_out_of_the_oven_one_lot_after_the_other() -> None:
    """Chill capacity binds: two kilos roast at once, and come out an hour apart."""
    file = kitchen("roast", ICE, racks=1)
    file["services"][0]["covers"] = 20
    file["operations"][0]["lot_limit"] = "1 kg"
    made = workload(file)
    solution = solve(made.problem, SearchOptions(seconds=5, workers=1))
    assert solution.score.short == 0
    assert check_timetable(made.problem, solution.timetable) == ()
    first, second = sorted(_starts(made, solution.timetable, "ice"))
    assert second >= first + 70
    out = sorted(_starts(made, solution.timetable, "roast", Part.FINISH))
    assert out[1] >= second - 50 - 4, "the second waits in the oven, not on the bench"


def _starts(made: Workload, timetable: Timetable, what: str, part: Part = Part.WORK) -> list[int]:
    start = {a.task: a.start for a in timetable.assignments}
    return [
        start[item.task] for lot in lots_of(made, what) for item in lot.tasks if item.part is part
    ]
