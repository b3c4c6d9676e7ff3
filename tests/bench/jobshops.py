"""Published job shops to their proven optimum, beside a bare model of the same solver.

``python -m tests.bench.jobshops --out docs/benchmarks.md`` solves every vendored instance with the
planner and, in turn, with nothing but intervals, one machine at a time and the finish; the same
process, threads and seeds. It ends with 1 unless every instance is proven at its published optimum
and the planner takes no more than twice as long.
"""

import argparse
import os
import platform
import statistics
import sys
import time
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from ortools.sat.python import cp_model

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.schedule.search import SearchOptions, solve
from planner.schedule.timetable import Status
from tests.bench.page import filled
from tests.outside.job_shops import JobShop, as_problem, job_shops

MARK = "job shops"
MOST = 2.0
"""Times as long as the bare model that the planner may take."""
LEAST = 0.05
"""Seconds that the bare model is taken to need at least: below, a ratio says nothing."""


@dataclass(frozen=True, slots=True)
class Try:
    """One solve: seconds by the clock and of all processors, the finish, whether proven."""

    seconds: float
    processor: float
    finish: int | None
    proven: bool


@dataclass(frozen=True, slots=True)
class Row:
    """What came of one instance, a try per seed and way."""

    shop: JobShop
    bare: list[Try]
    ours: list[Try]

    @property
    def seconds(self) -> tuple[float, float]:
        """Median seconds of the bare model and of the planner."""
        bare, ours = (statistics.median(t.seconds for t in way) for way in (self.bare, self.ours))
        return bare, ours

    @property
    def processor(self) -> tuple[float, float]:
        """The same in processor seconds, which other work on the machine does not lengthen."""
        bare, ours = (statistics.median(t.processor for t in w) for w in (self.bare, self.ours))
        return bare, ours

    @property
    def proven(self) -> bool:
        """Whether the planner proved the published optimum with every seed."""
        return all(t.proven and t.finish == self.shop.optimum for t in self.ours)

    @property
    def in_time(self) -> bool:
        """Whether the planner took at most ``MOST`` times as long."""
        bare, ours = self.seconds
        return ours <= MOST * max(bare, LEAST)


def bare_model(shop: JobShop, seconds: float, seed: int, threads: int) -> Try:
    """Solve with intervals, one machine at a time, and the finish: all a job shop needs."""
    began, used = time.monotonic(), time.process_time()
    model = cp_model.CpModel()
    horizon = sum(map(sum, shop.durations))
    finish = model.new_int_var(0, horizon, "finish")
    by_machine: dict[int, list[cp_model.IntervalVar]] = defaultdict(list)
    for row, minutes in zip(shop.machines, shop.durations, strict=True):
        end: cp_model.LinearExprT = 0
        for machine, duration in zip(row, minutes, strict=True):
            start = model.new_int_var(0, horizon, "start")
            by_machine[machine].append(model.new_fixed_size_interval_var(start, duration, "task"))
            model.add(start >= end)
            end = start + duration
        model.add(finish >= end)
    for intervals in by_machine.values():
        model.add_no_overlap(intervals)
    model.minimize(finish)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = threads
    solver.parameters.random_seed = seed
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    value = round(solver.objective_value) if found else None
    took, used = time.monotonic() - began, time.process_time() - used
    return Try(took, used, value, status == cp_model.OPTIMAL)


def planner(shop: JobShop, seconds: float, seed: int, threads: int) -> Try:
    """Solve with the planner, from its own types to a plan that the checker passes.

    Raises
    ------
    RuntimeError
        The plan breaks a rule, or its score is not what the planner says.
    """
    began, used = time.monotonic(), time.process_time()
    problem = as_problem(shop)
    solution = solve(problem, SearchOptions(seconds=seconds, seed=seed, workers=threads))
    took, used = time.monotonic() - began, time.process_time() - used
    if check_timetable(problem, solution.timetable):
        raise RuntimeError(f"{shop.name}: the plan breaks a rule")
    if score_of(problem, solution.timetable) != solution.score or solution.score.short:
        raise RuntimeError(f"{shop.name}: the score is not that of a whole plan")
    return Try(took, used, solution.score.finish, solution.status is Status.OPTIMAL)


