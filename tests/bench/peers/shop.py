"""PyJobShop, a library for scheduling problems, given the same problem as far as it can say it.

Cooks are machines with breaks, places and equipment are renewables, each lot is an optional group
of tasks. A lot that is left out costs its portions, as a job that is so many minutes late. It
cannot say: cleaning and the state of a surface, equipment held during a lead, overtime, different
minutes of labor by pace, freshness beyond the earliest end, and that a dish is as short as its
shortest component (lots add up instead). Terms are weighed, not ordered.
"""

import time
from collections import defaultdict
from dataclasses import dataclass, field

from pyjobshop import Model, Solution
from pyjobshop.ProblemData import Machine, Renewable, Task

from planner.schedule.assemble import Choice
from planner.schedule.problem import Hold, Problem
from planner.schedule.tables import Tables, tables_of
from tests.bench.generate import Instance
from tests.bench.peers.outcome import Outcome
from tests.bench.peers.retime import retimed

MOST_SETUPS = 300_000
"""Pairs of tasks with a set-up time between them, over all cooks: more would not fit in memory."""
_THREADS = 2
_SHORT, _LATE = 100, 10
"""A portion short in minutes late, a minute late in minutes of set-up. Much more overflows: the
library's times run to 2**42, and the solver refuses sums beyond 2**63."""


def with_set_ups(instance: Instance, seconds: float, seed: int) -> Outcome:
    """With a set-up time between any two tasks of different families of a cook."""
    return _plan(instance, seconds, seed, set_ups=True)


def without_set_ups(instance: Instance, seconds: float, seed: int) -> Outcome:
    """Without set-up times, which is much easier; they are put in afterwards."""
    return _plan(instance, seconds, seed, set_ups=False)


def _plan(instance: Instance, seconds: float, seed: int, *, set_ups: bool) -> Outcome:
    began = time.monotonic()
    problem = instance.problem
    tables = tables_of(problem)
    if set_ups and (pairs := _pairs(problem)) > MOST_SETUPS:
        note = f"about {pairs:,} set-up times, over {MOST_SETUPS:,}"
        return Outcome(None, None, "not tried", note=note)
    model = _Model(tables)
    model.add_lots()
    if set_ups:
        model.add_set_ups()
    model.model.set_objective(weight_total_tardiness=_LATE, weight_total_setup_time=int(set_ups))
    left = seconds - (time.monotonic() - began)
    if left <= 0:
        return Outcome(None, None, "none", note=f"not built within {seconds:g} s")
    result = model.model.solve(
        time_limit=left, display=False, num_workers=_THREADS, random_seed=seed
    )
    if not result.best.tasks:
        return Outcome(None, None, "none", note="no plan in time")
    plan, again = retimed(tables, model.choices(result.best))
    status = result.status.value.lower()
    return Outcome(plan, None, f"its own: {status}", note="placed again" if again else "")


def _pairs(problem: Problem) -> int:
    able = [sum(w in task.minutes for task in problem.tasks) for w in range(len(problem.workers))]
    return sum(count**2 for count in able)


