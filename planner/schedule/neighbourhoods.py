"""Which jobs to free next: small sets in which a better order, cook or time may hide."""

import random
from collections.abc import Callable
from dataclasses import dataclass, field

from planner.schedule.assemble import Incumbent
from planner.schedule.tables import Tables

_CREW = 6
"""A neighbourhood is offered to so many cooks at most, and frees work of no more."""
_SMALLEST, _LARGEST = 8, 48
_REACHES = (60, 60, 120, None)
"""Near moves make small models and find most; far ones find the rest."""


@dataclass(frozen=True, slots=True)
class Neighbourhood:
    """Jobs to free, the cooks they may go to, and how far (minutes; None: anywhere)."""

    kind: str
    jobs: frozenset[int]
    workers: frozenset[int]
    reach: int | None


Pick = Callable[["Chooser", random.Random], list[int]]


@dataclass(slots=True)
class Chooser:
    """Picks neighbourhoods of an incumbent; kinds that helped lately are picked more often."""

    tables: Tables
    incumbent: Incumbent
    size: int = 20
    """Tasks to free, roughly."""
    credit: dict[str, float] = field(default_factory=lambda: dict.fromkeys(_KINDS, 1.0))

    def choose(self, rng: random.Random, taken: frozenset[int] = frozenset()) -> Neighbourhood:
        """Pick one, leaving out jobs ``taken`` by another search of the same round."""
        kinds = [k for k in _KINDS if k != "trouble" or self._troubled()]
        kind = rng.choices(kinds, [self.credit[k] for k in kinds])[0]
        # Some kinds may find nothing: no task has a lead, nobody works at a station.
        found = _KINDS[kind](self, rng) or _window(self, rng)
        order = [job for job in found if job not in taken]
        jobs = self._fill(order)
        return Neighbourhood(kind, jobs, self._crew(jobs, rng), rng.choice(_REACHES))

    def learn(self, kind: str, *, helped: bool, exhausted: bool) -> None:
        """Reward a kind that helped; grow when searches finish, shrink when they time out."""
        self.credit[kind] = 0.9 * self.credit[kind] + (1.0 if helped else 0.05)
        step = 1 if exhausted else -2
        self.size = min(_LARGEST, max(_SMALLEST, self.size + step))

    def _troubled(self) -> bool:
        return bool(self.late() or self.missing())

    def late(self) -> list[int]:
        """Tasks done after they are due."""
        tasks = self.tables.problem.tasks
        return [
            index
            for index, item in sorted(self.incumbent.by_task.items())
            if (due := tasks[index].due) is not None and item.end > due
        ]

    def missing(self) -> list[int]:
        """Jobs that could be made and are not."""
        jobs = range(len(self.tables.problem.jobs))
        return [j for j in jobs if j not in self.incumbent.done and j not in self.tables.impossible]

    def job(self, task: int) -> int:
        """The job a task belongs to."""
        return self.tables.problem.tasks[task].lot

    def near(self, time: float, workers: frozenset[int] | None = None) -> list[int]:
        """Jobs by how near ``time`` they are worked on, of some cooks only or of all."""
        items = [
            item
            for item in self.incumbent.by_task.values()
            if workers is None or item.worker in workers
        ]
        items.sort(key=lambda item: (abs((item.start + item.end) / 2 - time), item.task))
        return list(dict.fromkeys(self.job(item.task) for item in items))

    def moment(self, rng: random.Random) -> float:
        """A time at which somebody works."""
        items = list(self.incumbent.by_task.values())
        return float(rng.choice(items).start) if items else 0.0

    def _fill(self, order: list[int]) -> frozenset[int]:
        """The first jobs of the order, as many as are to be freed, on the lines of few cooks."""
        chosen: list[int] = []
        cooks: set[int] = set()
        count = 0
        by_task = self.incumbent.by_task
        for job in order:
            if job in self.tables.impossible:
                continue
            tasks = self.tables.problem.jobs[job].tasks
            current = {by_task[t].worker for t in tasks if t in by_task}
            if chosen and len(cooks | current) > _CREW:
                continue  # a model of many lines is slow to build and seldom solved
            cooks |= current
            count += len(tasks)
            chosen.append(job)
            if count >= self.size:
                break
        return frozenset(chosen)

    def _crew(self, jobs: frozenset[int], rng: random.Random) -> frozenset[int]:
        tasks = [t for job in jobs for t in self.tables.problem.jobs[job].tasks]
        able = sorted({w for t in tasks for w in self.tables.problem.tasks[t].minutes})
        if len(able) <= _CREW:
            return frozenset(able)
        current = {self.incumbent.by_task[t].worker for t in tasks if t in self.incumbent.by_task}
        rest = [w for w in able if w not in current]
        rng.shuffle(rest)
        return frozenset([*sorted(current), *rest[: max(1, _CREW - len(current))]])


