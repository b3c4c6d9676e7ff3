"""Plans side by side, and what-ifs, in words."""

from collections.abc import Sequence
from dataclasses import dataclass

from planner.sheet.changes import sheet_changes
from planner.sheet.types import KitchenSheet
from planner.whatif.compare import Comparison
from planner.whatif.people import BatchMove, BatchSeen, PeopleChanges
from web.presenters.clock import clock, duration
from web.presenters.counting import counted
from web.presenters.preferences import Preferences
from web.presenters.typography import MINUS

_NOW = "\N{RIGHTWARDS ARROW}"
_NONE = "\N{EN DASH}"


@dataclass(frozen=True, slots=True)
class PlanColumn:
    """A plan of the table: its heading, where it is read, and one text for each row."""

    heading: str
    href: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlansTable:
    """Plans of one day, side by side; the first is the one the others are compared with."""

    rows: tuple[str, ...]
    columns: tuple[PlanColumn, ...]


@dataclass(frozen=True, slots=True)
class WhatIfView:
    """One what-if: each figure as it is and changed; what changes for people, in lines.

    ``state`` is empty once it is done.
    """

    words: str
    state: str
    error: str
    cells: tuple[tuple[str, str], ...]
    people: tuple[str, ...]


_ROWS = (
    "Portions short",
    "Batches late",
    "Latest by",
    "Work",
    "Prep done",
    "Batches with another cook",
    "Batches at another time",
    "Batches in one of them only",
)


def plans_table(
    plans: Sequence[tuple[str, str, KitchenSheet]], preferences: Preferences
) -> PlansTable:
    """The plans (heading, address, sheet) in the order given, compared with the first."""
    first = plans[0][2]
    columns = []
    for number, (heading, href, sheet) in enumerate(plans):
        batches = [batch for cook in sheet.cooks for batch in cook.batches]
        late = [batch.late for batch in batches if batch.late]
        ends = [cook.finish for cook in sheet.cooks if cook.finish is not None]
        cells = (
            str(sheet.short_portions),
            str(len(late)),
            f"{max(late)} min" if late else _NONE,
            duration(sheet.labor_minutes),
            str(clock(max(ends), preferences)) if ends else _NONE,
            *((_NONE,) * 3 if number == 0 else _moves(sheet, first)),
        )
        columns.append(PlanColumn(heading, href, cells))
    return PlansTable(_ROWS, tuple(columns))


def _moves(before: KitchenSheet, after: KitchenSheet) -> tuple[str, str, str]:
    # A batch that moves is told to both cooks: it is counted where it comes to.
    changes = [
        change
        for cook in sheet_changes(before, after)
        for change in cook.changes
        if change.after is None or change.after.cook == cook.cook
    ]
    moved = sum(change.moved for change in changes)
    retimed = sum(change.retimed and not change.moved for change in changes)
    alone = sum(change.before is None or change.after is None for change in changes)
    return str(moved), str(retimed), str(alone)


FIGURES = ("Portions short", "Late in all", "Work", "Overtime", "Wages", "Batches that move")


def what_if_view(
    words: str, *, running: bool, error: str, found: Comparison | None, preferences: Preferences
) -> WhatIfView:
    """A what-if in words; its cells are (both figures, note) in the order of ``FIGURES``."""
    if found is None:
        state = "not possible" if error else "being planned" if running else "waiting"
        return WhatIfView(words, state, error, (), ())
    before, after = found.as_it_is, found.changed
    people = found.people
    moving = len(people.moved) + len(people.earlier) + len(people.later)
    par = ""
    if before.short_kilos or after.short_kilos:
        par = f"par: {_now(f'{before.short_kilos} kg', f'{after.short_kilos} kg')}"
    return WhatIfView(
        words=words,
        state="",
        error="",
        cells=(
            (_now(str(before.short_portions), str(after.short_portions)), par),
            (_now(duration(before.late_minutes), duration(after.late_minutes)), ""),
            (_now(duration(before.labor), duration(after.labor)), _more(before.labor, after.labor)),
            (_now(duration(before.overtime), duration(after.overtime)), ""),
            (_now(f"{before.wages:,.2f}", f"{after.wages:,.2f}"), found.currency),
            (str(moving), counted(people.kept, "stays", "stay")),
        ),
        people=tuple(_people(people, preferences)),
    )


def _now(before: str, after: str) -> str:
    """What it is and what it would be; once where that is the same."""
    return after if before == after else f"{before} {_NOW} {after}"


def _more(before: int, after: int) -> str:
    if before == after:
        return ""
    return f"{'+' if after > before else MINUS}{duration(abs(after - before))}"


def _people(people: PeopleChanges, preferences: Preferences) -> list[str]:
    lines = [_move(one, preferences) for one in people.moved]
    lines += [_move(one, preferences) for one in (*people.earlier, *people.later)]
    lines += [f"Only with the change: {_seen(one, preferences)}" for one in people.added]
    lines += [f"Only as it is: {_seen(one, preferences)}" for one in people.dropped]
    return lines


def _move(one: BatchMove, preferences: Preferences) -> str:
    before, after = (clock(start, preferences) for start in (one.start_before, one.start_after))
    if one.cook_before == one.cook_after:
        return f"{one.title}, {one.cook_before}: {before} {_NOW} {after}"
    return f"{one.title}: {one.cook_before} {before} {_NOW} {one.cook_after} {after}"


def _seen(one: BatchSeen, preferences: Preferences) -> str:
    return f"{one.title}, {one.cook} {clock(one.start, preferences)}"
