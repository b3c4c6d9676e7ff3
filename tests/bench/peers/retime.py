"""From another solver's cooks and starts to a timetable of ours, with exact leads.

Where the choices as they stand break a rule, the lots are placed again in their order: first each
task with the cook chosen for it, then with whoever is best; the better plan counts.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace

from planner.check.timetable import check_timetable
from planner.schedule.assemble import Choice, assemble
from planner.schedule.construct import Key, clusters_of, construct
from planner.schedule.problem import Hold, Problem
from planner.schedule.score import score_of
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import Timetable

_LAST = 1_000_000
"""Place in the order of what was left out."""


def retimed(tables: Tables, choices: Mapping[int, Choice]) -> tuple[Timetable, bool]:
    """Return a timetable made of ``choices``, and whether it had to be placed again."""
    exact = assemble(tables, choices, named_units(tables, choices), tables.rests)
    if not check_timetable(tables.problem, exact):
        return exact, False
    bound_to = tables_of(_with_cooks(tables.problem, choices))
    plans = [_placed(bound_to, choices), _placed(tables, choices)]
    return min(plans, key=lambda plan: score_of(tables, plan)), True


def named_units(tables: Tables, choices: Mapping[int, Choice]) -> dict[int, int]:
    """Give each hold on a contact resource a unit that is free, best one that needs no clean.

    Where none is free it gets the first one: the checker will see it.
    """
    problem = tables.problem
    holds = [
        (index, hold)
        for index, hold in enumerate(problem.holds)
        if tables.contact(index) and hold.first in choices and hold.last in choices
    ]
    holds.sort(key=lambda item: choices[item[1].first].start)
    last: dict[int, dict[int, tuple[int, int]]] = defaultdict(dict)
    units: dict[int, int] = {}
    for index, hold in holds:
        used = last[hold.resource]
        begin = choices[hold.first].start
        free = [
            unit
            for unit in range(problem.resources[hold.resource].capacity)
            if unit not in used or used[unit][0] <= begin
        ]
        clean_first = sorted((_unclean(tables, used, unit, index), unit) for unit in free)
        unit = clean_first[0][1] if clean_first else 0
        units[index] = unit
        used[unit] = (_end(choices, hold), index)
    return units


def _unclean(tables: Tables, used: Mapping[int, tuple[int, int]], unit: int, hold: int) -> bool:
    if unit not in used:
        return False
    before = tables.hold_family(used[unit][1])
    return tables.dirty[before][tables.hold_family(hold)]


def _end(choices: Mapping[int, Choice], hold: Hold) -> int:
    return choices[hold.last].end + hold.tail


def _with_cooks(problem: Problem, choices: Mapping[int, Choice]) -> Problem:
    """The problem in which only the chosen cook can do a task."""
    return replace(
        problem,
        tasks=tuple(
            replace(task, minutes={choices[i].worker: task.minutes[choices[i].worker]})
            if i in choices
            else task
            for i, task in enumerate(problem.tasks)
        ),
    )


def _placed(tables: Tables, choices: Mapping[int, Choice]) -> Timetable:
    clusters = clusters_of(tables)
    jobs = tables.problem.jobs
    keys: list[Key] = []
    for group in clusters:
        starts = [
            choices[task].start for job in group for task in jobs[job].tasks if task in choices
        ]
        keys.append((min(starts, default=_LAST), "", group[0]))
    return construct(tables, clusters, keys, thrift=0.0)
