"""Fewer changes for people: batches given back to their old cooks and times, nothing getting worse.

A search finds plans that are less short or late, and moves more than it must on the way there. Here
a batch that has changed hands, or its time, is taken out, with some of what its old cook does about
then, and all of it is put in again: at its old time with its old cook, or else with its old cook,
or (those beside) where there is room. The plan is taken if no more is late and no more has changed;
hands count before times. What is left out stays as it is.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass

from planner.check.timetable import check_timetable
from planner.replan.changes import LEAST_SHIFT
from planner.replan.match import Match
from planner.schedule.assemble import Choice, assemble
from planner.schedule.clusters import Clusters, clusters_of, linked
from planner.schedule.removal import state_of, take_out
from planner.schedule.run import WORK_PER_SECOND, Run
from planner.schedule.score import Scorer
from planner.schedule.state import State
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable
from planner.schedule.together import place_cluster

_MOST_BESIDE = 5
"""Clusters taken out beside the one that is to go back."""
_MOST_OUT = 10
"""With all that then has no room any more; where it is more, another try is better."""
_OWN = 0.7
"""Odds that one of those beside is tried with its own old cook first."""
_TIMES = 0.3
"""Odds that a batch at another time is tried though others are in other hands."""
_MOST_TRIES = 5000
_WORK = 400
"""Work of a try beyond the cooks looked at: rebuilding the state."""


@dataclass(frozen=True, slots=True)
class Old:
    """What people expect, as tables of the same problem in which batches have no other choice.

    ``hands``: every batch is its old cook's alone. ``times``: and starts no sooner than it was to.
    """

    hands: Tables
    times: Tables


Cost = tuple[int, ...]
"""What of a plan may not get worse; compared value by value."""


def lateness_alone(state: State, links: Clusters) -> Cost:
    """Weighted minutes late."""
    return (_late(state, links),)


def labor_too(state: State, links: Clusters) -> Cost:
    """Weighted minutes late, then minutes of labor."""
    return _late(state, links), Scorer(state.tables).score(state).labor


def calmed(
    run: Run,
    old: Old,
    timetable: Timetable,
    known: Match,
    cost: Callable[[State, Clusters], Cost] = lateness_alone,
) -> Timetable:
    """``timetable`` with fewer changes, within what is left of ``run``'s limit.

    ``cost`` is what may not get worse by it.
    """
    tables = run.tables
    links = linked(tables, clusters_of(tables))
    rng = random.Random(run.options.seed)  # noqa: S311 - a search, not a secret
    state = state_of(tables, timetable)
    least, moved, shifted = cost(state, links), *_changed(state, old, links, known)
    for _ in range(_MOST_TRIES):
        changed = moved or shifted
        if not changed or run.left() <= 0:
            break
        if shifted and rng.random() < _TIMES:
            changed = shifted
        new = _tried(rng, state, old, links, known, rng.choice(changed))
        run.spent += (_WORK if new is None else _WORK + new.work) / WORK_PER_SECOND
        if new is None:
            continue
        worth, (now_moved, now_shifted) = cost(new, links), _changed(new, old, links, known)
        changes = len(now_moved), len(now_shifted)
        if worth <= least and changes <= (len(moved), len(shifted)):
            state, least, moved, shifted = new, worth, now_moved, now_shifted
    choices = {t: Choice(e.worker, e.start, e.end) for t, e in state.entries.items()}
    found = assemble(tables, choices, state.unit_of, state.rests, state.cleaned())
    return timetable if check_timetable(tables.problem, found) else found


def _late(state: State, links: Clusters) -> int:
    """Weighted minutes late."""
    tasks, entries = state.tables.problem.tasks, state.entries
    return sum(
        tasks[task].due_weight * max(0, entries[task].end - due)
        for task, due in links.due
        if task in entries
    )


def _changed(state: State, old: Old, links: Clusters, known: Match) -> tuple[list[int], list[int]]:
    """Clusters with another cook though their old one could do them; others at another time."""
    moved: set[int] = set()
    shifted: set[int] = set()
    for task, entry in state.entries.items():
        before = known.old.get(task)
        if before is None:
            continue
        if before.worker != entry.worker:
            if list(old.hands.problem.tasks[task].minutes) == [before.worker]:
                moved.add(links.of_task[task])
        elif abs(before.start - entry.start) >= LEAST_SHIFT:
            shifted.add(links.of_task[task])
    return sorted(moved), sorted(shifted)


def _tried(
    rng: random.Random, state: State, old: Old, links: Clusters, known: Match, cluster: int
) -> State | None:
    """A copy of ``state`` with the cluster given back, or None."""
    loose = [cluster, *_beside(rng, state, links, known, cluster)]
    new = state.copy()
    tasks = [task for one in loose for task in links.tasks[one]]
    out = {links.of_task[task] for task in take_out(new, tasks, links.tied)}
    if len(out) > _MOST_OUT:
        return None
    for one in sorted(out, key=lambda each: (state.entries[links.tasks[each][0]].start, each)):
        ways = [old.times, old.hands] if one == cluster else [old.times, old.hands, state.tables]
        if one != cluster and rng.random() >= _OWN:
            ways = [state.tables]
        for way in ways:
            new.tables = way
            if place_cluster(new, links.tasks[one], 0.0):
                break
        else:
            return None
    new.tables = state.tables
    return new


def _beside(
    rng: random.Random, state: State, links: Clusters, known: Match, cluster: int
) -> list[int]:
    """Some of what the cluster's old cook does nearest its old time."""
    old = next(known.old[task] for task in links.tasks[cluster] if task in known.old)
    near = sorted(state.lines[old.worker], key=lambda entry: abs(entry.start - old.start))
    found = list(dict.fromkeys(links.of_task[entry.task] for entry in near))
    return [one for one in found if one != cluster][: rng.randint(0, _MOST_BESIDE)]
