"""Plans as people make them without a computer, with nothing forgotten.

Both use the planner's own placing, so every rule is kept; only the order of the work and how a cook
is chosen are those of a person. Pooled quantities are given to both, also to the one who would not
pool.
"""

import time
from collections.abc import Iterable

from planner.schedule.construct import Key, clusters_of, construct
from planner.schedule.score import score_of
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import Timetable
from tests.bench.generate import Instance
from tests.bench.peers.outcome import Outcome

_STAYS = 4.0
"""Minutes later that a piece of work may end to save a minute of work and changeover."""
_HOUR = 60


def dish_by_dish(instance: Instance) -> Outcome:
    """One dish after the other, the earliest due first; each step by whoever has it done soonest.

    A lot that several dishes take from is made with the first of them.
    """
    began = time.monotonic()
    tables = tables_of(instance.problem)
    clusters = clusters_of(tables)
    by_due = sorted(range(len(instance.due)), key=lambda dish: (instance.due[dish], dish))
    rank = {dish: place for place, dish in enumerate(by_due)}
    keys: list[Key] = [
        (min(rank[dish] for dish in _dishes(instance, group)), "", _urgency(tables, group))
        for group in clusters
    ]
    timetable = construct(tables, clusters, keys, thrift=0.0)
    return Outcome(timetable, time.monotonic() - began, "by hand")


def sous_chef(instance: Instance) -> Outcome:
    """Like work together, in the order it is due, and by the cook who is already at it.

    Two sheets are written, one with the work of a service grouped by movement and food, one with
    that of each hour of latest starts; the better one is used.
    """
    began = time.monotonic()
    tables = tables_of(instance.problem)
    clusters = clusters_of(tables)
    by_service: list[Key] = [
        (
            min(instance.service[dish] for dish in _dishes(instance, group)),
            _movement(tables, group),
            _urgency(tables, group),
        )
        for group in clusters
    ]
    by_hour: list[Key] = [
        (_urgency(tables, group) // _HOUR, _movement(tables, group), _urgency(tables, group))
        for group in clusters
    ]
    first = construct(tables, clusters, by_service, _STAYS)
    seconds = time.monotonic() - began
    best = _better(tables, (first, construct(tables, clusters, by_hour, _STAYS)))
    return Outcome(best, seconds, "by hand")


def _dishes(instance: Instance, group: list[int]) -> set[int]:
    return {dish for job in group for dish in instance.dishes[job]}


def _urgency(tables: Tables, group: list[int]) -> int:
    """Latest start (minutes) that lets everything after it be on time."""
    jobs = tables.problem.jobs
    return min(tables.urgency[task] for job in group for task in jobs[job].tasks)


def _movement(tables: Tables, group: list[int]) -> str:
    problem = tables.problem
    family = problem.families[problem.tasks[problem.jobs[group[0]].tasks[0]].family]
    return f"{family.station}|{family.operation}|{family.food}"


def _better(tables: Tables, plans: Iterable[Timetable]) -> Timetable:
    return min(plans, key=lambda plan: score_of(tables, plan))
