"""The page of benchmarks: written by hand, but for the parts between marks."""

import os
import platform
import re
import sys
from collections import defaultdict
from collections.abc import Mapping, Sequence
from importlib.metadata import PackageNotFoundError, version

from tests.bench.menu import operation_table
from tests.bench.peers import PEERS
from tests.bench.report import losses, notes, results_table, versus_table
from tests.bench.run import Run
from tests.bench.sizes import SIZES, parameter_table

_PACKAGES = ("ortools", "pyjobshop", "numpy")


def filled(page: str, parts: Mapping[str, str]) -> str:
    """``page`` with each part between its marks made anew.

    Raises
    ------
    ValueError
        A part has no marks.
    """
    for name, text in parts.items():
        found = re.search(rf"<!-- {name} -->\n(.*?)<!-- end -->", page, re.DOTALL)
        if found is None:
            raise ValueError(f"no place for {name!r}: add a line <!-- {name} --> and <!-- end -->")
        page = page[: found.start(1)] + text + page[found.end(1) :]
    return page


def fixed_parts() -> dict[str, str]:
    """What is known before anything is run."""
    return {"parameters": parameter_table(), "operations": operation_table(), "peers": _peers()}


def run_parts(runs: Sequence[Run]) -> dict[str, str]:
    """What the runs say, and where and on what they were made."""
    return {
        "run": f"{_machine()}\n{_made(runs)}",
        "results": results_table(runs),
        "versus": versus_table(runs),
        "losses": losses(runs),
        "none": notes(runs),
    }


def _peers() -> str:
    lines = ["| plan by | what it is | uses the time limit |", "| --- | --- | --- |"]
    lines += [
        f"| {peer.name} | {peer.what} | {'yes' if peer.timed else 'no'} |"
        for peer in PEERS.values()
    ]
    return "\n".join(lines) + "\n"


def _machine() -> str:
    load = f", load average {os.getloadavg()[1]:.1f}" if hasattr(os, "getloadavg") else ""
    lines = [
        f"- {platform.system()} on {platform.machine()}, {os.cpu_count()} cores{load} when the "
        "tables were written",
        f"- Python {sys.version.split()[0]}",
    ]
    return "\n".join([*lines, *(f"- {name} {_version(name)}" for name in _PACKAGES)]) + "\n"


def _version(package: str) -> str:
    try:
        return version(package)
    except PackageNotFoundError:
        return "not installed"


def _made(runs: Sequence[Run]) -> str:
    """Sizes, kinds, seeds and limits that were run, and the time it took."""
    seeds: dict[tuple[str, str], set[int]] = defaultdict(set)
    limits: dict[tuple[str, str], set[float]] = defaultdict(set)
    for run in runs:
        key = run.task.size, run.task.kind
        seeds[key].add(run.task.seed)
        if PEERS[run.task.peer].timed:
            limits[key].add(run.task.seconds)
    lines = [
        f"| {size} | {kind} | {', '.join(map(str, sorted(seeds[size, kind])))} "
        f"| {', '.join(f'{limit:g}' for limit in sorted(limits[size, kind]))} |"
        for size, kind in sorted(seeds, key=lambda key: (list(SIZES).index(key[0]), key[1]))
    ]
    total = sum(run.took for run in runs) / 60
    head = ["| size | kind | seeds | limits s |", "| --- | --- | --- | --- |"]
    return "\n".join([*head, *lines, "", f"{len(runs)} runs, {total:.0f} minutes."]) + "\n"
