"""How long food has been out of temperature control when a batch is done, by this plan."""

from planner.kitchen.catalog import Catalog
from planner.lots.exposed import every_exposure
from planner.plan import Plan
from planner.schedule.exposed import minutes_out


def minutes_by_task(catalog: Catalog, plan: Plan) -> dict[int, int]:
    """Most minutes out of what a task ends, for tasks at which food is out of the cold."""
    problem = plan.workload.problem
    exposures = every_exposure(catalog, plan.workload.lots, problem)
    spans = {one.task: (one.start, one.end) for one in plan.solution.timetable.assignments}
    found: dict[int, int] = {}
    for index, minutes in minutes_out(exposures, spans).items():
        last = exposures[index].last
        found[last] = max(found.get(last, 0), minutes)
    return found
