"""What turning to a family, to an operation at a station, and to a station costs at least.

Each family a cook works on is turned to for the first time once. Where that is also the first time
at its station, or of its operation there, the turn costs more than the least into the family: the
difference is charged to the station or the operation. Each turn is charged for once, so the charges
of a cook's day sum up to no more than its changeovers: a least arborescence over what the cook
does, since changeovers depend on the largest difference alone.
"""

from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from planner.schedule.capacity import free_minutes, thinned
from planner.schedule.leads import needs_clean, walks_of
from planner.schedule.problem import Family, Hygiene, Problem
from planner.schedule.spans import Spans
from planner.schedule.tables import Tables

_MOMENTS = 12
"""Beginnings and ends of stretches looked at for crews, at most, each."""
Group = tuple[str, str]
"""Station and operation."""


@dataclass(frozen=True, slots=True)
class Turns:
    """Minutes of changeover: into a family, and beyond that into a group and into a station."""

    family: tuple[int, ...]
    group: dict[Group, int]
    station: dict[str, int]
    group_of: tuple[Group, ...]
    alike: tuple[int, ...]
    """Per family: the first one equal to it; between the two there is no lead."""

    def entry(self, family: int) -> int:
        """What is charged for the first turn of a cook, into ``family``."""
        group = self.group_of[family]
        return self.family[family] + self.group[group] + self.station[group[0]]


def turns_of(tables: Tables) -> Turns:
    """Work out the charges: changeovers alone, without set-up, hand-wash and cleaning."""
    problem = tables.problem
    families = problem.families
    groups = [(family.station, family.operation) for family in families]
    members: dict[Group, list[int]] = defaultdict(list)
    for index, group in enumerate(groups):
        members[group].append(index)
    stations: dict[str, list[Group]] = defaultdict(list)
    for group in members:
        stations[group[0]].append(group)
    costs = problem.changeovers
    least = [0] * len(families)
    extra: dict[Group, int] = {}
    beyond: dict[str, int] = {}
    nearest = _nearest(problem, list(stations))
    for group, inside in members.items():
        outside = []
        if len(stations) > 1:
            outside.append(nearest[group[0]])
        if len(stations[group[0]]) > 1:
            outside.append(costs.another_operation)
        into = min(outside, default=0)
        for index in inside:
            within = [
                0 if families[other].food == families[index].food else costs.another_food
                for other in inside
                if other != index
            ]
            least[index] = min([*within, *outside], default=0)
        extra[group] = max(0, into - max(least[index] for index in inside))
    for station, inside_groups in stations.items():
        most = max(
            extra[group] + max(least[index] for index in members[group]) for group in inside_groups
        )
        beyond[station] = max(0, nearest[station] - most) if len(stations) > 1 else 0
    first: dict[Family, int] = {}
    alike = tuple(first.setdefault(family, index) for index, family in enumerate(families))
    return Turns(tuple(least), extra, beyond, tuple(groups), alike)


def _nearest(problem: Problem, stations: Sequence[str]) -> dict[str, int]:
    """Minutes to each station from the nearest other one."""
    walks = walks_of(problem.changeovers)
    usual = problem.changeovers.another_station
    return {
        one: min(
            (walks.get((other, one), usual) for other in stations if other != one), default=usual
        )
        for one in stations
    }


def crews(tables: Tables, spans: Spans, turns: Turns) -> dict[tuple[str, str | None], int]:
    """Cooks who turn to each group, and to each (station, None), at least.

    What is certainly done there and must lie within a stretch of the day takes at least its least
    minutes; no cook has more than the stretch.
    """
    tasks, workers = tables.problem.tasks, tables.problem.workers
    members: dict[tuple[str, str | None], list[int]] = defaultdict(list)
    for index, task in enumerate(tasks):
        if task.lot in spans.certain and spans.by_worker[index]:
            group = turns.group_of[task.family]
            members[group].append(index)
            members[group[0], None].append(index)
    found: dict[tuple[str, str | None], int] = {}
    for key, inside in members.items():
        able = {worker for index in inside for worker in spans.by_worker[index]}
        least = {i: min(tasks[i].minutes[w] for w in spans.by_worker[i]) for i in inside}
        worst = 1
        for begin in thinned({spans.earliest[i] for i in inside}, _MOMENTS):
            late = [i for i in inside if spans.earliest[i] >= begin]
            for end in thinned({spans.latest[i] for i in late}, _MOMENTS):
                needed = sum(least[i] for i in late if spans.latest[i] <= end)
                most = max(free_minutes(workers[w], begin, end) for w in able)
                worst = max(worst, -(-needed // max(1, most)))
        found[key] = worst
    return found


def apart(kinds: Collection[Hygiene]) -> list[Hygiene]:
    """Kinds of food that each soil for what does not share their own soil, no two alike.

    With U(k) all kinds that may follow k uncleaned, k among them, the U of the kinds returned are
    disjoint. Leaving U(k) always needs a clean, by transitivity, so each kind returned has a clean
    of its own, unless the rest of the day stays within its U(k).
    """
    after = {
        kind: frozenset(other for other in kinds if not needs_clean(kind, other)) for kind in kinds
    }
    found: list[Hygiene] = []
    taken: set[Hygiene] = set()
    for kind in sorted(
        kinds, key=lambda k: (len(after[k]), k.raw_animal or "", sorted(k.allergens))
    ):
        if len(after[kind]) < len(kinds) and not after[kind] & taken:
            found.append(kind)
            taken |= after[kind]
    return found


def soiling(tables: Tables, resource: int) -> dict[Hygiene, frozenset[int]]:
    """Per kind of food that is cleaned off a contact resource for a reason of its own: its jobs.

    A unit is cleaned after each such kind that it holds, but the last of the day.
    """
    problem = tables.problem
    jobs: dict[Hygiene, set[int]] = defaultdict(set)
    for index, hold in enumerate(problem.holds):
        if hold.resource == resource:
            kind = problem.families[tables.hold_family(index)].hygiene
            jobs[kind].add(problem.tasks[hold.first].lot)
    return {kind: frozenset(jobs[kind]) for kind in apart(jobs)}
