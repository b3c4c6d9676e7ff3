"""Plans side by side, and what-ifs, in words."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from planner.sheet.changes import sheet_changes
from planner.sheet.types import KitchenSheet
from planner.whatif.compare import Comparison
from planner.whatif.people import BatchMove, BatchSeen, PeopleChanges
from web.language import _, ngettext
from web.presenters.clock import clock, duration
from web.presenters.plans import state_words
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass
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

    ``key`` is its name in addresses, ``asked`` when it was asked for. ``state`` is empty once it is
    done; ``waits`` while something may still come of it by itself, ``again`` where trying it once
    more may help.
    """

    words: str
    key: str
    asked: str
    state: str
    waits: bool
    again: bool
    error: str
    cells: tuple[tuple[str, str], ...]
    people: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Otherwise:
    """What is otherwise in a what-if, and of what.

    Attributes
    ----------
    change
        A cook is ``out``, ``covers`` are more or fewer, or there is more of an ``equipment``.
    name
        Of the cook or the equipment.
    percent
        More covers, or fewer.
    count, before
        How many of the equipment there would be, and are.
    """

    change: Literal["out", "covers", "equipment"]
    name: str = ""
    percent: int = 0
    count: int = 0
    before: int = 0


def otherwise_words(one: Otherwise) -> str:
    """A what-if in words, as ``Ben is out``."""
    match one.change:
        case "out":
            return _("%(cook)s is out", cook=one.name)
        case "covers":
            return _("%(percent)s %% covers", percent=f"{one.percent:+d}")
        case "equipment":
            return _(
                "%(equipment)s: %(count)s instead of %(before)s",
                equipment=one.name,
                count=one.count,
                before=one.before,
            )


def _rows() -> tuple[str, ...]:
    return (
        _("Portions short"),
        _("Batches late"),
        _("Latest by"),
        _("Work"),
        _("Prep done"),
        _("Batches with another cook"),
        _("Batches at another time"),
        _("Batches in one of them only"),
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
    return PlansTable(_rows(), tuple(columns))


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


def figures() -> tuple[str, ...]:
    """What a what-if is judged by, in the order of a ``WhatIfView``'s cells."""
    return (
        _("Portions short"),
        _("Late in all"),
        _("Work"),
        _("Overtime"),
        _("Wages"),
        _("Batches that move"),
    )


def _what_if_state(state: str) -> str:
    match state:
        case "refused":
            return _("not possible")
        case "cut_off":
            return _("cut off")
        case _:
            return state_words(state)


def what_if_view(
    words: str,
    *,
    key: str,
    state: str,
    asked: str,
    error: str,
    found: Comparison | None,
    preferences: Preferences,
) -> WhatIfView:
    """A what-if in words; its cells are (both figures, note) in the order of ``figures``.

    ``state`` is queued, running, done, refused, failed or cut_off; ``asked`` is when, in words.
    """
    if found is None:
        return WhatIfView(
            words=words,
            key=key,
            asked=asked,
            state=_what_if_state(state),
            waits=state in ("queued", "running"),
            again=state in ("failed", "cut_off"),
            error=_("The program ended before it was done.") if state == "cut_off" else error,
            cells=(),
            people=(),
        )
    before, after = found.as_it_is, found.changed
    people = found.people
    moving = len(people.moved) + len(people.earlier) + len(people.later)
    par = ""
    if before.short_kilos or after.short_kilos:
        was, is_now = (_kilos(one.short_kilos, preferences) for one in (before, after))
        par = _("par: %(kilos)s", kilos=_now(was, is_now))
    return WhatIfView(
        words=words,
        key=key,
        asked=asked,
        state="",
        waits=False,
        again=False,
        error="",
        cells=(
            (_now(str(before.short_portions), str(after.short_portions)), par),
            (_now(duration(before.late_minutes), duration(after.late_minutes)), ""),
            (_now(duration(before.labor), duration(after.labor)), _more(before.labor, after.labor)),
            (_now(duration(before.overtime), duration(after.overtime)), ""),
            (_now(f"{before.wages:,.2f}", f"{after.wages:,.2f}"), found.currency),
            (str(moving), ngettext("%(n)s stays", "%(n)s stay", people.kept)),
        ),
        people=tuple(_people(people, preferences)),
    )


def _now(before: str, after: str) -> str:
    """What it is and what it would be; once where that is the same."""
    return after if before == after else f"{before} {_NOW} {after}"


def _kilos(kilos: int, preferences: Preferences) -> str:
    return mass(kilos * 1000, preferences) if preferences.units == "us" else f"{kilos} kg"


def _more(before: int, after: int) -> str:
    if before == after:
        return ""
    return f"{'+' if after > before else MINUS}{duration(abs(after - before))}"


def _people(people: PeopleChanges, preferences: Preferences) -> list[str]:
    lines = [_move(one, preferences) for one in people.moved]
    lines += [_move(one, preferences) for one in (*people.earlier, *people.later)]
    lines += [
        _("Only with the change: %(batch)s", batch=_seen(one, preferences)) for one in people.added
    ]
    lines += [
        _("Only as it is: %(batch)s", batch=_seen(one, preferences)) for one in people.dropped
    ]
    return lines


def _move(one: BatchMove, preferences: Preferences) -> str:
    before, after = (clock(start, preferences) for start in (one.start_before, one.start_after))
    if one.cook_before == one.cook_after:
        return f"{one.title}, {one.cook_before}: {before} {_NOW} {after}"
    return f"{one.title}: {one.cook_before} {before} {_NOW} {one.cook_after} {after}"


def _seen(one: BatchSeen, preferences: Preferences) -> str:
    return f"{one.title}, {one.cook} {clock(one.start, preferences)}"
