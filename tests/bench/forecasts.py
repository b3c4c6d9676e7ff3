"""What forecasts and buffers would have done on held-back weeks: the tables of docs/forecasts.md.

python -m tests.bench.forecasts --out docs/forecasts.md
"""

import argparse
import csv
import datetime as dt
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from planner.forecast.backtest import Buffer, Outcome, at_level, flat, outcomes, short_at_waste
from planner.forecast.choose import choose
from planner.forecast.history import COVERS, Series, history_of
from planner.forecast.holidays import public_holidays
from planner.forecast.models import FORECASTERS, NAIVE
from service.sales_csv import read_sales
from tests.forecast.invented import DISHES, invented_sales

_DATA = Path(__file__).parent.parent / "outside" / "data"
_WEEKS = 12
_SEEDS = 20
_LEVELS = (0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99)
_WAY = "weekdays about a level"
_RATIOS = (0.5, 0.75, 0.9, 0.95)
"""Shortage cost / (shortage + leftover cost)."""


@dataclass(frozen=True)
class Case:
    """Histories of dishes (or guests) that are prepared for, and what to call them."""

    name: str
    dishes: Mapping[str, Series]
    holidays: frozenset[dt.date]


def cases() -> Iterator[tuple[str, list[Case]]]:
    """Groups of cases by what they are."""
    invented = []
    for seed in range(_SEEDS):
        history = history_of(invented_sales(seed, weeks=40))
        series = {dish: history.series("dinner", dish) for dish in DISHES}
        invented.append(Case(f"seed {seed}", series, frozenset()))
    yield "invented restaurant", invented
    pizza = read_sales((_DATA / "pizza_days.csv").read_bytes())
    days = pizza.series("all_day", COVERS).dates
    of_pizza = {dish: pizza.series("all_day", dish) for dish in pizza.dishes("all_day")}
    yield "pizza place", [Case("2015", of_pizza, public_holidays("US", days))]
    with (_DATA / "noon_rides.csv").open(newline="") as file:
        rows = [(dt.date.fromisoformat(r["date"]), int(r["count"])) for r in csv.DictReader(file)]
    rides = Series(tuple(date for date, _ in rows), tuple(count for _, count in rows))
    holidays = public_holidays("US", rides.dates, "DC")
    yield "noon rides", [Case("2017 to 2019", {"rides": rides}, holidays)]


def accuracy(groups: Mapping[str, list[Case]]) -> Iterator[str]:
    """Who is off by how much, and how often the 90 % quantile was enough."""
    yield "| data | way | off by | beside the naive way | 90 % was enough | naive wins |"
    yield "| --- | --- | --- | --- | --- | --- |"
    for name, group in groups.items():
        off: defaultdict[str, float] = defaultdict(float)
        ready: defaultdict[str, float] = defaultdict(float)
        days = naive = series_count = 0
        for case in group:
            for series in case.dishes.values():
                chosen = choose(series, case.holidays, names=tuple(FORECASTERS), weeks=_WEEKS)
                series_count += 1
                naive += chosen.naive_wins
                days += chosen.scores[0].days
                for score in chosen.scores:
                    off[score.name] += score.off * score.days
                    ready[score.name] += score.ready * score.days
        for way in FORECASTERS:
            wins = f"{naive} of {series_count}" if way == NAIVE else ""
            yield (
                f"| {name} | {way} | {off[way] / days:.1f} | {100 * off[way] / off[NAIVE]:.0f} % | "
                f"{100 * ready[way] / days:.0f} % | {wins} |"
            )


def curves(groups: Mapping[str, list[Case]]) -> Iterator[str]:
    """Short and wasted of flat buffers and of levels."""
    heads = ("data", "buffer", "portions short", "portions left", "days that ran out")
    yield f"| {' | '.join(heads)} | flat at that waste |"
    yield "| --- | --- | --- | --- | --- | --- |"
    for name, group in groups.items():
        flats = _mean(group, {f"{n} % on top": flat(n / 100) for n in (0, 5, 10, 15, 20, 30, 45)})
        levels = _mean(group, {f"{level:.0%} level": at_level(level) for level in _LEVELS})
        shown = [one for one in flats if one.name in ("10 % on top", "20 % on top")]
        for one in shown:
            yield f"| {name} | {one.name} | {_row(one)} | |"
        for one in levels:
            other = short_at_waste(flats, one.waste)
            beside = "" if other is None else f"{100 * other:.1f} % short"
            yield f"| {name} | {one.name} | {_row(one)} | {beside} |"


def money(groups: Mapping[str, list[Case]]) -> Iterator[str]:
    """Cost of each buffer, beside being ready at the newsvendor's ratio."""
    heads = " | ".join(f"ratio {ratio:g}" for ratio in _RATIOS)
    yield f"| data | buffer | {heads} |"
    yield "| --- | --- |" + " --- |" * len(_RATIOS)
    for name, group in groups.items():
        rows: dict[str, list[str]] = {"10 % on top": [], "20 % on top": []}
        for ratio in _RATIOS:
            best, *others = _mean(
                group,
                {
                    "by costs": at_level(ratio),
                    "10 % on top": flat(0.1),
                    "20 % on top": flat(0.2),
                },
            )
            for other in others:
                part = _cost(other, ratio) / _cost(best, ratio)
                rows[other.name].append(f"{100 * (part - 1):+.0f} %")
        for buffer, cells in rows.items():
            yield f"| {name} | {buffer} | {' | '.join(cells)} |"


def _cost(one: Outcome, ratio: float) -> float:
    """Money per portion wanted, where short and left over together cost 1."""
    made = (1 - one.short) / (1 - one.waste)
    return ratio * one.short + (1 - ratio) * one.waste * made


def _mean(group: list[Case], buffers: Mapping[str, Buffer]) -> list[Outcome]:
    found = [
        outcomes(case.dishes, buffers, way=_WAY, weeks=_WEEKS, holidays=case.holidays)
        for case in group
    ]
    return [
        Outcome(
            name=of_buffer[0].name,
            short=sum(one.short for one in of_buffer) / len(group),
            waste=sum(one.waste for one in of_buffer) / len(group),
            ran_out=sum(one.ran_out for one in of_buffer) / len(group),
            days=sum(one.days for one in of_buffer),
        )
        for of_buffer in zip(*found, strict=True)
    ]


def _row(one: Outcome) -> str:
    return f"{100 * one.short:.1f} % | {100 * one.waste:.1f} % | {100 * one.ran_out:.0f} %"


def main() -> None:
    """Print the tables, or put them into a page."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--out", type=Path)
    given = parser.parse_args()
    groups = dict(cases())
    tables = {"accuracy": accuracy, "curves": curves, "money": money}
    texts = {name: "\n".join(make(groups)) + "\n" for name, make in tables.items()}
    if given.out is None:
        print("\n".join(texts.values()))  # noqa: T201
    else:
        page = (given.out).read_text()
        from tests.bench.page import filled  # noqa: PLC0415 - loads the solver

        given.out.write_text(filled(page, texts))


if __name__ == "__main__":
    main()
