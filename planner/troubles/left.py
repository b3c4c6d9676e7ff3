"""What a timetable leaves short and late, counted without weights."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from typing import NamedTuple

from planner.lots.promises import OWN
from planner.schedule.problem import Problem
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable
from planner.troubles.plated import Plated


class Rank(NamedTuple):
    """Less is better: what guests go short of, how late they are served, then the kitchen's own."""

    portions: int
    late: int
    kilos: int
    own_late: int


@dataclass(frozen=True, slots=True)
class Left:
    """Portions short by promise (of guests' dishes), own kilos short, and minutes late."""

    short: dict[str, int]
    kilos: int = 0
    late: int = 0
    """Minutes late of what guests wait for."""
    own_late: int = 0

    @property
    def portions(self) -> int:
        """Portions short, each dish and service once."""
        return sum(self.short.values())

    @property
    def rank(self) -> Rank:
        """What is compared."""
        return Rank(self.portions, self.late, self.kilos, self.own_late)

    def helps(self, before: "Left") -> bool:
        """Whether more guests are served, or as many and better, and none of those worse.

        Guests are served later, or others of them, only where more of them are served.
        """
        if self.portions == before.portions and self.short != before.short:
            return False
        return self.rank < before.rank


def left(problem: Problem, timetable: Timetable, plated: Plated) -> Left:
    """What is short and late of a timetable, and of food that dishes take as it is."""
    late = {True: 0, False: 0}
    for item in timetable.assignments:
        task = problem.tasks[item.task]
        if task.due is not None:
            late[_is_own(problem, task.lot)] += max(0, item.end - task.due)
    done = {problem.tasks[item.task].lot for item in timetable.assignments}
    short, kilos = _short(problem, done, plated)
    return Left(short, kilos, late[False] + sum(one.minutes for one in plated.late), late[True])


def least(tables: Tables, plated: Plated) -> Left:
    """What no timetable can leave less of."""
    possible = set(range(len(tables.problem.jobs))) - tables.impossible
    short, kilos = _short(tables.problem, possible, plated)
    return Left(short, kilos, sum(one.minutes for one in plated.late))


def _is_own(problem: Problem, job: int) -> bool:
    """Whether no guest waits for what a lot is the end of."""
    promises = [problem.promises[serving.promise].id for serving in problem.jobs[job].serves]
    return all(promise.startswith(f"{OWN}:") for promise in promises)


def _short(problem: Problem, done: Collection[int], plated: Plated) -> tuple[dict[str, int], int]:
    """Portions by promise and own kilos: each as short as what it lacks most of."""
    missing: dict[str, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for index, job in enumerate(problem.jobs):
        if index not in done:
            for serving in job.serves:
                promise = problem.promises[serving.promise]
                missing[promise.id][serving.component] += serving.portions
    most = {promise.id: promise.portions for promise in problem.promises}
    short: dict[str, int] = defaultdict(int)
    kilos = 0
    for name, amounts in missing.items():
        if name.startswith(f"{OWN}:"):
            kilos += max(amounts.values())
        else:
            short[name] = min(max(amounts.values()), most[name])
    for lack in plated.lacks:
        short[lack.promise] = max(short[lack.promise], lack.portions)
    return {name: count for name, count in short.items() if count}, kilos
