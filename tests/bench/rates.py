"""How well rates are learned, and how fast mornings are worked out: the tables of docs/rates.md.

python -m tests.bench.rates --out docs/rates.md
"""

import argparse
import math
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import seed_data
from planner.kitchen.reading import read_kitchen
from planner.morning import PlanOptions, plan_morning
from planner.quantities.compute import kitchenry
from planner.rates.chances import service_chances
from planner.rates.fit import learn_skill
from planner.rates.types import Kind
from tests.bench.page import filled
from tests.rates.simulated import ticked_kitchen

_LEVEL = 0.9
_KITCHENS: tuple[tuple[str, dict[str, float]], ...] = (
    ("15 batches", {"batches": 15}),
    ("60 batches", {"batches": 60}),
    ("300 batches", {"batches": 300}),
    ("60 batches, no wrong ticks", {"batches": 60, "forgotten": 0.0, "shared": 0.0}),
    ("60 batches, 15 % forgotten, 15 % shared", {"batches": 60, "forgotten": 0.15, "shared": 0.15}),
)


def coverage(kitchens: int) -> Iterator[str]:
    """Rows of the table of coverage."""
    for name, how in _KITCHENS:
        held: Counter[Kind] = Counter()
        found: Counter[Kind] = Counter()
        off: list[float] = []
        book_off: list[float] = []
        spent = 0.0
        for seed in range(kitchens):
            kitchen = ticked_kitchen(seed, **how)  # type: ignore[arg-type]
            began = time.perf_counter()
            learned = learn_skill(kitchen.observations, kitchen.books)
            spent += time.perf_counter() - began
            for figure in learned.figures:
                low, high = figure.interval(_LEVEL)
                truth = kitchen.truth[figure.key]
                found[figure.key.kind] += 1
                held[figure.key.kind] += low <= truth <= high
                if figure.key.kind is Kind.RATE:
                    off.append(abs(math.log(figure.value / truth)))
                    book_off.append(abs(math.log(figure.book / truth)))
        shares = [f"{100 * held[kind] / found[kind]:.1f} %" for kind in Kind]
        whole = 100 * sum(held.values()) / sum(found.values())
        yield (
            f"| {name} | {' | '.join(shares)} | {whole:.1f} % | "
            f"{100 * (math.exp(_mean(off)) - 1):.0f} % | "
            f"{100 * (math.exp(_mean(book_off)) - 1):.0f} % | {1000 * spent / kitchens:.1f} |"
        )


def speed() -> Iterator[str]:
    """Rows of the table of mornings a second, on the bundled kitchens' days."""
    for name in ("small", "demo"):
        kitchen = read_kitchen((Path(seed_data.__file__).parent / f"{name}.json").read_bytes())
        for day in sorted({service.date for service in kitchen.services})[:2]:
            options = PlanOptions(deterministic_limit=2.0, workers=1, remedies=False)
            plan = plan_morning(kitchen, day, options)
            kit = kitchenry(kitchen, day)
            mornings = 20_000
            began = time.perf_counter()
            service_chances(kit, plan, mornings=mornings)
            spent = time.perf_counter() - began
            tasks = len(plan.solution.timetable.assignments)
            yield f"| {name}, {day} | {tasks} | {mornings / spent:,.0f} |"


def _mean(values: list[float]) -> float:
    return sum(values) / len(values)


def main() -> None:
    """Print the tables, or put them into a page."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--kitchens", type=int, default=2000)
    parser.add_argument("--out", type=Path)
    given = parser.parse_args()
    tables = {
        "coverage": [
            "| ticked | set-up | rate | pace | all | rates off by | the book off by | ms |",
            "| --- | --- | --- | --- | --- | --- | --- | --- |",
            *coverage(given.kitchens),
        ],
        "speed": ["| day | tasks | mornings a second |", "| --- | --- | --- |", *speed()],
    }
    texts = {name: "\n".join(lines) + "\n" for name, lines in tables.items()}
    if given.out is None:
        print("\n".join(texts.values()))  # noqa: T201
    else:
        given.out.write_text(filled(given.out.read_text(), texts))


if __name__ == "__main__":
    main()