@dataclass
class _Model:
    """The library's model as it grows."""

    tables: Tables
    model: Model = field(default_factory=Model)
    machines: list[Machine] = field(default_factory=list)
    renewables: list[Renewable] = field(default_factory=list)
    tasks: list[Task] = field(default_factory=list)

    @property
    def far(self) -> int:
        """A time after everything (minutes), so that a break can end the day."""
        return self.tables.problem.horizon + 10_000

    def add_lots(self) -> None:
        """Add cooks, resources and every lot with its waits, needs and price."""
        problem = self.tables.problem
        for worker in problem.workers:
            breaks = [(0, worker.start), *worker.blocked, (worker.latest_end, self.far)]
            self.machines.append(self.model.add_machine(breaks, name=worker.id))
        for resource in problem.resources:
            self.renewables.append(self.model.add_renewable(resource.capacity, name=resource.id))
        self._add_tasks()
        groups: dict[int, list[Task]] = {
            index: [self.tasks[task] for task in job.tasks]
            for index, job in enumerate(problem.jobs)
        }
        for hold in problem.holds:
            if hold.first != hold.last or hold.tail:
                groups[problem.tasks[hold.first].lot].append(self._long_hold(hold))
        for index, job in enumerate(problem.jobs):
            if len(groups[index]) > 1:
                self.model.add_select_all_or_none(groups[index])
            for need in job.needs:
                self.model.add_select_at_least_one([groups[need][0]], groups[index][0])
            self._add_price(index)
        for wait in problem.waits:
            before, after = self.tasks[wait.before], self.tasks[wait.after]
            self.model.add_end_before_start(before, after, wait.minimum)
            if wait.maximum is not None:
                self.model.add_start_before_end(after, before, -wait.maximum)

    def _add_tasks(self) -> None:
        problem = self.tables.problem
        short_holds: dict[int, dict[int, int]] = defaultdict(lambda: defaultdict(int))
        for hold in problem.holds:
            if hold.first == hold.last and not hold.tail:
                short_holds[hold.first][hold.resource] += hold.units
        for index, task in enumerate(problem.tasks):
            job = None
            if task.due is not None:
                job = self.model.add_job(weight=task.due_weight, due_date=task.due)
            added = self.model.add_task(
                job=job,
                earliest_start=max(task.release, problem.start),
                earliest_end=task.earliest_end or 0,
                latest_end=problem.horizon if task.until is None else task.until,
                optional=True,
            )
            self.tasks.append(added)
            held = short_holds[index]
            for worker, minutes in task.minutes.items():
                self.model.add_mode(
                    added,
                    [self.machines[worker], *(self.renewables[r] for r in held)],
                    minutes,
                    [0, *held.values()],
                )

    def _long_hold(self, hold: Hold) -> Task:
        """Equipment held across tasks: a task of its own that waits as long as need be."""
        added = self.model.add_task(allow_idle=True, optional=True)
        self.model.add_mode(added, [self.renewables[hold.resource]], 1, [hold.units])
        self.model.add_start_at_start(self.tasks[hold.first], added)
        self.model.add_end_at_end(self.tasks[hold.last], added, hold.tail)
        return added

    def _add_price(self, index: int) -> None:
        """Either the lot is made, or a task is late by as many minutes as it serves portions."""
        problem = self.tables.problem
        job = problem.jobs[index]
        portions = sum(problem.promises[s.promise].weight * s.portions for s in job.serves)
        if portions:
            late = self.model.add_job(weight=_SHORT, due_date=0)
            price = self.model.add_task(job=late, earliest_start=portions, optional=True)
            self.model.add_mode(price, [], 0)
            self.model.add_select_exactly_one([self.tasks[job.tasks[0]], price])

    def add_set_ups(self) -> None:
        """Add the lead between any two tasks of a cook as a set-up time; surfaces have none.

        A task of no minutes at the start of each shift stands before the first one.
        """
        tasks = self.tables.problem.tasks
        for worker, machine in enumerate(self.machines):
            start = self.tables.problem.workers[worker].start
            opening = self.model.add_task(earliest_start=start, latest_start=start)
            self.model.add_mode(opening, [machine], 0)
            able = [index for index, task in enumerate(tasks) if worker in task.minutes]
            for index in able:
                minutes = self.tables.lead(None, index).total
                self.model.add_setup_time(machine, opening, self.tasks[index], minutes)
            for first in able:
                for second in able:
                    minutes = self.tables.lead(first, second).total
                    if first != second and minutes:
                        self.model.add_setup_time(
                            machine, self.tasks[first], self.tasks[second], minutes
                        )

    def choices(self, solution: Solution) -> dict[int, Choice]:
        """Cook, start and end of every task that is made."""
        cooks = len(self.machines)
        found: dict[int, Choice] = {}
        place = {id(task): index for index, task in enumerate(self.model.tasks)}
        for index, task in enumerate(self.tasks):
            told = solution.tasks[place[id(task)]]
            if told.present:
                worker = next(r for r in told.resources if r < cooks)
                found[index] = Choice(worker, told.start, told.end)
        return found
