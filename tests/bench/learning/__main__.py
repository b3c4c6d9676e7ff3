"""Run seasons of invented kitchens and write docs/learning.md's tables.

python -m tests.bench.learning --seeds 20 --days 60 --out docs/learning.md
"""

import argparse
import sys
import time
from collections import defaultdict
from collections.abc import Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from functools import partial
from pathlib import Path

from tests.bench.learning.report import BOOK, LEARNED, tables
from tests.bench.learning.season import Arm, Season, season
from tests.bench.page import filled

LEVEL, KEPT_LEVEL = 0.75, 0.97
"""Chosen on kitchens 100 to 105, so that no more is thrown away than by the file."""
HIGHER = 0.85
"""Throws away about as much as the file with its tenth on top."""
LEVEL_ALONE = 0.8
"""Throws away as much, one for all food."""
_SALES = Arm("guests forecast", sales=True, level=LEVEL, kept_level=KEPT_LEVEL, timed=False)
_LEARNED = Arm(LEARNED, yields=True, rates=True, sales=True, level=LEVEL, kept_level=KEPT_LEVEL)
ARMS = (
    Arm(BOOK),
    Arm("yields learned", yields=True),
    Arm("rates learned", rates=True),
    _SALES,
    replace(_SALES, name="forecast, one level", level=LEVEL_ALONE, kept_level=None),
    replace(_SALES, name="forecast, not told what ran out", tells_out=False),
    _LEARNED,
    replace(_LEARNED, name=f"{LEARNED}, {100 * HIGHER:.0f} % level", level=HIGHER),
)
FLATS = (0.0, 0.05, 0.1, 0.15, 0.2, 0.3)
"""Shares on top of the file's figures: its curve of short against waste."""
_EVERY = 4
"""Kitchens after which the page is written, so that a run that is ended leaves what it has."""


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
    began = time.process_time()
    found: dict[str, list[Season]] = defaultdict(list)
    for number, group in enumerate(_all(given.seeds, given.days, given.jobs), 1):
        for one in group:
            found[one.arm].append(one)
        spent = time.process_time() - began
        sys.stderr.write(f"{number} of {given.seeds} kitchens, {spent:.0f} s of one core\n")
        if number > 1 and (number % _EVERY == 0 or number == given.seeds):
            _write(found, number, given.days, given.out)


def _write(found: Mapping[str, list[Season]], kitchens: int, days: int, out: Path | None) -> None:
    curve = {share: found[f"{share}"] for share in FLATS}
    texts = tables({arm.name: found[arm.name] for arm in ARMS}, curve)
    texts["run"] = f"{kitchens} kitchens of {days} days, each planned in all ways.\n"
    if out is None:
        sys.stdout.write("\n".join(texts.values()))
    else:
        out.write_text(filled(out.read_text(), texts))


if __name__ == "__main__":
    main()
