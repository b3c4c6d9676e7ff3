"""Ticks of the floor become the progress that a replan starts from."""

import datetime as dt
from importlib.resources import files

import pytest

from planner.floor.state import floor_of
from planner.floor.ticks import Act, Tick
from planner.kitchen.dates import moved_to
from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.replan.course import course_of
from planner.replan.events import Progress
from planner.replan.from_floor import progress_of_floor
from planner.replan.replan import replan
from planner.schedule.search import SearchOptions
from planner.schedule.timetable import Assignment

DATE = dt.date(2026, 11, 25)


@pytest.fixture(scope="module")
def kitchen() -> Kitchen:
    return moved_to(read_kitchen(files("seed_data").joinpath("demo.json").read_bytes()), DATE)


@pytest.fixture(scope="module")
def plan(kitchen: Kitchen) -> Plan:
    return plan_morning(kitchen, DATE, PlanOptions(seconds=0))


def line_of(plan: Plan, worker: int) -> list[Assignment]:
    items = plan.solution.timetable.assignments
    return sorted((one for one in items if one.worker == worker), key=lambda one: one.start)


def said(plan: Plan, item: Assignment, act: Act, at: float) -> Tick:
    task = plan.workload.problem.tasks[item.task].id
    return Tick(f"{task}{act}", act, at, plan.workload.cooks[item.worker], (task,))


def test_without_ticks_the_plan_is_believed(kitchen: Kitchen, plan: Plan) -> None:
    assert progress_of_floor(course_of(kitchen, plan), floor_of([]), 11 * 60) == ()


def test_what_comes_after_a_cooks_last_tick_has_not_begun(kitchen: Kitchen, plan: Plan) -> None:
    line = line_of(plan, 0)
    first, second = line[0], line[1]
    now = line[4].start
    floor = floor_of(
        [said(plan, first, Act.BEGUN, first.start + 5), said(plan, first, Act.DONE, first.end + 9)]
    )
    told = progress_of_floor(course_of(kitchen, plan), floor, now)
    by_task = {one.task: one for one in told}
    cook = plan.workload.cooks[0]
    assert by_task[first.task] == Progress(first.task, cook, first.start + 5, first.end + 9)
    assert by_task[second.task].start >= now
    assert by_task[second.task].end is None
    assert all(one.cook == cook for one in told), "other cooks may work from paper"


def test_a_forgotten_tick_before_the_last_one_is_taken_as_done(
    kitchen: Kitchen, plan: Plan
) -> None:
    line = line_of(plan, 0)
    floor = floor_of([said(plan, line[2], Act.DONE, line[2].end)])
    told = progress_of_floor(course_of(kitchen, plan), floor, line[2].end)
    assert {one.task for one in told if one.start < line[2].end} == {line[2].task}


def worked(plan: Plan, now: int, slow: float) -> list[Tick]:
    """The day as cooks work it who take ``slow`` times as long, each in the order of the sheet."""
    free: dict[int, float] = {}
    ended: dict[int, float] = {}
    ticks: list[Tick] = []
    problem = plan.workload.problem
    for item in sorted(plan.solution.timetable.assignments, key=lambda one: one.start):
        before = [wait for wait in problem.waits if wait.after == item.task]
        food = [ended.get(w.before, 1e9) + w.minimum for w in before]
        begun = max(float(item.start), free.get(item.worker, 0), *food, 0)
        if begun >= now:
            free[item.worker] = 1e9  # whoever is after it waits too
            continue
        done = begun + (item.end - item.start) * slow
        free[item.worker] = ended[item.task] = done
        ticks.append(said(plan, item, Act.BEGUN, begun))
        if done <= now:
            ticks.append(said(plan, item, Act.DONE, done))
    return ticks


@pytest.mark.parametrize("now", [8 * 60 + 10, 10 * 60, 13 * 60])
@pytest.mark.parametrize("slow", [0.8, 1.0, 1.5])
def test_a_floor_that_ticks_is_replanned_from_where_it_is(
    kitchen: Kitchen, plan: Plan, now: int, slow: float
) -> None:
    """What was ticked stays as it was; the rest is planned and keeps every rule."""
    ticks = worked(plan, now, slow)
    told = progress_of_floor(course_of(kitchen, plan), floor_of(ticks), now)
    found = replan(kitchen, plan, now, (), SearchOptions(seconds=0.0), progress=told)
    done = {one.task for one in told if one.end is not None}
    lots = {lot.id for lot in plan.workload.lots for item in lot.tasks if item.task in done}
    assert lots
    assert lots <= {one.lot.id for one in found.day.begun}
    starts = {one.task: one.start for one in told if one.start < now}
    whole = {one.task: one for one in found.course.timetable.assignments}
    ids = {task.id: n for n, task in enumerate(found.course.workload.problem.tasks)}
    for task, start in starts.items():
        again = whole[ids[plan.workload.problem.tasks[task].id]]
        assert again.start == start, "a task keeps its name and its start"
