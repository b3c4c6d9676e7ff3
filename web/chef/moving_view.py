"""Batches of a plan by cook, each with what may be done with it by hand, in words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import KitchenSheet
from web.language import gettext as _
from web.language import ngettext
from web.presenters.batches import batch_title
from web.presenters.clock import clock
from web.presenters.held import held_words
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass

_DAY = 24 * 60


@dataclass(frozen=True, slots=True)
class Able:
    """A cook who may be given a batch."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class Typed:
    """What was sent for a batch, shown again where it could not be done."""

    batch: int
    cook: str
    when: str
    time: str
    wrong: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class BatchToMove:
    """One batch.

    ``begin`` is when its work begins now, as a time field takes it; ``held`` what of it is held by
    hand, or empty; ``open``: its form is shown.
    """

    number: int
    time: str
    title: str
    amount: str
    begin: str
    held: str
    cooks: tuple[Able, ...]
    cook: str
    when: str
    wrong: tuple[str, ...] = ()
    open: bool = False


@dataclass(frozen=True, slots=True)
class CookToMove:
    """A cook's batches whose work may be moved."""

    id: str
    name: str
    summary: str
    batches: tuple[BatchToMove, ...]


@dataclass(frozen=True, slots=True)
class MovingView:
    """Everybody's batches, and how many of them are held by hand."""

    cooks: tuple[CookToMove, ...]
    summary: str
    wrong: tuple[str, ...] = field(default=())


def moving_view(
    sheet: KitchenSheet,
    able: Mapping[str, Sequence[Able]],
    preferences: Preferences,
    typed: Typed | None = None,
) -> MovingView:
    """The batches of a plan; ``able`` are those who can do an operation, by its id."""
    cooks = tuple(
        CookToMove(
            cook.cook,
            cook.name,
            ngettext("%(n)s batch", "%(n)s batches", len(mine)),
            tuple(_batch(one, able.get(one.operation, ()), preferences, typed) for one in mine),
        )
        for cook in sheet.cooks
        if (mine := [one for one in cook.batches if one.part == "work"])
    )
    held = sum(bool(batch.held) for cook in cooks for batch in cook.batches)
    numbers = {batch.number for cook in cooks for batch in cook.batches}
    return MovingView(
        cooks,
        ngettext("%(n)s batch is held by hand", "%(n)s batches are held by hand", held)
        if held
        else _("No batch is held by hand"),
        typed.wrong if typed is not None and typed.batch not in numbers else (),
    )


def _batch(
    batch: SheetBatch, able: Sequence[Able], preferences: Preferences, typed: Typed | None
) -> BatchToMove:
    again = typed if typed is not None and typed.batch == batch.number else None
    held = batch.held
    when = "open"
    if held is not None and held.begin is not None:
        when = "at" if held.exactly else "after"
    begin = batch.work_start if held is None or held.begin is None else held.begin
    cut = batch.cut.name.lower() if batch.cut else ""
    cut = f", {cut}" if cut and cut not in batch.food_name.lower() else ""
    return BatchToMove(
        number=batch.number,
        time=str(clock(batch.start, preferences)),
        title=f"{batch_title(batch)} {batch.food_name}{cut}",
        amount=mass(batch.grams_in, preferences),
        begin=again.time if again else f"{begin % _DAY // 60:02}:{begin % 60:02}",
        held=held_words(batch, preferences),
        cooks=tuple(able),
        cook=again.cook if again else batch.cook,
        when=again.when if again else when,
        wrong=again.wrong if again else (),
        open=again is not None,
    )