def compare(shop: JobShop, seconds: float, seeds: int, threads: int) -> Row:
    """Both ways in turn, seed by seed, so that other work on the machine meets both."""
    row = Row(shop, [], [])
    for seed in range(1, seeds + 1):
        row.bare.append(bare_model(shop, seconds, seed, threads))
        row.ours.append(planner(shop, seconds, seed, threads))
    return row


def table(rows: Sequence[Row]) -> str:
    """The rows as Markdown."""
    lines = [
        "| instance | jobs x machines | published optimum | ours: finish | proven | bare s "
        "| ours s | ours / bare | processor s: bare, ours |",
        "| --- | --- | ---: | ---: | --- | ---: | ---: | ---: | ---: |",
    ]
    for row in rows:
        shop, (bare, ours), used = row.shop, row.seconds, row.processor
        size = f"{len(shop.machines)} x {len(shop.machines[0])}"
        finish = max(t.finish or 0 for t in row.ours)
        proven = sum(t.proven for t in row.ours)
        ratio = f"{ours / bare:.1f}" if bare >= LEAST else "-"
        lines.append(
            f"| {shop.name} | {size} | {shop.optimum} | {finish} | {proven} of {len(row.ours)} "
            f"| {bare:.2f} | {ours:.2f} | {ratio} "
            f"| {used[0]:.2f}, {used[1]:.2f} |"
        )
    return "\n".join(lines) + "\n"


def summary(rows: Sequence[Row], seeds: int, threads: int) -> str:
    """What was run on what, and how many are proven and in time."""
    load = f", load average {os.getloadavg()[1]:.1f}" if hasattr(os, "getloadavg") else ""
    strict = sum(row.seconds[1] <= MOST * row.seconds[0] for row in rows)
    return (
        f"{platform.machine()}, {os.cpu_count()} cores{load} at the end, "
        f"Python {platform.python_version()}, OR-Tools {version('ortools')}; "
        f"{threads} threads, seeds 1 to {seeds}, medians.\n\n"
        f"Proven at the published optimum with every seed: {sum(r.proven for r in rows)} of "
        f"{len(rows)}. Within twice the bare model's time: {sum(r.in_time for r in rows)} of "
        f"{len(rows)} where less than {LEAST:g} s counts as {LEAST:g} s, {strict} of {len(rows)} "
        "to the letter.\n"
    )


def main(arguments: Sequence[str] | None = None) -> int:
    """Solve what is asked for; 1 where something is not proven or takes too long."""
    shops = job_shops()
    parser = argparse.ArgumentParser(prog="python -m tests.bench.jobshops", description=__doc__)
    parser.add_argument("--only", nargs="*", choices=list(shops), default=list(shops))
    parser.add_argument("--seeds", type=int, default=3)
    parser.add_argument("--seconds", type=float, default=120.0, help="limit of each solve (120)")
    parser.add_argument("--threads", type=int, default=2)
    parser.add_argument("--out", type=Path, help="page whose marked part is filled in")
    options = parser.parse_args(arguments)
    page = options.out.read_text(encoding="utf-8") if options.out else None
    if page is not None:
        filled(page, {MARK: ""})  # says now if the page has no place for the table
    planner(shops["ft06"], 10.0, 1, options.threads)  # loads the solver
    rows = []
    for name in options.only:
        rows.append(compare(shops[name], options.seconds, options.seeds, options.threads))
        sys.stderr.write(table(rows[-1:]).splitlines()[-1] + "\n")
    text = f"{summary(rows, options.seeds, options.threads)}\n{table(rows)}"
    sys.stdout.write(text)
    if page is not None:
        options.out.write_text(filled(page, {MARK: text}), encoding="utf-8")
    return int(not all(row.proven and row.in_time for row in rows))


if __name__ == "__main__":
    sys.exit(main())
