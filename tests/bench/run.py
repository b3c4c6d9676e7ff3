"""One run of one peer on one instance, in a process of its own so that its memory is its own.

``python -m tests.bench.run`` reads a task as JSON from its input and writes a run as JSON.
"""

import json
import resource
import subprocess
import sys
import time
from dataclasses import asdict, dataclass

from planner.check.score import score_of
from planner.check.timetable import check_timetable
from planner.schedule.timetable import TERMS, Score
from tests.bench.generate import generate
from tests.bench.peers import PEERS

_GRACE = 180.0
"""Seconds beyond its limit after which a run is given up: building a model knows no limit."""
_MOST_MEMORY = 12 << 30
"""Bytes of address space a run may have."""
MEGABYTE = 1 << 20


@dataclass(frozen=True, slots=True)
class Task:
    """What to run; ``seconds`` is 0 for peers that need no limit."""

    size: str
    kind: str
    seed: int
    peer: str
    seconds: float


@dataclass(frozen=True, slots=True)
class Run:
    """What came of it.

    ``took`` is by the clock, ``processor`` the seconds of all processors together; ``score`` and
    ``bounds`` (as far as any were proven) are in the order of the terms, the bounds stated for this
    score; ``megabytes`` is the peak memory of the process.
    """

    task: Task
    score: tuple[int, ...] | None
    first: float | None
    took: float
    processor: float
    status: str
    megabytes: float
    bounds: tuple[int, ...] | None = None
    note: str = ""

    @property
    def as_score(self) -> Score | None:
        """The score as the planner has it."""
        return None if self.score is None else Score(*self.score)


def to_text(run: Run) -> str:
    """One line of JSON."""
    return json.dumps(asdict(run))


def from_text(text: str) -> Run:
    """Read what ``to_text`` wrote."""
    data = json.loads(text)
    for name in ("score", "bounds"):
        data[name] = None if data[name] is None else tuple(data[name])
    return Run(**{**data, "task": Task(**data["task"])})


def run_here(task: Task) -> Run:
    """Run a task in this process and verify what comes of it.

    Raises
    ------
    RuntimeError
        The plan breaks a rule.
    """
    instance = generate(task.size, task.kind, task.seed)
    began, used = time.monotonic(), time.process_time()
    outcome = PEERS[task.peer].plan(instance, task.seconds, task.seed)
    took, used = time.monotonic() - began, time.process_time() - used
    score = None
    if outcome.timetable is not None:
        violations = check_timetable(instance.problem, outcome.timetable)
        if violations:
            raise RuntimeError(f"{task}: {violations[0]} (and {len(violations) - 1} more)")
        found = score_of(instance.problem, outcome.timetable)
        score = tuple(found.term(term) for term in TERMS)
    stated = {bound.term: bound.bound for bound in outcome.bounds}
    return Run(
        task=task,
        score=score,
        first=outcome.first,
        took=took,
        processor=used,
        status=outcome.status,
        megabytes=_peak(),
        bounds=tuple(stated[term] for term in TERMS) if stated else None,
        note=outcome.note,
    )


def run_apart(task: Task) -> Run:
    """Run a task in a process of its own; what ends without a plan says so in its note."""
    command = [sys.executable, "-m", "tests.bench.run"]
    limit = task.seconds + _GRACE
    try:
        done = subprocess.run(  # noqa: S603 - our own module
            command,
            input=json.dumps(asdict(task)),
            capture_output=True,
            text=True,
            timeout=limit,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return Run(task, None, None, limit, 0.0, "none", 0.0, note=f"given up after {limit:.0f} s")
    if done.returncode:
        last = (done.stderr.strip().splitlines() or [f"exit code {done.returncode}"])[-1]
        return Run(task, None, None, 0.0, 0.0, "failed", 0.0, note=last)
    return from_text(done.stdout.strip().splitlines()[-1])


def _peak() -> float:
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak / MEGABYTE if sys.platform == "darwin" else peak / 1024


def _main() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (_MOST_MEMORY, _MOST_MEMORY))
    sys.stdout.write(to_text(run_here(Task(**json.load(sys.stdin)))) + "\n")


if __name__ == "__main__":
    _main()
