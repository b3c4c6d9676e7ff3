"""Take every rule away in turn and see which test fails: ``python -m tests.mutations --help``.

Works on copies of the tree, which it changes one rule at a time; ends with 1 where no test fails.
"""

import argparse
import importlib
import os
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings

from tests.mutations.catalog import CATALOG
from tests.mutations.mutation import ROOT, Mutation

_COPIED = ("planner", "web", "service", "seed_data", "tests", "docs", "pyproject.toml")
_LOADED_ONCE = ("ortools.sat.python.cp_model", "pydantic")
"""Take a second to load; each child finds them there."""
_SECONDS = 300
"""After which tests count as failed: a mutant may well run for ever."""


@dataclass(frozen=True, slots=True)
class Result:
    """The test that failed, or none, and the seconds it took."""

    mutation: Mutation
    failed: str | None
    seconds: float


@dataclass(frozen=True, slots=True)
class _Trial:
    """A mutation under way in a copy of the tree, by a child that writes to ``told``."""

    number: int
    tree: Path
    told: Path
    text: str
    began: float


class _FirstFailure:
    """Remembers which test failed, or could not even be collected."""

    def __init__(self) -> None:
        self.name = ""

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed and not self.name:
            self.name = report.nodeid

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed and not self.name:
            self.name = report.nodeid


def try_all(mutations: Sequence[Mutation], side_by_side: int, folder: Path) -> Iterator[Result]:
    """Try mutations, so many at a time, each in a copy of the tree and a child of this process."""
    for name in _LOADED_ONCE:
        importlib.import_module(name)
    # One example is enough, not the smallest; and the same ones for every mutation.
    settings.register_profile(
        "mutations",
        derandomize=True,
        database=None,
        deadline=None,
        phases=(Phase.explicit, Phase.generate),
        suppress_health_check=list(HealthCheck),
    )
    os.environ["HYPOTHESIS_PROFILE"] = "mutations"
    free = [_copy(folder / str(number)) for number in range(side_by_side)]
    running: dict[int, _Trial] = {}
    waiting = list(range(len(mutations)))
    while waiting or running:
        if waiting and free:
            number, tree = waiting.pop(0), free.pop()
            mutation = mutations[number]
            path = tree / mutation.file
            text = path.read_text(encoding="utf-8")
            path.write_text(mutation.applied(text), encoding="utf-8")
            trial = _Trial(number, tree, folder / f"{number}.txt", text, time.monotonic())
            child = os.fork()
            if child == 0:
                _test(mutation, trial)
            running[child] = trial
            continue
        child, _ = os.wait()
        trial = running.pop(child)
        mutation = mutations[trial.number]
        (trial.tree / mutation.file).write_text(trial.text, encoding="utf-8")
        free.append(trial.tree)
        told = trial.told.read_text(encoding="utf-8") if trial.told.exists() else None
        failed = f"{mutation.tests[0]}, which never ends" if told is None else told or None
        yield Result(mutation, failed, time.monotonic() - trial.began)


def _test(mutation: Mutation, trial: _Trial) -> None:
    """In the child: run the tests in the copy, write down which failed, and end."""
    signal.alarm(_SECONDS)
    silence = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silence, 1)
    os.dup2(silence, 2)
    os.chdir(trial.tree)
    sys.path.insert(0, str(trial.tree))
    sys.dont_write_bytecode = True
    for name in list(sys.modules):
        if name.partition(".")[0] in ("tests", "planner", "web", "service"):
            del sys.modules[name]
    first = _FirstFailure()
    code = pytest.main(["-x", "-q", "-p", "no:cacheprovider", *mutation.tests], plugins=[first])
    if code == pytest.ExitCode.OK or first.name:
        trial.told.write_text(first.name, encoding="utf-8")
    else:
        trial.told.write_text(f"the tests do not run: {code!r}", encoding="utf-8")
    os._exit(0)


def table(results: Sequence[Result]) -> str:
    """Markdown: one line per mutation."""
    lines = ["| rule taken away | file | test that fails |", "| --- | --- | --- |"]
    lines += [
        f"| {r.mutation.rule} | `{r.mutation.file}` "
        f"| {f'`{r.failed}`' if r.failed else '**none: it survives**'} |"
        for r in results
    ]
    return "\n".join(lines) + "\n"


def page(results: Sequence[Result]) -> str:
    """The page of the documentation."""
    survivors = sum(result.failed is None for result in results)
    return (
        "# What the tests would notice\n\n"
        "Every rule below was taken out of the code by itself, in a copy of it, and the tests\n"
        "that ought to notice were run. A rule that could be taken away unnoticed would be a rule\n"
        "that nobody keeps watch over. Written by\n"
        "`python -m tests.mutations --out docs/mutations.md`, which ends with 1 if a rule can be\n"
        "taken away unnoticed. What each takes away stands in `tests/mutations/`, where a new\n"
        "rule is one more line, and a test keeps the list in step with the code.\n\n"
        f"{len(results)} rules, {survivors} unnoticed.\n\n{table(results)}"
    )


def _copy(folder: Path) -> Path:
    folder.mkdir()
    for name in _COPIED:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy2(source, folder / name)
    return folder


def main(arguments: Sequence[str] | None = None) -> int:
    """Try what is asked for; 1 where something survives."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutations", description=__doc__)
    parser.add_argument("--only", default="", help="only files or rules with these words")
    parser.add_argument("--side-by-side", type=int, default=2, help="so many at a time (2)")
    parser.add_argument("--out", type=Path, help="page to write")
    options = parser.parse_args(arguments)
    chosen = [m for m in CATALOG if options.only in f"{m.file}: {m.rule}"]
    results = []
    with tempfile.TemporaryDirectory() as folder:
        for result in try_all(chosen, options.side_by_side, Path(folder)):
            results.append(result)
            sys.stderr.write(
                f"{result.seconds:5.1f} s  {result.mutation.file}: {result.mutation.rule}: "
                f"{result.failed or 'SURVIVES'}\n"
            )
    results.sort(key=lambda result: CATALOG.index(result.mutation))
    sys.stdout.write(table(results))
    if options.out:
        options.out.write_text(page(results), encoding="utf-8")
    return int(any(result.failed is None for result in results))


if __name__ == "__main__":
    sys.exit(main())
