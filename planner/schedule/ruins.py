"""Which work to take out and put in again: near in time, on one line, alike, or in trouble's way.

Each kind returns clusters to take out, and those to put in before all others.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass

from planner.schedule.clusters import Clusters
from planner.schedule.state import Entry, State
from planner.schedule.tables import Tables

_LOOK_BACK = 90
"""Minutes before late work in which what could make way for it is looked for."""
_TROUBLES = 3
"""Links of a chain that is left out for which room is made at a time."""

Ruin = tuple[list[int], list[int]]


@dataclass(frozen=True, slots=True)
class Scene:
    """A timetable and the dice."""

    tables: Tables
    clusters: Clusters
    state: State
    rng: random.Random

    def around(self, workers: list[int], time: int, count: int) -> list[int]:
        """Clusters that these cooks work on nearest ``time``, at most so many in all."""
        each = -(-count // max(1, len(workers))) + 1
        near: list[tuple[int, int]] = []
        for worker in workers:
            line = self.state.lines[worker]
            near += sorted((abs(entry.start - time), entry.task) for entry in line)[:each]
        near.sort()
        return list(dict.fromkeys(self.clusters.of_task[task] for _, task in near))[:count]

    def any_entry(self) -> Entry | None:
        """A piece of work of any cook who has some."""
        busy = [line for line in self.state.lines if line]
        return self.rng.choice(self.rng.choice(busy)) if busy else None

    def some_able(self, task: int, fewest: int, most: int) -> list[int]:
        """Some of the cooks who can do a task."""
        able = [worker for worker, _ in self.tables.quickest[task]]
        return self.rng.sample(able, min(len(able), self.rng.randint(fewest, most)))


def _window(scene: Scene, count: int) -> Ruin:
    """What is worked on near a moment, by some of those who could do one piece of it."""
    entry = scene.any_entry()
    if entry is None:
        return [], []
    return scene.around(scene.some_able(entry.task, 2, 5), entry.start, count), []


def _cook(scene: Scene, count: int) -> Ruin:
    """A stretch of one cook's line."""
    entry = scene.any_entry()
    return ([], []) if entry is None else (scene.around([entry.worker], entry.start, count), [])


def _like(scene: Scene, count: int) -> Ruin:
    """Work at one station, of one operation or of one food, near a moment."""
    entry = scene.any_entry()
    if entry is None:
        return [], []
    families = scene.tables.problem.families
    trait = scene.rng.choice(("station", "operation", "food"))
    wanted = getattr(families[entry.family], trait)
    same = sorted(
        (abs(other.start - entry.start), other.task)
        for line in scene.state.lines
        for other in line
        if getattr(families[other.family], trait) == wanted
    )
    near = [task for _, task in same[: 2 * count]]
    picked = scene.rng.sample(near, min(len(near), count))
    return list(dict.fromkeys(scene.clusters.of_task[task] for task in picked)), []


def _trouble(scene: Scene, count: int) -> Ruin:
    """Something left out or late, what it needs, and what is in its way; it goes in first."""
    rng, state, clusters = scene.rng, scene.state, scene.clusters
    missing, late = clusters.missing(state), clusters.late(state)
    # What is left out counts for more; what is late may be all there is.
    pool = missing if missing and (not late or rng.random() < 0.7) else late
    if not pool:
        return _window(scene, count)
    chain = [rng.choice(pool)]
    for link in chain:
        chain += sorted(need for need in clusters.needs[link] if need not in chain)
    out = [link for link in chain if clusters.is_in(state, link) and rng.random() < 0.7]
    left = [link for link in chain if not clusters.is_in(state, link)][:_TROUBLES] or chain[:1]
    for link in left:
        task = rng.choice(clusters.tasks[link])
        entry = state.entries.get(task)
        if entry is None:
            low = scene.tables.earliest[task]
            time = rng.randint(low, max(low, scene.tables.latest[task]))
        else:
            time = entry.start - rng.randint(0, _LOOK_BACK)
        out += scene.around(scene.some_able(task, 1, 4), time, max(1, count // len(left)))
    return list(dict.fromkeys(out)), chain[::-1]


RUINS: dict[str, Callable[[Scene, int], Ruin]] = {
    "window": _window,
    "cook": _cook,
    "like": _like,
    "trouble": _trouble,
}
