"""Seeded events on house-size mornings: how soon there is a repaired plan, and how good it is.

``python -m tests.bench.replans --out docs/benchmarks.md`` plans mornings of house size (about 80
lots, five cooks): the bundled kitchen's days with covers and services drawn by seed. They are
planned in deterministic time, so every run has the same mornings. It draws events of every kind on
each, replans, and prints one table. Every plan is checked by the independent checker; what raises
is unplannable.
"""

import argparse
import datetime as dt
import json
import os
import platform
import random
import statistics
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from importlib.metadata import version
from itertools import combinations
from pathlib import Path

from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.replan.begun import work_of
from planner.replan.changes import Change, Kind
from planner.replan.course import Course, course_of
from planner.replan.events import (
    CookGone,
    CookLate,
    CoversChanged,
    DeliveryLate,
    EquipmentDown,
    Event,
    Overran,
    Spoiled,
)
from planner.replan.replan import replan
from planner.schedule.search import SearchOptions
from planner.schedule.timetable import Score
from tests.bench.page import filled

KINDS = (
    "cook gone",
    "cook late",
    "overran",
    "equipment down",
    "covers changed",
    "delivery late",
    "spoiled",
)
_FILE = Path(__file__).parents[2] / "seed_data" / "demo.json"
_PLAN_LIMIT = 0.5
"""Deterministic time for each morning."""
_MOST_SERVICES = 2
"""Of a day: one with more would be larger than a house."""
_TIMES = 7 * 60, 17 * 60
"""When events happen, minutes after midnight."""
_UNNOTICED = 10
"""Minutes within which it is noticed that a batch is not done when it should be."""
_COVERS = 0.8, 1.1
"""Of the file's covers, each service of a morning by itself."""
_FIRST, _GOOD = 0.5, 3.0
"""Seconds within which there should be a first plan, and the last."""
MARK = "replans"


@dataclass(frozen=True, slots=True)
class Result:
    """One event and what came of it; scores are (short, late), weighted."""

    kind: str
    seed: int
    now: int
    lots: int
    before: tuple[int, int]
    first: tuple[int, int]
    first_seconds: float
    last: tuple[int, int]
    seconds: float
    rung: int
    moved: int
    of_choice: int
    turned: int
    """Pairs of tasks, both with the cook they were with, that have changed places in the day."""
    failed: str = ""


def morning(seed: int) -> tuple[Kitchen, Plan]:
    """A day of the bundled kitchen as seed has it; odd and even seeds take turns with the days."""
    rng = random.Random(f"morning {seed}")  # noqa: S311 - a draw, not a secret
    file = json.loads(_FILE.read_bytes())
    for service in file["services"]:
        service["covers"] = round(service["covers"] * rng.uniform(*_COVERS))
    dates = sorted({service["date"] for service in file["services"]})
    date = dates[seed % len(dates)]
    today = [service for service in file["services"] if service["date"] == date]
    for service in rng.sample(today, max(0, len(today) - _MOST_SERVICES)):
        file["services"].remove(service)
    kitchen = read_kitchen(json.dumps(file).encode())
    options = PlanOptions(deterministic_limit=_PLAN_LIMIT, seed=seed, remedies=False)
    return kitchen, plan_morning(kitchen, dt.date.fromisoformat(date), options)


