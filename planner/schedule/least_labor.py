"""Least labor of any plan that makes all that is wanted, by adding up, without a solver.

Each task takes at least its quickest cook's minutes. Each family is set up once and turned to once,
each operation and station by as many cooks as its work needs in some stretch of the day; the first
turn of each cook is none. Surfaces are cleaned once for each kind of food that soils them, but for
the last on each unit. All of these minutes are different ones.
"""

from planner.schedule.spans import Spans
from planner.schedule.tables import Tables
from planner.schedule.turns import crews, soiling, turns_of


def least_labor(tables: Tables, spans: Spans) -> int:
    """Minutes of the tasks that are certainly done, and of their leads."""
    problem = tables.problem
    turns = turns_of(tables)
    sure = [index for index, task in enumerate(problem.tasks) if task.lot in spans.certain]
    families = sorted({turns.alike[problem.tasks[index].family] for index in sure})
    work = sum(
        min((problem.tasks[i].minutes[w] for w in spans.by_worker[i]), default=tables.least[i])
        for i in sure
    )
    leads = sum(problem.families[family].set_up + turns.family[family] for family in families)
    for (station, operation), cooks in crews(tables, spans, turns).items():
        extra = turns.station[station] if operation is None else turns.group[station, operation]
        leads += cooks * extra
    entries = [turns.entry(family) for family in families]
    leads -= min(len(problem.workers), len(sure)) * max(entries, default=0)
    cleans = 0
    for number, resource in enumerate(problem.resources):
        if resource.contact:
            kinds = soiling(tables, number).values()
            certain = sum(not jobs.isdisjoint(spans.certain) for jobs in kinds)
            cleans += max(0, certain - resource.capacity)
    # Where every cook starts with a turn that is saved, little is left: never less than the work.
    return (
        work
        + max(leads, sum(problem.families[f].set_up for f in families))
        + (problem.changeovers.clean * cleans)
    )
