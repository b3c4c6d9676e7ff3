"""What was counted, put into the file's own values."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from planner.entry.lines import CountEntry
from planner.kitchen.base import Amount
from planner.kitchen.foods import Component

PARTS = ("prepared", "raw_stock")


@dataclass(frozen=True, slots=True)
class Counted:
    """What was counted on a line; ``made`` only for prepared food the file knew none of."""

    amount: Amount
    made: dt.date | None = None


@dataclass(frozen=True, slots=True)
class Recount:
    """The file's lists after a count; ``places`` says from which line each row's fields came."""

    lists: Mapping[str, list[dict[str, Any]]]
    places: Mapping[str, str]
    changed: bool


def recounted(
    file: Mapping[str, Any],
    lines: tuple[CountEntry, ...],
    counts: Mapping[str, Counted],
    components: Mapping[str, Component],
    today: dt.date,
) -> Recount:
    """The lists of food on hand as they were counted: what there is none of is taken out.

    Parameters
    ----------
    file
        The kitchen file's values.
    lines
        All lines of the count.
    counts
        What was counted, by key of the line; a line left out stays as it is.
    components
        The kitchen's, by id: how long new food keeps.
    today
        When new food was received, and made where nothing else is said.
    """
    lists: dict[str, list[dict[str, Any]]] = {part: [] for part in PARTS}
    places: dict[str, str] = {}
    changed = False
    for line in lines:
        stands = None if line.index is None else file[line.part][line.index]
        found = counts.get(line.key)
        row = stands
        if found is not None and found.amount != line.amount:
            row = _row(line, stands, found, components, today)
            changed |= row != stands
        if row is not None:
            place = f"{line.part}[{len(lists[line.part])}]"
            places |= {place: line.made_key, f"{place}.amount": line.key}
            lists[line.part].append(row)
    return Recount(lists, places, changed)


def _row(
    line: CountEntry,
    stands: dict[str, Any] | None,
    found: Counted,
    components: Mapping[str, Component],
    today: dt.date,
) -> dict[str, Any] | None:
    if found.amount.number == 0:
        return None
    if stands is not None:
        return {**stands, "amount": str(found.amount)}
    row = {"item": line.item, "amount": str(found.amount)}
    if line.part == "raw_stock":
        return {**row, "received": today.isoformat()}
    made = found.made or today
    # The day of preparation is day 1.
    use_by = made + dt.timedelta(components[line.item].shelf_life_days - 1)
    return {**row, "made": made.isoformat(), "use_by": use_by.isoformat()}
