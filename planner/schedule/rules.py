"""In which order work is placed, as people and simple programs would: the constructive rules."""

from dataclasses import dataclass

from planner.schedule.tables import Tables

FIRST_RULES = 4
"""Always heard, however little time there is: among them the orders people work in by hand."""

Key = tuple[int, str, int]
"""Urgency class, what counts as like work, urgency itself (minutes)."""


@dataclass(frozen=True, slots=True)
class Rule:
    """How to order clusters and how thrifty to be with leads.

    ``bucket`` is the width in minutes of the urgency classes inside which like work is grouped;
    ``by`` says what counts as like: ``operation`` or ``food``. 0: by urgency alone. By ``promise``,
    all that the promise due first needs comes before the next one's; by ``service``, like work is
    grouped among what is of use as long.
    """

    bucket: int
    by: str
    thrift: float

    def __str__(self) -> str:
        """How the rule is called where plans are told."""
        return self.by if self.by in _CALLED else f"{self.by} in {self.bucket} minutes"


STEP = 45
"""Minutes more urgent after a round of blame, at most."""
_CALLED = ("promise", "service")
RULES: tuple[Rule, ...] = (
    Rule(60, "operation", 2.0),
    Rule(0, "promise", 0.0),
    Rule(60, "operation", 4.0),
    Rule(0, "service", 4.0),
    Rule(0, "operation", 1.0),
    Rule(120, "operation", 4.0),
    Rule(30, "food", 2.0),
    Rule(30, "operation", 0.5),
    Rule(240, "operation", 6.0),
    Rule(120, "food", 6.0),
    Rule(0, "operation", 4.0),
)


@dataclass(frozen=True, slots=True)
class Classes:
    """Per job: the place of the promise due first that it is for, and until when it is of use."""

    promise: tuple[int, ...]
    service: tuple[int, ...]


def classes_of(tables: Tables) -> Classes:
    """Work out, per job, whom it is for, also through those that need it."""
    problem = tables.problem
    due: dict[int, int] = {}
    until: dict[int, int] = {}
    for job in problem.jobs:
        tasks = [problem.tasks[task] for task in job.tasks]
        for serving in job.serves:
            for found, times in (
                (due, [task.due for task in tasks if task.due is not None]),
                (until, [task.until for task in tasks if task.until is not None]),
            ):
                latest = max(times, default=None)
                if latest is not None:
                    found[serving.promise] = max(found.get(serving.promise, 0), latest)
    order = sorted(range(len(problem.promises)), key=lambda p: (due.get(p, problem.horizon), p))
    rank = {promise: place for place, promise in enumerate(order)}
    promises = [len(order)] * len(problem.jobs)
    services = [problem.horizon] * len(problem.jobs)
    for index in reversed(needs_first(tables)):
        for serving in problem.jobs[index].serves:
            promises[index] = min(promises[index], rank[serving.promise])
            services[index] = min(services[index], until.get(serving.promise, problem.horizon))
        for need in problem.jobs[index].needs:
            promises[need] = min(promises[need], promises[index])
            services[need] = min(services[need], services[index])
    return Classes(tuple(promises), tuple(services))


def key_of(tables: Tables, rule: Rule, group: list[int], bump: int, classes: Classes) -> Key:
    """Place of a cluster in the order of a rule; ``bump`` are minutes of blame."""
    tasks = [task for job in group for task in tables.problem.jobs[job].tasks]
    urgency = min(tables.urgency[task] for task in tasks) - bump
    family = tables.problem.families[tables.problem.tasks[tasks[0]].family]
    movement = f"{family.station}|{family.operation}|{family.food}"
    if rule.by == "promise":
        # Promises are seldom due less than minutes apart: what is to blame comes forward with them.
        return min(classes.promise[job] for job in group) - bump // STEP, "", urgency
    if rule.by == "service":
        return min(classes.service[job] for job in group) - bump, movement, urgency
    if rule.bucket == 0:
        return urgency, "", urgency
    like = (
        movement
        if rule.by == "operation"
        else (f"{family.food}|{family.station}|{family.operation}")
    )
    return urgency // rule.bucket, like, urgency


def needs_first(tables: Tables) -> list[int]:
    """Jobs so that each comes after what it needs."""
    order: list[int] = []
    seen: set[int] = set()
    for start in range(len(tables.problem.jobs)):
        stack = [(start, False)]
        while stack:
            job, expanded = stack.pop()
            if expanded:
                order.append(job)
            elif job not in seen:
                seen.add(job)
                stack.append((job, True))
                stack.extend((need, False) for need in tables.problem.jobs[job].needs)
    return order