def event(rng: random.Random, kind: str, kitchen: Kitchen, plan: Plan, now: int) -> Event:
    """An event of a kind; batches are those that have begun, or are under way, if any are."""
    times = {one.task: (one.start, one.end) for one in plan.solution.timetable.assignments}
    lots = [lot for lot in plan.workload.lots if times.get(work_of(lot), (now, now))[0] < now]
    fresh = [lot for lot in lots if max(times[t.task][1] for t in lot.tasks) > now - _UNNOTICED]
    lot = rng.choice(lots or list(plan.workload.lots)).id
    under_way = rng.choice(fresh or list(plan.workload.lots)).id
    soon = now + rng.randint(15, 90)
    today = [one for one in kitchen.services if one.date == plan.date]
    service = rng.choice(today)
    share = rng.choice((0.8, 0.9, 1.1, 1.2))
    items = sorted({d.item for d in kitchen.deliveries if d.date == plan.date})
    items = items or [one.id for one in kitchen.ingredients]
    down = [r.id for r in plan.workload.problem.resources if r.id.startswith("equipment:")]
    workers = zip(plan.workload.cooks, plan.workload.problem.workers, strict=True)
    late = min(workers, key=lambda one: abs(one[1].start - now))[0]
    found: dict[str, Event] = {
        "cook gone": CookGone(rng.choice(plan.workload.cooks), now),
        "cook late": CookLate(late, soon),
        "overran": Overran(under_way, soon),
        "equipment down": EquipmentDown(
            rng.choice(down).partition(":")[2], 1, rng.choice((None, soon))
        ),
        "covers changed": CoversChanged(service.id, round(service.covers * share)),
        "delivery late": DeliveryLate(rng.choice(items), rng.choice((None, soon, soon))),
        "spoiled": Spoiled(lot),
    }  # fmt: skip
    return found[kind]


def run(kitchen: Kitchen, plan: Plan, kind: str, seed: int, number: int, seconds: float) -> Result:
    """Replan after one event."""
    rng = random.Random(f"event {seed} {number}")  # noqa: S311 - a draw, not a secret
    now = rng.randint(*_TIMES)
    if kind == "cook late":  # It is noticed when the shift begins.
        now = rng.choice(plan.workload.problem.workers).start + rng.randint(0, 15)
    told = event(rng, kind, kitchen, plan, now)
    at: list[tuple[float, Score]] = []
    began = time.monotonic()

    def first(_changes: tuple[Change, ...], score: Score) -> None:
        at.append((time.monotonic() - began, score))

    before = (plan.solution.score.short, plan.solution.score.tardiness)
    try:
        found = replan(kitchen, plan, now, (told,), SearchOptions(seconds=seconds), first)
    except Exception as error:  # noqa: BLE001 - whatever it is, it is counted
        failed = f"{type(error).__name__}: {error}"
        return Result(kind, seed, now, 0, before, (0, 0), 0.0, (0, 0), 0.0, 0, 0, 0, 0, failed)
    took = time.monotonic() - began
    moved = [change for change in found.changes if change.kind is Kind.MOVED]
    cook = told.cook if isinstance(told, CookGone) else None
    score = found.solution.score
    return Result(
        kind,
        seed,
        now,
        len(plan.workload.lots),
        before,
        (at[0][1].short, at[0][1].tardiness),
        at[0][0],
        (score.short, score.tardiness),
        took,
        found.rung,
        len(moved),
        sum(change.cook_before != cook for change in moved),
        turned(course_of(kitchen, plan), found.course),
    )


def turned(before: Course, after: Course) -> int:
    """Pairs of tasks of one cook, before and after, of which the later one comes first now."""
    old, new = _places(before), _places(after)
    lines: dict[int, list[tuple[int, int]]] = defaultdict(list)
    for key, (worker, start) in old.items():
        if key in new and new[key][0] == worker:
            lines[worker].append((start, new[key][1]))
    return sum(
        (one[0] - other[0]) * (one[1] - other[1]) < 0
        for line in lines.values()
        for one, other in combinations(line, 2)
    )


def _places(course: Course) -> dict[tuple[str, int], tuple[int, int]]:
    """Worker and start of every task that is done, by its lot's name and its place in the lot."""
    done = {item.task: (item.worker, item.start) for item in course.timetable.assignments}
    return {
        (lot.id, place): done[item.task]
        for lot in course.workload.lots
        for place, item in enumerate(sorted(lot.tasks, key=lambda one: (one.part, one.task)))
        if item.task in done
    }


def results(seeds: int, per_seed: int, seconds: float) -> Iterator[Result]:
    """All events, kinds in turn."""
    number = 0
    for seed in range(1, seeds + 1):
        kitchen, plan = morning(seed)
        for _ in range(per_seed):
            yield run(kitchen, plan, KINDS[number % len(KINDS)], seed, number, seconds)
            number += 1


