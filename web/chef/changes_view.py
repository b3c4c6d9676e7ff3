"""What changes for whom between two releases, in words."""

from collections.abc import Iterator
from dataclasses import dataclass

from planner.sheet.batch_types import SheetBatch
from planner.sheet.changes import BatchChange, CookChanges, sheet_changes
from planner.sheet.types import KitchenSheet
from web.language import _, ngettext, pgettext
from web.presenters.batches import batch_title
from web.presenters.clock import clock
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass

_NOW = "\N{RIGHTWARDS ARROW}"
"""Between what was and what is."""


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """One batch: how it changes in a word, when, what it is, and the rest in words."""

    kind: str
    time: str
    title: str
    words: str


@dataclass(frozen=True, slots=True)
class CookChangesView:
    """One cook's changes."""

    id: str
    name: str
    summary: str
    lines: tuple[ChangeLine, ...]
    kinds: str


@dataclass(frozen=True, slots=True)
class ChangesView:
    """Everybody's changes, and what they come to in a sentence."""

    cooks: tuple[CookChangesView, ...]
    summary: str


def changes_view(
    before: KitchenSheet, after: KitchenSheet, preferences: Preferences
) -> ChangesView:
    """What changes for each cook from one sheet to the other; whoever keeps all is named too."""
    cooks = sheet_changes(before, after)
    touched = sum(bool(cook.changes) for cook in cooks)
    return ChangesView(
        cooks=tuple(_cook(cook, preferences) for cook in cooks),
        summary=ngettext(
            "%(n)s cook has other work than before",
            "%(n)s cooks have other work than before",
            touched,
        )
        if touched
        else _("Nothing changes for anybody"),
    )


def _cook(cook: CookChanges, preferences: Preferences) -> CookChangesView:
    changes = ngettext("%(n)s change", "%(n)s changes", len(cook.changes))
    stay = ngettext("%(n)s batch stays as it was", "%(n)s batches stay as they were", cook.kept)
    return CookChangesView(
        id=cook.cook,
        name=cook.name,
        summary=f"{changes if cook.changes else _('no change')}, {stay}",
        lines=tuple(_line(cook.cook, change, preferences) for change in cook.changes),
        kinds=", ".join(_kinds(cook)),
    )


def _kinds(cook: CookChanges) -> Iterator[str]:
    """How many changes of each kind, those that matter most first."""
    mine = cook.cook
    come = sum(one.moved and _has(one.after, mine) for one in cook.changes)
    go = sum(one.moved and _has(one.before, mine) for one in cook.changes)
    new = sum(one.before is None for one in cook.changes)
    gone = sum(one.after is None for one in cook.changes)
    retimed = sum(one.retimed and not one.moved for one in cook.changes)
    resized = sum(one.resized and not one.moved for one in cook.changes)
    if come:
        yield ngettext("%(n)s comes from others", "%(n)s come from others", come)
    if go:
        yield ngettext("%(n)s goes to others", "%(n)s go to others", go)
    if new:
        yield ngettext("%(n)s new", "%(n)s new", new)
    if gone:
        yield ngettext("%(n)s gone", "%(n)s gone", gone)
    if retimed:
        yield ngettext("%(n)s at another time", "%(n)s at another time", retimed)
    if resized:
        yield ngettext("%(n)s of another quantity", "%(n)s of another quantity", resized)


def _has(batch: SheetBatch | None, cook: str) -> bool:
    return batch is not None and batch.cook == cook


def _line(cook: str, change: BatchChange, preferences: Preferences) -> ChangeLine:
    before, after = change.before, change.after
    now = after or before
    assert now is not None  # noqa: S101 - a change has one of the two
    words: list[str] = []
    if before is None:
        kind = pgettext("batch", "New")
        words.append(mass(now.grams_out, preferences))
    elif after is None:
        kind = pgettext("batch", "Gone")
        words.append(mass(now.grams_out, preferences))
    else:
        if not change.moved:
            kind = _retimed(before, after) if change.retimed else _("Other quantity")
        elif after.cook == cook:
            kind = _("From %(cook)s", cook=before.cook_name)
        else:
            kind = _("To %(cook)s", cook=after.cook_name)
        if change.resized:
            was, is_now = (mass(one.grams_out, preferences) for one in (before, after))
            words.append(f"{was} {_NOW} {is_now}")
    return ChangeLine(kind, _time(change, preferences), _title(now), ", ".join(words))


def _retimed(before: SheetBatch, after: SheetBatch) -> str:
    return _("Earlier") if after.start < before.start else _("Later")


def _time(change: BatchChange, preferences: Preferences) -> str:
    times = [
        str(clock(one.start, preferences))
        for one in (change.before, change.after)
        if one is not None
    ]
    if len(times) == 2 and (change.retimed or change.moved) and times[0] != times[1]:
        return f"{times[0]} {_NOW} {times[1]}"
    return times[-1]


def _title(batch: SheetBatch) -> str:
    cut = batch.cut.name.lower() if batch.cut else ""
    cut = f", {cut}" if cut and cut not in batch.food_name.lower() else ""
    return f"{batch_title(batch)} {batch.food_name}{cut}"
