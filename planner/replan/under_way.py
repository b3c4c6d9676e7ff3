"""A replanned day as its chances are counted from: what is done, what runs, who is free when."""

from planner.lots.types import Part
from planner.rates.under_way import UnderWay
from planner.replan.replan import Replan


def under_way_of(found: Replan) -> UnderWay:
    """How far the whole day of a replan has come: its indexes are those of ``found.course``."""
    day, course = found.day, found.course
    ready: dict[int, int] = {}
    by_id = {lot.id: lot for lot in course.workload.lots}
    for one in day.begun:
        if one.to_take_out and one.work_end <= found.now:
            for task in by_id[one.lot.id].tasks:
                if task.part is Part.FINISH:
                    ready[task.task] = one.ready
    free = {
        index: worker.start
        for index, worker in enumerate(found.workload.problem.workers)
        if worker.start > max(found.now, day.busy.get(index, 0))
    }
    return UnderWay(found.now, course.told, ready, free)
