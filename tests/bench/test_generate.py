"""Generated mornings are what the page says, every plan is checked, and tables tell no lies.

Small limits: this is no benchmark, only proof that one can be run.
"""

import os
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest

from planner.check.timetable import check_timetable
from planner.schedule.construct import constructive_plans
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Term
from tests.bench.generate import Instance, generate
from tests.bench.page import filled, fixed_parts
from tests.bench.peers import PEERS
from tests.bench.report import gap_of, losses, results_table, versus_table
from tests.bench.run import Run, Task, from_text, run_here, to_text
from tests.bench.sizes import KINDS, SIZES

MAKE_ANEW = "run: python -m tests.bench --seeds 0 --out docs/benchmarks.md"
PAGE = Path(__file__).parents[2] / "docs" / "benchmarks.md"
# One of the largest is enough: it takes seconds.
EVERY = [
    (size, kind) for size in SIZES for kind in KINDS if (size, kind) != ("commissary", "loose")
]


@pytest.fixture(scope="module", params=EVERY, ids="-".join)
def instance(request: pytest.FixtureRequest) -> tuple[str, str, Instance]:
    size, kind = request.param
    return size, kind, generate(size, kind, 1)


def test_sizes_are_as_announced(instance: tuple[str, str, Instance]) -> None:
    size, _, made = instance
    spec, problem = SIZES[size], made.problem
    assert (len(problem.jobs), len(problem.workers)) == (spec.lots, spec.cooks)
    alone = [job for job in problem.jobs if len(job.tasks) == 2]
    assert len(alone) / spec.lots == pytest.approx(spec.unattended, abs=0.03)
    for wait in problem.waits:
        if problem.tasks[wait.before].lot == problem.tasks[wait.after].lot:
            assert wait.maximum is not None
            assert 30 <= wait.minimum <= 240
            assert wait.minimum < wait.maximum
    assert all(
        1 <= family.set_up <= 4 for family in problem.families if "finish" not in family.operation
    )
    assert all(len(worker.blocked) == 1 for worker in problem.workers)
    assert {r.id for r in problem.resources if r.contact} == {"board", "sink", "blender"}


def test_a_tight_morning_has_more_work_than_a_loose_one() -> None:
    for size in ("bistro", "house"):
        loose, tight = (
            sum(
                sum(t.minutes.values()) / len(t.minutes) for t in generate(size, k, 1).problem.tasks
            )
            for k in KINDS
        )
        assert tight > 1.2 * loose


def test_lots_hang_together(instance: tuple[str, str, Instance]) -> None:
    """Every lot is wanted and can be made; lots come after those they need, for the same dishes."""
    _, _, made = instance
    problem = made.problem
    tables = tables_of(problem)
    assert tables.wanted == frozenset(range(len(problem.jobs)))
    assert not tables.impossible
    for index, job in enumerate(problem.jobs):
        assert all(need < index for need in job.needs)
        assert all(set(made.dishes[index]) <= set(made.dishes[need]) for need in job.needs)
        assert {serving.promise for serving in job.serves} <= set(made.dishes[index])
    for promise, spec in enumerate(problem.promises):
        portions: dict[str, int] = {}
        for job in problem.jobs:
            for serving in job.serves:
                if serving.promise == promise:
                    told = portions.get(serving.component, 0) + serving.portions
                    portions[serving.component] = told
        assert set(portions.values()) <= {spec.portions}


def test_the_constructive_plan_keeps_every_rule(instance: tuple[str, str, Instance]) -> None:
    _, _, made = instance
    _, timetable, _ = next(constructive_plans(tables_of(made.problem)))
    assert timetable.assignments
    assert check_timetable(made.problem, timetable) == ()


def test_the_same_seed_gives_the_same_problem_in_any_process() -> None:
    code = (
        "import hashlib; from tests.bench.generate import generate;"
        "print(hashlib.sha256(repr(generate('house', 'tight', 3)).encode()).hexdigest())"
    )
    told = {
        subprocess.run(  # noqa: S603 - our own code
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(told) == 1
    assert generate("house", "tight", 3) == generate("house", "tight", 3)


def test_seeds_and_kinds_give_different_problems() -> None:
    made = [generate("bistro", kind, seed).problem for kind in KINDS for seed in (1, 2)]
    assert all(a != b for a, b in pairwise(made))


@pytest.mark.parametrize(("size", "kind"), [("diner", "loose"), ("bistro", "lazy")])
def test_unknown_sizes_and_kinds_are_named(size: str, kind: str) -> None:
    with pytest.raises(ValueError, match=r"diner|lazy"):
        generate(size, kind, 1)


@pytest.mark.parametrize("peer", PEERS)
def test_every_plan_is_checked_and_scored(peer: str) -> None:
    """A run verifies its plan itself; this one must have a plan, and come back from its text."""
    if "library" in peer:
        pytest.importorskip("pyjobshop")
    run = run_here(Task("bistro", "loose", 3, peer, 0.7))
    assert from_text(to_text(run)) == run
    if peer != "library":  # the one with set-up times may find nothing so soon
        assert run.score is not None


def run_of(peer: str, score: tuple[int, ...], bounds: tuple[int, ...] | None = None) -> Run:
    """A run as if made."""
    seconds = 2.0 if PEERS[peer].timed else 0.0
    return Run(
        Task("bistro", "loose", 1, peer, seconds), score, 0.1, 2.0, 3.9, "feasible", 50, bounds
    )


def test_a_bound_counts_only_for_plans_it_speaks_of() -> None:
    """Labor of at least 80 was proven among plans that leave 5 short at most and are on time."""
    ours = run_of("ours", (5, 0, 100, 0, 0), (2, 0, 80, 0, 0))
    assert gap_of(ours, Term.LABOR, [ours]) == (100, 80)
    shorter = run_of("sous chef", (9, 0, 60, 0, 0))
    assert gap_of(shorter, Term.SHORT, [ours]) == (9, 2)
    assert gap_of(shorter, Term.LABOR, [ours]) is None
    assert "no bound" in results_table([ours, shorter])


def test_a_plan_better_than_a_bound_is_an_error() -> None:
    ours = run_of("ours", (5, 0, 100, 0, 0), (2, 0, 80, 0, 0))
    with pytest.raises(RuntimeError, match="labor 70 is below a bound, 80"):
        gap_of(run_of("sous chef", (5, 0, 70, 0, 0)), Term.LABOR, [ours])


def test_losses_are_told() -> None:
    ours = run_of("ours", (0, 3, 100, 0, 0))
    better = run_of("sous chef", (0, 2, 150, 0, 0))
    worse = run_of("dish by dish", (1, 0, 50, 0, 0))
    table = versus_table([ours, better, worse])
    assert "| sous chef | 2 | 0 | 0 | 1 | 0 |" in table
    assert "| dish by dish | 2 | 1 | 0 | 0 | 0 |" in table
    assert "sous chef" in losses([ours, better, worse])
    assert "dish by dish" not in losses([ours, better, worse])


def test_the_page_shows_the_parameters_as_they_are() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert filled(page, fixed_parts()) == page, MAKE_ANEW


def test_a_page_without_marks_is_refused() -> None:
    with pytest.raises(ValueError, match="parameters"):
        filled("# Nothing\n", fixed_parts())
