"""Small projects under scarce resources, and their least finish by trying every order.

No package of the registry carries the published sets of such projects (only readers of their
files), so they are drawn here: activities of some minutes that follow others, and take units of
several resources all the while. The least finish is found apart from the planner: one by one, in
every order that the precedences allow, each activity is put where it fits first. That some order
leads to a best timetable is a classic of project scheduling (serial generation makes all active
timetables; from memory: R. Kolisch, European Journal of Operational Research 90, 1996).
"""

import random
from dataclasses import dataclass
from functools import cache

from planner.schedule.problem import (
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Promise,
    Resource,
    Serving,
    Task,
    Wait,
    Worker,
)


@dataclass(frozen=True)
class Project:
    """Per activity: minutes, what it follows, units of each resource; and the capacities.

    ``hands`` is how many people there are, each on one activity at a time; None: enough.
    """

    minutes: tuple[int, ...]
    follows: tuple[frozenset[int], ...]
    units: tuple[tuple[int, ...], ...]
    capacity: tuple[int, ...]
    hands: int | None


def draw_project(seed: int, activities: int = 7, resources: int = 2) -> Project:
    """A project at random, the same for the same seed; every other one has too few people."""
    rng = random.Random(seed)  # noqa: S311 - a test, not a secret
    capacity = tuple(rng.randint(3, 5) for _ in range(resources))
    follows = []
    for activity in range(activities):
        earlier = rng.sample(range(activity), min(activity, rng.choice((0, 0, 1, 1, 2))))
        follows.append(frozenset(earlier))
    return Project(
        minutes=tuple(rng.randint(1, 10) for _ in range(activities)),
        follows=tuple(follows),
        units=tuple(
            tuple(rng.choice((0, 1, 1)) * rng.randint(2, most) for most in capacity)
            for _ in range(activities)
        ),
        capacity=capacity,
        hands=rng.randint(2, 3) if seed % 2 else None,
    )


def as_problem(project: Project) -> Problem:
    """The project in the planner's own terms, so that only the finish is left to minimise."""
    count, horizon = len(project.minutes), sum(project.minutes)
    people = range(count if project.hands is None else project.hands)
    return Problem(
        start=0,
        horizon=horizon,
        workers=tuple(Worker(f"cook {w}", 0, horizon, horizon) for w in people),
        resources=tuple(Resource(f"kind {k}", most) for k, most in enumerate(project.capacity)),
        families=(Family("do", "part", "site", Hygiene(), 0),),
        tasks=tuple(
            Task(
                f"activity {a}",
                a,
                0,
                {a: minutes} if project.hands is None else dict.fromkeys(people, minutes),
                0,
            )
            for a, minutes in enumerate(project.minutes)
        ),
        jobs=tuple(
            Job(f"job {a}", (a,), tuple(sorted(before)), (Serving(a, "part", 1),))
            for a, before in enumerate(project.follows)
        ),
        waits=tuple(
            Wait(before, a) for a, earlier in enumerate(project.follows) for before in earlier
        ),
        holds=tuple(
            Hold(kind, a, a, units)
            for a, each in enumerate(project.units)
            for kind, units in enumerate(each)
            if units
        ),
        promises=tuple(Promise(f"part {a}", 1) for a in range(count)),
    )


@cache
def least_finish(project: Project) -> int:
    """The least finish, by every order that the precedences allow."""
    needs = [(*units, 1) if project.hands is not None else units for units in project.units]
    capacity = project.capacity
    if project.hands is not None:
        capacity = (*capacity, project.hands)
    count = len(project.minutes)
    used = [[0] * sum(project.minutes) for _ in capacity]
    ends: dict[int, int] = {}
    best = sum(project.minutes)

    def fits(activity: int, start: int) -> bool:
        stretch = range(start, start + project.minutes[activity])
        return all(
            used[kind][minute] + units <= capacity[kind]
            for kind, units in enumerate(needs[activity])
            if units
            for minute in stretch
        )

    def fill(activity: int, start: int, sign: int) -> None:
        for minute in range(start, start + project.minutes[activity]):
            for kind, units in enumerate(needs[activity]):
                used[kind][minute] += sign * units

    def place_rest() -> None:
        nonlocal best
        if max(ends.values(), default=0) >= best:
            return
        if len(ends) == count:
            best = max(ends.values())
            return
        for activity in range(count):
            if activity in ends or not project.follows[activity] <= ends.keys():
                continue
            start = max((ends[before] for before in project.follows[activity]), default=0)
            while not fits(activity, start):
                start += 1
            fill(activity, start, 1)
            ends[activity] = start + project.minutes[activity]
            place_rest()
            del ends[activity]
            fill(activity, start, -1)

    place_rest()
    return best
