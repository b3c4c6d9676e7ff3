"""Small mornings to replan, planned by hand: every minute of them can be checked on paper."""

from dataclasses import replace

from planner.kitchen.document import Kitchen
from planner.plan import Plan
from planner.replan.course import Course, course_of
from planner.schedule.search import SearchOptions
from tests.kitchens.plans import planned_kitchen, tiny_plan

QUICK = SearchOptions(deterministic_limit=0.05, workers=1)

PEEL, DICE, DICE_STOCK, SIMMER, ROAST = range(5)
"""Lots of the tiny plan: Ben peels 10:14-10:23 and dices 10:28-10:42-10:43; Ana simmers from 10:50,
to be taken out from 13:55, and roasts from 13:27, to be taken out from 14:09."""


def tiny_course() -> Course:
    """The plan of ``tests/kitchens/plans.py``, nothing of it done."""
    return course_of(planned_kitchen(), tiny_plan())


def lot_id(course: Course, index: int) -> str:
    """The id of a lot."""
    return course.workload.lots[index].id


def tiny_morning() -> tuple[Kitchen, Plan]:
    """Kitchen and plan; its promises are named as the program names them."""
    plan = tiny_plan()
    problem = plan.workload.problem
    promises = tuple(replace(p, id=p.id.replace("/", ":")) for p in problem.promises)
    workload = replace(plan.workload, problem=replace(problem, promises=promises))
    return planned_kitchen(), replace(plan, workload=workload)
