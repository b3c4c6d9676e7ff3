"""Small changes to the hand-made plan."""

from dataclasses import replace
from typing import Any

from planner.plan import Plan
from planner.schedule.timetable import Timetable


def with_lot(plan: Plan, index: int, **changes: Any) -> Plan:
    lots = tuple(
        replace(lot, **changes) if lot.index == index else lot for lot in plan.workload.lots
    )
    return replace(plan, workload=replace(plan.workload, lots=lots))


def with_assignment(plan: Plan, task: int, **changes: Any) -> Plan:
    changed = tuple(
        replace(one, **changes) if one.task == task else one
        for one in plan.solution.timetable.assignments
    )
    return replace(plan, solution=replace(plan.solution, timetable=Timetable(changed)))


def without_tasks(plan: Plan, *tasks: int) -> Plan:
    kept = tuple(one for one in plan.solution.timetable.assignments if one.task not in tasks)
    return replace(plan, solution=replace(plan.solution, timetable=Timetable(kept)))


def with_problem(plan: Plan, **changes: Any) -> Plan:
    problem = replace(plan.workload.problem, **changes)
    return replace(plan, workload=replace(plan.workload, problem=problem))
