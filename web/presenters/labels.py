"""Labels to be printed and stuck on: which there are, how many of each, and what each says.

What a label says of its dates follows the FDA Food Code's rule on date marking, 3-501.17: food
that is ready to eat, needs time and temperature control and is kept over 24 h is marked with the
date or day by which it is eaten, sold or thrown away, the day of preparation being day 1. The local
food code governs.
"""

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from babel.dates import format_date

from planner.sheet.batch_types import BatchOutput, ContainerLabel, SheetBatch
from planner.sheet.types import CookSheet, KitchenSheet
from web.language import _, language, ngettext
from web.presenters.clock import clock
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass, pieces

_DATE = {"en": "EEE d MMM", "es": "EEE d MMM"}


@dataclass(frozen=True, slots=True)
class LabelKind:
    """Labels of one batch's food: alike, but for which container it is."""

    key: str
    """Names it in addresses: ``ada.4.1``, the cook, the batch's number, which of its foods."""
    cook: str
    """Id of the cook."""
    cook_name: str
    batch: int
    """Number of the batch on the cook's sheet."""
    food: str
    """Name of the food, with its cut where it has one."""
    amount: str
    """All that the batch gives of it."""
    container: str
    """Kind of container; empty: none is named."""
    usual: int
    """Labels that are printed unless others are asked for: one for each container."""
    made: str
    """Day and planned time it is made."""
    use_by: str
    """Last day of use."""
    allergens: str
    initials: str
    storage: str
    """How it is kept: cold, hot, ambient, frozen."""


@dataclass(frozen=True, slots=True)
class PrintedLabel:
    """One label: a kind, and which of how many it is."""

    kind: LabelKind
    number: int
    of: int


def label_kinds(
    sheet: KitchenSheet, preferences: Preferences, cook: str = ""
) -> tuple[LabelKind, ...]:
    """What there is to label, cook by cook in the order of the work.

    Parameters
    ----------
    cook
        Id of the one cook whose labels they are; empty: all.
    """
    return tuple(
        kind
        for one in sheet.cooks
        if cook in ("", one.cook)
        for batch in one.batches
        for kind in _of_batch(one, batch, preferences)
    )


def printed_labels(
    kinds: tuple[LabelKind, ...], copies: Mapping[str, int]
) -> tuple[PrintedLabel, ...]:
    """Every label in order; ``copies`` says how many of a kind, by its key, where not the usual."""
    return tuple(
        PrintedLabel(kind, number, of)
        for kind in kinds
        for of in (copies.get(kind.key, kind.usual),)
        for number in range(1, of + 1)
    )


def label_date(date: dt.date) -> str:
    """``Thu 26 Nov``, in the language of the page: the month in letters, so that no order of
    figures can be misread.
    """
    return format_date(date, _DATE[language()], locale=language())


def amount_words(label: PrintedLabel) -> str:
    """``9.4 kg in all, 2 of 3``, with its container; of a single one ``9.4 kg``."""
    kind = label.kind
    if label.of > 1 and kind.container:
        return _(
            "%(amount)s in all, %(container)s %(number)s of %(of)s",
            amount=kind.amount,
            container=kind.container,
            number=label.number,
            of=label.of,
        )
    if label.of > 1:
        return _(
            "%(amount)s in all, %(number)s of %(of)s",
            amount=kind.amount,
            number=label.number,
            of=label.of,
        )
    if kind.container:
        return _("%(amount)s, %(container)s", amount=kind.amount, container=kind.container)
    return kind.amount


def storage_words(storage: str) -> str:
    """``Keep cold``; what the kitchen calls otherwise stands as it is."""
    return {
        "cold": _("Keep cold"),
        "hot": _("Keep hot"),
        "frozen": _("Keep frozen"),
        "ambient": _("Keep at room temperature"),
    }.get(storage, storage)


def copies_words(count: int) -> str:
    """``3 labels``."""
    return ngettext("%(n)s label", "%(n)s labels", count)


def _of_batch(cook: CookSheet, batch: SheetBatch, preferences: Preferences) -> Iterator[LabelKind]:
    for number, (label, output) in enumerate(_labelled(batch), start=1):
        time = clock(batch.end, preferences)
        yield LabelKind(
            key=f"{cook.cook}.{batch.number}.{number}",
            cook=cook.cook,
            cook_name=cook.name,
            batch=batch.number,
            food=_food(label, output),
            amount=_amount(batch, output, preferences),
            container=label.container or "",
            usual=label.containers or 1,
            made=_("%(day)s, planned %(time)s", day=label_date(label.made), time=time),
            use_by=label_date(label.use_by),
            allergens=", ".join(label.allergens) or _("none declared"),
            initials=label.initials,
            storage=label.storage,
        )


def _labelled(batch: SheetBatch) -> Iterator[tuple[ContainerLabel, BatchOutput | None]]:
    """Foods that need a label: each its own, though two cuts of one food say nearly the same."""
    found = False
    for output in batch.outputs:
        if output.label is not None:
            found = True
            yield output.label, output
    if not found and batch.label is not None:
        yield batch.label, None


def _food(label: ContainerLabel, output: BatchOutput | None) -> str:
    if output is None or output.cut is None:
        return label.component
    cut = output.cut.name
    if cut.lower() in label.component.lower():
        return label.component
    return f"{label.component}, {cut.lower()}"


def _amount(batch: SheetBatch, output: BatchOutput | None, preferences: Preferences) -> str:
    grams = batch.grams_out if output is None else output.grams
    count = batch.pieces_out if output is None else output.pieces
    piece = batch.piece_out if output is None else output.piece
    weight = mass(grams, preferences)
    return f"{pieces(count, piece)}, {weight}" if count is not None and piece else weight
