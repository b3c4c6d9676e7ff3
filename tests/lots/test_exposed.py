"""Minutes out of temperature control add up over the lots of a route, and bind the schedule."""

from typing import Any

import pytest

from planner.check.out_of_cold import check_out_of_cold
from planner.lots.exposed import every_exposure
from planner.lots.types import Workload
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.schedule.exposed import minutes_out
from planner.schedule.problem import Exposure
from tests.kitchens.bench import DATE, File, bench, cut_from, dish, food, kit_of, read, work
from tests.kitchens.bench import workload as workload_of_file

WARM = {"hold": "ambient", "max_wait_minutes": 240}
"""Stands at room temperature, for up to four hours by this kitchen's word."""


def kitchen(*route: str | File, limit: int = 240, covers: int = 10, **parts: Any) -> File:
    """A kilo of ham at 100 g a guest; every operation takes ten minutes a kilo."""
    file = bench(
        ingredients=[food("pork")],
        operations=[
            work("cut"),
            work("tie"),
            work("press", unattended_minutes=30, finish_minutes=2),
            work("cook", cooks_through=True),
        ],
        components=[cut_from("pork", "ham", *route, tcs=True)],
        dishes=[dish("plate", {"ham": "100 g"})],
        rules={"out_of_control_minutes": limit},
        **parts,
    )
    file["services"][0]["covers"] = covers
    return file


def all_of(file: File) -> tuple[Exposure, ...]:
    made = workload_of_file(file)
    return every_exposure(kit_of(file).catalog, made.lots, made.problem)


def test_work_on_a_cold_route_adds_up_step_by_step() -> None:
    """Between the steps the food is cold: the stretches count one after the other."""
    first, second = all_of(kitchen("cut", "tie"))
    assert (first.first, first.last, first.after) == (0, 0, ())
    assert (second.first, second.last, second.after) == (1, 1, (0,))


def test_food_that_stands_warm_between_two_steps_is_out_all_the_while() -> None:
    first, whole = all_of(kitchen({"operation": "cut", **WARM}, "tie"))
    assert (first.first, first.last) == (0, 0)
    assert (whole.first, whole.last, whole.after) == (0, 1, ())


def test_what_goes_on_by_itself_counts_until_it_is_taken_out_unless_it_is_kept_cold() -> None:
    (out,) = all_of(kitchen("press"))
    assert (out.first, out.last) == (0, 1)
    work_, finish = all_of(kitchen({"operation": "press", "temperature_c": 4}))
    assert (work_.first, work_.last) == (0, 0)
    assert (finish.first, finish.last, finish.after) == (1, 1, (0,))


def test_a_kill_step_forgets_what_was_before() -> None:
    before, after = all_of(kitchen("cut", "cook", "tie"))
    assert (before.last, after.first, after.after) == (0, 2, ())


def test_food_that_needs_no_control_is_not_counted() -> None:
    file = kitchen("cut", "tie")
    file["components"][0]["tcs"] = False
    assert all_of(file) == ()


def test_only_what_could_pass_the_limit_is_asked_of_the_schedule() -> None:
    """Twenty minutes of hands never come to thirty; twenty and a wait of four hours may."""
    assert workload_of_file(kitchen("cut", "tie", limit=30)).problem.exposures == ()
    warm = workload_of_file(kitchen({"operation": "cut", **WARM}, "tie", limit=30))
    assert [(one.first, one.last, one.limit) for one in warm.problem.exposures] == [(0, 1, 30)]


def test_what_may_wait_without_end_is_asked_of_the_schedule_with_all_before_it() -> None:
    """Nobody says when pressed ham is taken out; the ten minutes of cutting count before it."""
    first, pressed = workload_of_file(kitchen("cut", "press")).problem.exposures
    assert (first.first, first.last, first.after) == (0, 0, ())
    assert (pressed.first, pressed.last, pressed.after) == (1, 2, (0,))


def planned(file: File) -> Plan:
    options = PlanOptions(deterministic_limit=0.05, workers=1, remedies=False)
    return plan_morning(read(file), DATE, options)


def longest(file: File, plan: Plan) -> int:
    work_: Workload = plan.workload
    exposures = every_exposure(kit_of(file).catalog, work_.lots, work_.problem)
    spans = {a.task: (a.start, a.end) for a in plan.solution.timetable.assignments}
    return max(minutes_out(exposures, spans).values())


@pytest.mark.parametrize(("limit", "set_ups", "out"), [(35, 2, 35), (34, 4, 30)])
def test_a_tighter_limit_buys_more_set_ups(limit: int, set_ups: int, out: int) -> None:
    """Two lots of five minutes cut and five tied, each set-up twenty.

    Both cut and then both tied, a lot is out for 5 + 5 + 20 + 5 minutes; one lot after the other
    for 5 + 20 + 5, and each operation is set up twice.
    """
    file = kitchen({"operation": "cut", **WARM}, "tie", limit=limit)
    for operation in file["operations"][:2]:
        operation |= {"lot_limit": "500 g", "set_up_minutes": 20}
    plan = planned(file)
    assert plan.solution.score.labor == 20 + 20 * set_ups
    assert longest(file, plan) == out


def test_food_that_must_wait_too_long_for_the_next_cook_is_left_short() -> None:
    """Who cuts leaves at nine, who ties comes at ten: an hour and twenty minutes at the least."""
    early = {"id": "ana", "name": "Ana", "initials": "A", "skills": [{"skill": "hands"}]}
    late = {**early, "id": "ben", "name": "Ben", "skills": [{"skill": "ties"}]}
    early["shifts"] = [{"start": "08:00", "end": "09:00", "overtime_minutes": 0}]
    late["shifts"] = [{"start": "10:00", "end": "12:00", "overtime_minutes": 0}]
    for limit, short in ((80, 0), (79, 10)):
        file = kitchen({"operation": "cut", **WARM}, "tie", limit=limit, cooks=[early, late])
        file["operations"][1]["skill"] = "ties"
        assert planned(file).solution.score.short == short


@pytest.mark.parametrize(("limit", "broken"), [(80, False), (79, True)])
def test_the_checker_finds_food_out_too_long_by_the_clock_alone(limit: int, broken: bool) -> None:
    """A plan made for four hours, judged by a kitchen that allows less."""
    early = {"id": "ana", "name": "Ana", "initials": "A", "skills": [{"skill": "hands"}]}
    late = {**early, "id": "ben", "name": "Ben", "skills": [{"skill": "ties"}]}
    early["shifts"] = [{"start": "08:50", "end": "09:00", "overtime_minutes": 0}]
    late["shifts"] = [{"start": "10:00", "end": "10:10", "overtime_minutes": 0}]
    file = kitchen({"operation": "cut", **WARM}, "tie", cooks=[early, late])
    file["operations"][1]["skill"] = "ties"
    plan = planned(file)
    assert plan.solution.score.short == 0
    file["rules"]["out_of_control_minutes"] = limit
    found = check_out_of_cold(read(file), plan)
    assert [str(one.rule) for one in found] == (["exposure"] if broken else [])
