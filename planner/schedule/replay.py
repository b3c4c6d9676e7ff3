"""The old timetable carried on: every task with its old cook at its old time, or as soon after."""

from collections.abc import Collection, Mapping, Sequence

from planner.schedule.assemble import Choice, assemble
from planner.schedule.clusters import Clusters, clusters_of, linked
from planner.schedule.placing import best_of
from planner.schedule.removal import take_out
from planner.schedule.rests import Slot
from planner.schedule.state import FAR, State
from planner.schedule.tables import Tables
from planner.schedule.timetable import Assignment, Timetable
from planner.schedule.together import close_holds, earliest_start, place_cluster, too_late


def replay(
    tables: Tables,
    old: Mapping[int, Assignment],
    *,
    first: Collection[int] = (),
    but: Collection[int] = (),
    rests: Sequence[Sequence[Slot]] = (),
) -> Timetable:
    """Place tasks by their ``old`` starts, one after the other as they come in the day.

    ``first`` are tasks that come before all others; ``but`` are jobs that stay out.
    ``rests`` is where breaks are, by worker, until they must make way.

    What cannot be kept so, as its cook has left or what it waits for comes too late, is taken out
    with all that is tied to it, and put in again where there is room beside the rest; new work
    comes in the same way. What finds no room is left out.
    """
    links = linked(tables, clusters_of(tables))
    state = State(tables, rests)
    jobs = tables.problem.jobs
    lost: set[int] = set()
    for task in _in_order(tables, old, first):
        cluster = links.of_task[task]
        if cluster not in lost and not _keep(state, links, old, task):
            _lose(state, links, cluster, lost)
    _put_in(state, links, {links.of_task[t] for job in but for t in jobs[job].tasks})
    choices = {t: Choice(e.worker, e.start, e.end) for t, e in state.entries.items()}
    return assemble(tables, choices, state.unit_of, state.rests, state.cleaned())


def _in_order(tables: Tables, old: Mapping[int, Assignment], first: Collection[int]) -> list[int]:
    """What comes ``first``, then tasks by their old starts."""
    position = {task: at for at, task in enumerate(tables.order)}
    later = old.keys() - set(first)
    return [*first, *sorted(later, key=lambda task: (old[task].start, position[task]))]


def _keep(state: State, links: Clusters, old: Mapping[int, Assignment], task: int) -> bool:
    """Put a task in at its old time or as soon after as can be; False where it cannot be kept."""
    tables = state.tables
    spec, jobs = tables.problem.tasks[task], tables.problem.jobs
    # What others of its cluster need may come in the meantime.
    needed = [first for need in jobs[spec.lot].needs for first in jobs[need].tasks[:1]]
    if not links.possible[links.of_task[task]] or not state.entries.keys() >= set(needed):
        return False
    if any(wait.before not in state.entries for wait in tables.waits_before[task]):
        return False  # Its old time was before that of what it waits for now.
    minutes = spec.minutes
    item = old.get(task)
    worker = next(iter(minutes)) if item is None else item.worker
    if worker not in minutes:
        return False
    earliest = earliest_start(state, task, {} if item is None else {task: item.start})
    latest = FAR if spec.until is None else spec.until
    found = best_of(state, task, [(worker, minutes[worker])], earliest, latest)
    if found is None:
        return False
    state.put(task, found)
    return too_late(state, task) is None and close_holds(state, task) is None


def _lose(state: State, links: Clusters, cluster: int, lost: set[int]) -> None:
    """Take a cluster out, what finds no room without it, and what takes from any of these."""
    stack = [cluster]
    while stack:
        gone = stack.pop()
        lost.add(gone)
        out = {links.of_task[task] for task in take_out(state, links.tasks[gone], links.tied)}
        stack += out - lost
        for one in out | {gone}:
            stack += [taker for taker in links.takers[one] if links.is_in(state, taker)]


def _put_in(state: State, links: Clusters, but: set[int]) -> None:
    """What is not in yet and can be, ``but`` some, most urgent first, after what it needs."""
    missing = (cluster for cluster in links.missing(state) if cluster not in but)
    waiting = sorted(missing, key=lambda c: (links.urgency[c], c))
    again = True
    while again:
        again = False
        for cluster in list(waiting):
            if not all(links.is_in(state, need) for need in links.needs[cluster]):
                continue
            waiting.remove(cluster)
            if place_cluster(state, links.tasks[cluster], 0.0):
                again = True
