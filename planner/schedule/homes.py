"""Who did what in a plan before, and how much another plan changes of it."""

from bisect import bisect
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from planner.schedule.state import State
from planner.schedule.tables import Tables


class Changed(NamedTuple):
    """How much of a plan is different for people; fewer hands count before places.

    ``moved`` are tasks that are not with their own cook, ``turned`` pairs of tasks, both with their
    own cook, of which the later one comes first now.
    """

    moved: int
    turned: int


UNCHANGED = Changed(0, 0)


@dataclass(frozen=True, slots=True)
class Homes:
    """Cooks that tasks had before, where each should stay if nothing is short or late for it.

    ``tables`` are of the same problem with every such task its own cook's alone; ``workers`` are
    those cooks by task, ``starts`` when the tasks were to start (minutes).
    """

    tables: Tables
    workers: Mapping[int, int]
    starts: Mapping[int, int]

    def changed(self, state: State) -> Changed:
        """What is different in a plan."""
        entries = state.entries
        moved = sum(
            task in entries and entries[task].worker != worker
            for task, worker in self.workers.items()
        )
        return Changed(
            moved, sum(self._turned(state, worker) for worker in range(len(state.lines)))
        )

    def _turned(self, state: State, worker: int) -> int:
        """Pairs of one cook's own tasks that have changed places."""
        found = 0
        before: list[int] = []
        for entry in state.lines[worker]:
            if self.workers.get(entry.task) == worker:
                start = self.starts[entry.task]
                place = bisect(before, start)
                found += len(before) - place
                before.insert(place, start)
        return found
