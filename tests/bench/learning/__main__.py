"""Run seasons of invented kitchens and write docs/learning.md's tables.

python -m tests.bench.learning --seeds 20 --days 60 --out docs/learning.md
"""

import argparse
import sys
import time
from collections import defaultdict
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

from tests.bench.learning.report import BOOK, LEARNED, tables
from tests.bench.learning.season import Arm, Season, season
from tests.bench.page import filled

LEVEL, PULL_LEVEL = 0.9, 0.7
ARMS = (
    Arm(BOOK),
    Arm("yields learned", yields=True, pull_level=PULL_LEVEL),
    Arm("rates learned", rates=True),
    Arm("guests forecast", sales=True, level=LEVEL),
    Arm(LEARNED, yields=True, rates=True, sales=True, level=LEVEL, pull_level=PULL_LEVEL),
)
FLATS = (0.0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4)
"""Shares on top of the file's figures: its curve of short against waste."""


def seasons_of(days: int, seed: int) -> list[Season]:
    """One kitchen, planned every way."""
    flat = [Arm(f"{share}", flat=share, timed=False) for share in FLATS]
    return [season(arm, seed, days) for arm in (*ARMS, *flat)]


def _all(seeds: int, days: int, jobs: int) -> Iterator[list[Season]]:
    one = partial(seasons_of, days)
    if jobs == 1:
        yield from map(one, range(seeds))
        return
    with ProcessPoolExecutor(jobs) as pool:
        yield from pool.map(one, range(seeds))


def main() -> None:
    """Print the tables, or put them into a page."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=20, help="kitchens")
    parser.add_argument("--days", type=int, default=60)
    parser.add_argument("--jobs", type=int, default=1, help="processes")
    parser.add_argument("--out", type=Path, help="page whose tables are written anew")
    given = parser.parse_args()
    began = time.monotonic()
    found: dict[str, list[Season]] = defaultdict(list)
    for number, group in enumerate(_all(given.seeds, given.days, given.jobs), 1):
        for one in group:
            found[one.arm].append(one)
        spent = (time.monotonic() - began) / 60
        sys.stderr.write(f"{number} of {given.seeds} kitchens, {spent:.1f} minutes\n")
    curve = {share: found[f"{share}"] for share in FLATS}
    texts = tables({arm.name: found[arm.name] for arm in ARMS}, curve)
    texts["run"] = (
        f"{given.seeds} kitchens of {given.days} days, {len(ARMS)} ways each and {len(FLATS)} flat "
        "shares.\n"
    )
    if given.out is None:
        sys.stdout.write("\n".join(texts.values()))
    else:
        given.out.write_text(filled(given.out.read_text(), texts))


if __name__ == "__main__":
    main()