def _window(chooser: Chooser, rng: random.Random) -> list[int]:
    return chooser.near(chooser.moment(rng))


def _two_cooks(chooser: Chooser, rng: random.Random) -> list[int]:
    busy = sorted(chooser.incumbent.lines)
    if not busy:
        return []
    pair = frozenset(rng.sample(busy, min(2, len(busy))))
    return chooser.near(chooser.moment(rng), pair)


def _one_station(chooser: Chooser, rng: random.Random) -> list[int]:
    """Work at one station, in time order from a random moment on."""
    problem = chooser.tables.problem
    station = rng.choice(sorted({family.station for family in problem.families}))
    moment = chooser.moment(rng)
    return [
        job
        for job in chooser.near(moment)
        if any(
            problem.families[problem.tasks[t].family].station == station
            for t in problem.jobs[job].tasks
        )
    ]


def _one_operation(chooser: Chooser, rng: random.Random) -> list[int]:
    """Everything of one movement, to bring it together, and what lies beside it."""
    problem = chooser.tables.problem
    operation = rng.choice(sorted({family.operation for family in problem.families}))
    same = [
        index
        for index, task in enumerate(problem.tasks)
        if problem.families[task.family].operation == operation
    ]
    rng.shuffle(same)
    jobs = [chooser.job(task) for task in same]
    return list(dict.fromkeys([*jobs, *_beside(chooser, same)]))


def _dear_leads(chooser: Chooser, rng: random.Random) -> list[int]:
    """Tasks with a long lead, and their neighbours on the line."""
    items = [item for item in chooser.incumbent.by_task.values() if item.lead.total]
    items.sort(key=lambda item: (-item.lead.total * rng.random(), item.task))
    seeds = [item.task for item in items[: max(3, chooser.size // 4)]]
    beside = _beside(chooser, seeds)
    return list(dict.fromkeys([*(chooser.job(task) for task in seeds), *beside]))


def _beside(chooser: Chooser, tasks: list[int]) -> list[int]:
    found: list[int] = []
    for task in tasks:
        item = chooser.incumbent.by_task.get(task)
        if item is not None:
            line = chooser.incumbent.lines[item.worker]
            at = line.index(task)
            found += [chooser.job(other) for other in line[max(0, at - 2) : at + 3]]
    return found


def _trouble(chooser: Chooser, rng: random.Random) -> list[int]:
    """A late or missing item, the chain it hangs on, and what competes with that chain."""
    problem = chooser.tables.problem
    late, missing = chooser.late(), chooser.missing()
    job = rng.choice([*(chooser.job(task) for task in late), *missing])
    chain = [job]
    for link in chain:
        chain += [need for need in problem.jobs[link].needs if need not in chain]
    times = [
        chooser.incumbent.by_task[t].start
        for link in chain
        for t in problem.jobs[link].tasks
        if t in chooser.incumbent.by_task
    ]
    rest = chooser.near(rng.choice(times) if times else chooser.moment(rng))
    consumers = list(chooser.tables.needed_by[job])
    return list(dict.fromkeys([*chain, *consumers, *rest]))


_KINDS: dict[str, Pick] = {
    "window": _window,
    "two cooks": _two_cooks,
    "station": _one_station,
    "operation": _one_operation,
    "leads": _dear_leads,
    "trouble": _trouble,
}
