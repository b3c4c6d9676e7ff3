"""Published job shops as kitchens: each machine is a station of one place with its own cook."""

import json
from dataclasses import dataclass
from pathlib import Path

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

DATA = Path(__file__).parent / "data" / "job_shops.json"


@dataclass(frozen=True)
class JobShop:
    """By job and operation: the machine and the minutes; and the least finish, proven."""

    name: str
    source: str
    optimum: int
    machines: list[list[int]]
    durations: list[list[int]]


def job_shops() -> dict[str, JobShop]:
    """Read the instances, by name."""
    with DATA.open(encoding="utf-8") as file:
        return {each["name"]: JobShop(**each) for each in json.load(file)["instances"]}


def as_problem(shop: JobShop) -> Problem:
    """Return ``shop`` in the planner's own terms, so that the last of the terms is the makespan.

    Each job serves one portion, so all are made. Nothing is due, set up or changed over, and nobody
    works overtime, so every whole timetable has the same labor and only the finish is left.
    """
    machines = range(1 + max(max(row) for row in shop.machines))
    horizon = sum(map(sum, shop.durations))
    tasks: list[Task] = []
    jobs: list[Job] = []
    waits: list[Wait] = []
    for number, (row, minutes) in enumerate(zip(shop.machines, shop.durations, strict=True)):
        first = len(tasks)
        for step, (machine, duration) in enumerate(zip(row, minutes, strict=True)):
            tasks.append(Task(f"{number}.{step}", number, machine, {machine: duration}, 0))
        own = range(first, len(tasks))
        waits += [Wait(before, before + 1) for before in own[:-1]]
        jobs.append(Job(f"job {number}", tuple(own), serves=(Serving(number, "job", 1),)))
    return Problem(
        start=0,
        horizon=horizon,
        workers=tuple(Worker(f"cook {m}", 0, horizon, horizon) for m in machines),
        resources=tuple(Resource(f"machine {m}", 1) for m in machines),
        families=tuple(Family(f"turn {m}", "part", f"machine {m}", Hygiene(), 0) for m in machines),
        tasks=tuple(tasks),
        jobs=tuple(jobs),
        waits=tuple(waits),
        holds=tuple(Hold(task.family, index, index) for index, task in enumerate(tasks)),
        promises=tuple(Promise(job.id, 1) for job in jobs),
    )