def table(found: Sequence[Result]) -> str:
    """One row per kind of event, and one for all."""
    lines = [
        "| event | n | first plan after, s: median (worst) | within "
        f"{_FIRST:g} s | done after, s: median (worst) | within {_GOOD:g} s | "
        "on time: before, first, last | short, late min: first | short, late min: last | "
        "moved: median (worst) | of these by choice | turned round | rungs 1-6 | unplannable |",
        "| --- |" + " ---: |" * 13,
    ]
    for kind in (*KINDS, "all"):
        rows = [one for one in found if kind in (one.kind, "all")]
        if rows:
            lines.append(_row(kind, rows))
    return "\n".join(lines) + "\n"


def _row(kind: str, rows: Sequence[Result]) -> str:
    good = [one for one in rows if not one.failed] or list(rows)
    rungs = Counter(one.rung for one in good)
    on_time = [
        sum(score == (0, 0) for score in scores)
        for scores in zip(*((one.before, one.first, one.last) for one in good), strict=True)
    ]
    cells = [
        kind,
        str(len(rows)),
        _pair([one.first_seconds for one in good], 2),
        str(sum(one.first_seconds <= _FIRST for one in good)),
        _pair([one.seconds for one in good], 2),
        str(sum(one.seconds <= _GOOD for one in good)),
        ", ".join(map(str, on_time)),
        f"{sum(one.first[0] for one in good)}, {sum(one.first[1] for one in good)}",
        f"{sum(one.last[0] for one in good)}, {sum(one.last[1] for one in good)}",
        _pair([one.moved for one in good], 0),
        _pair([one.of_choice for one in good], 0),
        _pair([one.turned for one in good], 0),
        " ".join(str(rungs[rung]) for rung in range(1, 7)),
        str(sum(bool(one.failed) for one in rows)),
    ]
    return f"| {' | '.join(cells)} |"


def _pair(values: Sequence[float], digits: int) -> str:
    return f"{statistics.median(values):.{digits}f} ({max(values):.{digits}f})"


def lots(found: Sequence[Result]) -> str:
    """Fewest to most lots of the mornings."""
    sizes = {one.lots for one in found if not one.failed}
    return f"{min(sizes, default=0)} to {max(sizes, default=0)}"


def machine() -> str:
    """What it was measured on."""
    return (
        f"{platform.machine()}, {os.cpu_count()} cores shared with other work, Python "
        f"{platform.python_version()}, OR-Tools {version('ortools')}"
    )


def main(arguments: Sequence[str] | None = None) -> int:
    """Run all events; 1 where one was unplannable."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.replans", description=__doc__)
    parser.add_argument("--seeds", type=int, default=20, help="mornings (20)")
    parser.add_argument("--events", type=int, default=10, help="events on each (10)")
    parser.add_argument("--seconds", type=float, default=3.0, help="for each replan (3)")
    parser.add_argument("--out", type=Path, help="page whose marked part is filled in")
    parser.add_argument("--runs", type=Path, help="file that gets every result as a line of JSON")
    options = parser.parse_args(arguments)
    found: list[Result] = []
    began = os.getloadavg()[0]
    for one in results(options.seeds, options.events, options.seconds):
        found.append(one)
        sys.stderr.write(f"{json.dumps(asdict(one))}\n")
        if options.runs:
            with options.runs.open("a", encoding="utf-8") as file:
                file.write(json.dumps(asdict(one)) + "\n")
    text = (
        f"{len(found)} events on {options.seeds} mornings of {lots(found)} lots, five cooks, limit "
        f"{options.seconds:g} s each; {machine()}; load {began:.1f} when it began, "
        f"{os.getloadavg()[0]:.1f} when it ended.\n\n{table(found)}"
    )
    sys.stdout.write(text)
    if options.out:
        page = options.out.read_text(encoding="utf-8")
        options.out.write_text(filled(page, {MARK: f"{text}"}), encoding="utf-8")
    return int(any(one.failed for one in found))


if __name__ == "__main__":
    sys.exit(main())
