"""Run the benchmark: ``python -m tests.bench --help``."""

import argparse
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from tests.bench.page import filled, fixed_parts, run_parts
from tests.bench.peers import PEERS
from tests.bench.report import results_table, versus_table
from tests.bench.run import Run, Task, from_text, run_apart, to_text
from tests.bench.sizes import KINDS, SIZES


def _choices(known: Sequence[str]) -> Callable[[str], list[str]]:
    def read(text: str) -> list[str]:
        chosen = [part.strip() for part in text.split(",") if part.strip()]
        for part in chosen:
            if part not in known:
                message = f"{part!r} is not known; choose from {', '.join(known)}"
                raise argparse.ArgumentTypeError(message)
        return chosen

    return read


def _seconds(text: str) -> list[float]:
    return [float(part) for part in text.split(",")]


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m tests.bench",
        description="Plan generated mornings in several ways, check and score every plan.",
    )
    sizes, peers = list(SIZES), list(PEERS)
    parser.add_argument("--sizes", type=_choices(sizes), default=sizes, help=", ".join(sizes))
    parser.add_argument("--kinds", type=_choices(KINDS), default=KINDS, help=", ".join(KINDS))
    parser.add_argument(
        "--seeds",
        type=int,
        default=10,
        help="seeds 1 to so many (10); 0 only renews the tables of parameters",
    )
    parser.add_argument("--seconds", type=_seconds, default=[2.0, 10.0, 60.0], help="2,10,60")
    parser.add_argument("--peers", type=_choices(peers), default=peers, help=", ".join(peers))
    parser.add_argument("--out", type=Path, help="page whose marked parts are filled in")
    parser.add_argument(
        "--runs",
        type=Path,
        help="file that keeps every run as a line of JSON; runs that it has are not made again, "
        "and the tables show all of it",
    )
    return parser


def _tasks(options: argparse.Namespace) -> Iterator[Task]:
    for size in options.sizes:
        for kind in options.kinds:
            for seed in range(1, options.seeds + 1):
                for peer in options.peers:
                    for seconds in options.seconds if PEERS[peer].timed else [0.0]:
                        yield Task(size, kind, seed, peer, seconds)


def _known(path: Path | None) -> dict[Task, Run]:
    if path is None or not path.exists():
        return {}
    lines = path.read_text(encoding="utf-8").splitlines()
    return {run.task: run for run in map(from_text, lines)}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run what is asked for; 1 where a run failed."""
    options = _parser().parse_args(arguments)
    page = options.out.read_text(encoding="utf-8") if options.out else None
    if page is not None:
        # Says now, not after hours, if the page has no place for a table.
        filled(page, {**fixed_parts(), **run_parts([])})
    runs = _known(options.runs)
    for task in _tasks(options):
        if task not in runs:
            run = runs[task] = run_apart(task)
            sys.stderr.write(f"{to_text(run)}\n")
            if options.runs:
                with options.runs.open("a", encoding="utf-8") as file:
                    file.write(to_text(run) + "\n")
    found = list(runs.values())
    sys.stdout.write(f"{results_table(found)}\n{versus_table(found)}")
    if page is not None:
        parts = {**fixed_parts(), **(run_parts(found) if found else {})}
        options.out.write_text(filled(page, parts), encoding="utf-8")
    return int(any(run.status == "failed" for run in found))


if __name__ == "__main__":
    sys.exit(main())
