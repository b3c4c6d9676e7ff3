"""No timetable that is no shorter and no later than a plan does a task outside its span."""

from dataclasses import replace

from hypothesis import HealthCheck, given, settings

from planner.schedule.construct import constructive_plans
from planner.schedule.problem import Problem, Wait
from planner.schedule.spans import spans_of
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Score
from tests.outside.brute_force import all_timetables
from tests.outside.random_problems import tiny_problems
from tests.schedule.test_bounds import day


@given(tiny_problems(most_tasks=3))
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
def test_no_timetable_as_good_does_a_task_outside_its_span(problem: Problem) -> None:
    """Of every timetable there is, for the best and for a constructive plan."""
    tables = tables_of(problem)
    every = all_timetables(problem)
    _, _, score = next(constructive_plans(tables))
    for plan in (min(every.values()), score):
        spans = spans_of(tables, plan)
        for choices, found in every.items():
            if found.short <= plan.short and found.tardiness <= plan.tardiness:
                for task, worker, start, *_ in choices:
                    low, high = spans.by_worker[task][worker]
                    assert low <= start
                    assert start + problem.tasks[task].minutes[worker] <= high


def test_a_due_time_is_a_deadline_of_all_that_waits_for_it() -> None:
    """Nothing may be late, so the first of two tasks ends when there is time for the second."""
    problem = replace(day((60, 30), due=200), waits=(Wait(0, 1, minimum=10),))
    spans = spans_of(tables_of(problem), Score(0, 0, 90, 0, 100))
    assert spans.by_worker == [{0: (0, 160)}, {0: (70, 200)}]


def test_a_plan_that_is_late_leaves_others_as_late() -> None:
    """Twelve weighted minutes at weight 1 are twelve minutes after the due time."""
    problem = day((60, 30), due=200)
    spans = spans_of(tables_of(problem), Score(0, 12, 90, 0, 100))
    assert spans.by_worker[0] == {0: (0, 212)}


def test_a_longest_wait_holds_the_task_before_back() -> None:
    """The second comes in at 300 and may wait ten minutes: the first ends at 290 or after."""
    problem = replace(day((60, 30)), waits=(Wait(0, 1, maximum=10),))
    late = replace(problem.tasks[1], release=300)
    problem = replace(problem, tasks=(problem.tasks[0], late))
    spans = spans_of(tables_of(problem), Score(0, 0, 90, 0, 400))
    assert spans.by_worker[0][0][0] == 230
