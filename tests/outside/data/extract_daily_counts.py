"""Make pizza_days.csv and noon_rides.csv from two Python packages' data; see README.md.

python extract_daily_counts.py 05-pizzaplace.csv hourly_bikesharing.csv
"""

import csv
import sys
from collections import Counter, defaultdict
from pathlib import Path

_HERE = Path(__file__).parent
_DISHES = 8
_NOON = "12:00:00"
_FROM, _TO = "2017-01-01", "2019-08-31"


def pizza_days(source: Path) -> list[tuple[str, str, str, int]]:
    """Bills and the most sold pizzas, day by day, as a sales history."""
    with source.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    most = [name for name, _ in Counter(row["name"] for row in rows).most_common(_DISHES)]
    bills: dict[str, set[str]] = defaultdict(set)
    sold: Counter[tuple[str, str]] = Counter()
    for row in rows:
        bills[row["date"]].add(row["id"])
        sold[row["date"], row["name"]] += 1
    found = []
    for date in sorted(bills):
        found.append((date, "all_day", "covers", len(bills[date])))
        found += [(date, "all_day", name, sold[date, name]) for name in most]
    return found


def noon_rides(source: Path) -> list[tuple[str, int]]:
    """Rides that began from twelve to one, day by day."""
    with source.open(encoding="utf-8", newline="") as file:
        return [
            (row["date"], int(row["count"]))
            for row in csv.DictReader(file)
            if row["ts"].endswith(_NOON) and _FROM <= row["date"] <= _TO
        ]


def _write(name: str, head: tuple[str, ...], rows: list[tuple[str | int, ...]]) -> None:
    with (_HERE / name).open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(head)
        writer.writerows(rows)


if __name__ == "__main__":
    pizza, rides = (Path(name) for name in sys.argv[1:3])
    _write("pizza_days.csv", ("date", "service", "dish", "count"), [*pizza_days(pizza)])
    _write("noon_rides.csv", ("date", "count"), [*noon_rides(rides)])
