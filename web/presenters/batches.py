"""One batch as a cook reads it."""

import re
from dataclasses import dataclass
from itertools import pairwise

from planner.sheet.batch_types import SheetBatch, SheetTask, Taking, Trimming
from web.language import _, ngettext
from web.presenters.cautions import caution_heads, caution_words
from web.presenters.clock import ClockText, clock, duration, until
from web.presenters.dishes import dish_text, dish_words
from web.presenters.held import held_words
from web.presenters.outputs import (
    CutLine,
    LabelView,
    OutputView,
    cut_lines,
    label_views,
    output_views,
)
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass, pieces, pulled_mass, temperature
from web.presenters.yields import beside_usual
from web.sentences import said

_CODE_GOVERNS = re.compile(r"[;,.]? *(?:the )?local food code governs\.?$")


@dataclass(frozen=True, slots=True)
class TakingView:
    """What a batch starts from: ``Carrots``, ``62 each``, ``pulled``."""

    name: str
    amount: str
    origin: str


@dataclass(frozen=True, slots=True)
class BatchView:
    """One batch in words. Empty text means that there is nothing to say.

    ``brief`` batches are a check or a take-out: the amounts were taken when the work began.
    ``cautions`` are heads only; the whole wording stands once on the sheet. On paper ``hygiene``
    and ``food_from`` say what ``lead`` says on a screen, ``dish_words`` what ``dishes`` says,
    ``caution_words`` leave out what the batch's own temperature and storage say, and
    ``guidance_words`` leave to the foot of each page that the local food code governs.
    """

    number: int
    brief: bool
    title: str
    food: str
    component: str
    start: ClockText
    until: str
    lead: str
    hygiene: str
    food_from: str
    where: str
    take: str
    give: str
    give_count: str
    takings: tuple[TakingView, ...]
    outputs: tuple[OutputView, ...]
    cuts: tuple[CutLine, ...]
    cut_words: str
    temperature: str
    alone: str
    rounds: str
    trim: str
    in_bowl: str
    labels: tuple[LabelView, ...]
    dishes: str
    dish_words: str
    due: str
    late: str
    cautions: tuple[str, ...]
    caution_words: tuple[str, ...]
    allergens: str
    guidance: str
    guidance_words: str
    notes: tuple[str, ...]
    own_yields: tuple[str, ...]


def batch_view(batch: SheetBatch, preferences: Preferences) -> BatchView:
    """Everything a page shows of one batch, in the reader's units."""
    return BatchView(
        number=batch.number,
        brief=batch.part != "work",
        title=batch_title(batch),
        food=batch.food_name,
        component=_component(batch),
        start=clock(batch.start, preferences),
        until=until(batch.start, batch.end, preferences),
        lead=_lead(batch, preferences),
        hygiene=", ".join(words for words, _minutes in _hygiene(batch)),
        food_from=_food_from(batch, preferences),
        where=_where(batch),
        take=mass(batch.grams_in, preferences),
        give=mass(batch.grams_out, preferences),
        give_count=_count(batch.pieces_out, batch.piece_out),
        takings=tuple(_taking(taking, batch, preferences) for taking in batch.takings),
        outputs=output_views(batch, preferences),
        cuts=cut_lines(batch, preferences),
        cut_words=_cut_words(batch, preferences),
        temperature=_temperature(batch, preferences),
        alone=_alone(batch, preferences),
        rounds=_rounds(batch, preferences),
        trim="; ".join(
            _trimming(trimming, preferences) for trimming in batch.trimmings if not trimming.in_bowl
        ),
        in_bowl="; ".join(
            f"{mass(one.grams, preferences)} stays in the bowl"
            for one in batch.trimmings
            if one.in_bowl
        ),
        labels=label_views(batch),
        dishes=dish_text(_spoken(batch.dishes)),
        dish_words=dish_words(_spoken(batch.dishes)),
        due=str(clock(batch.due, preferences)) if batch.due is not None else "",
        late=_("Late by %(time)s", time=duration(batch.late)) if batch.late > 0 else "",
        cautions=caution_heads(batch),
        caution_words=caution_words(batch),
        allergens=", ".join(_spoken(batch.allergens)),
        guidance=batch.guidance,
        guidance_words=_CODE_GOVERNS.sub("", batch.guidance),
        notes=tuple(filter(None, (held_words(batch, preferences), *_spoken(batch.notes)))),
        own_yields=tuple(beside_usual(one.usual, one.own, one.tests) for one in batch.yields),
    )


def batch_title(batch: SheetBatch) -> str:
    """The verb of the line: ``Dice``, after a break ``Go on: Dice``, later ``Take out: Roast``."""
    operation = batch.operation_name
    if batch.part == "check":
        return _("Check: %(operation)s", operation=operation)
    if batch.part == "finish":
        return _("Take out: %(operation)s", operation=operation)
    return _("Go on: %(operation)s", operation=operation) if batch.goes_on else operation


def _spoken(texts: tuple[str, ...]) -> tuple[str, ...]:
    """What the planner says, in the language of the page."""
    return tuple(said(text) for text in texts)


def _component(batch: SheetBatch) -> str:
    """Id of the one component the batch is for; none where it is for several."""
    components = {output.component for output in batch.outputs}
    return components.pop() if len(components) == 1 else ""


def _lead(batch: SheetBatch, preferences: Preferences) -> str:
    parts = (
        (_("change over"), batch.changeover),
        *_hygiene(batch),
        (_("set up"), batch.set_up),
    )
    named = [f"{words} {minutes}" for words, minutes in parts if minutes]
    if not named:
        return ""
    return _(
        "%(parts)s min; food from %(time)s",
        parts=", ".join(named),
        time=clock(batch.work_start, preferences),
    )


def _hygiene(batch: SheetBatch) -> list[tuple[str, int]]:
    """What the lead holds that is owed to the food, with its minutes."""
    parts = ((_("wash hands"), batch.hand_wash), (_("clean and sanitise"), batch.clean))
    return [(words, minutes) for words, minutes in parts if minutes]


def _food_from(batch: SheetBatch, preferences: Preferences) -> str:
    """When the food is first touched, where that is not at the start; a take-out needs no such."""
    if batch.part != "work" or batch.work_start <= batch.start:
        return ""
    return until(batch.start, batch.work_start, preferences)


def _where(batch: SheetBatch) -> str:
    station = f"{batch.station} {batch.place}".strip()
    return ", ".join(part for part in (station, *batch.equipment) if part)


def _cut_words(batch: SheetBatch, preferences: Preferences) -> str:
    """Cuts in a list's few words, where the food's name does not say them: ``, large dice``."""
    cuts = [line.cut for line in cut_lines(batch, preferences)]
    food = batch.food_name.lower()
    return "".join(f", {cut.name.lower()}" for cut in cuts if cut.own_name.lower() not in food)


def _count(count: float | None, piece: str | None) -> str:
    return pieces(count, piece) if count is not None and piece else ""


def _taking(taking: Taking, batch: SheetBatch, preferences: Preferences) -> TakingView:
    """One of several has its weight; a single one's weight and often its name are the batch's."""
    single = len(batch.takings) == 1
    count = _count(taking.pieces, taking.piece)
    # Food off the shelf is rounded as on the pull list.
    weight = pulled_mass if taking.kind == "pull" else mass
    amounts = ("" if single else weight(taking.grams, preferences), count)
    return TakingView(
        "" if single and count and taking.name == batch.food_name else said(taking.name),
        ", ".join(amount for amount in amounts if amount),
        _origin(taking),
    )


def _origin(taking: Taking) -> str:
    """Where it comes from; what another batch hands over names that batch itself."""
    return {"pull": _("pulled"), "stock": _("on hand")}.get(taking.kind, "")


def _temperature(batch: SheetBatch, preferences: Preferences) -> str:
    if batch.temperature_c is None:
        return ""
    return temperature(batch.temperature_c, preferences)


def _alone(batch: SheetBatch, preferences: Preferences) -> str:
    if batch.unattended <= 0:
        return ""
    time = duration(batch.unattended)
    if batch.unattended_until is None:
        return _("Then %(time)s by itself", time=time)
    end = clock(batch.unattended_until, preferences)
    return _("Then %(time)s by itself, all done %(end)s", time=time, end=end)


def _rounds(batch: SheetBatch, preferences: Preferences) -> str:
    """Lots that a vessel takes one after the other, or that lie apart, have a time each.

    Where they must be ready at different times, each says by when.
    """
    work = [task for task in batch.tasks if task.part == "work"]
    apart = any(after.start > before.end for before, after in pairwise(work))
    if len(work) < 2 or not (batch.equipment or batch.unattended > 0 or apart):
        return ""
    dues = len({task.due for task in work}) > 1
    times = ", ".join(
        f"{clock(task.start, preferences)} ({_lot(task, dues, preferences)})" for task in work
    )
    return ngettext("In %(n)s lot: %(times)s", "In %(n)s lots: %(times)s", len(work), times=times)


def _lot(task: SheetTask, with_due: bool, preferences: Preferences) -> str:
    amount = mass(task.grams_in, preferences)
    if not with_due or task.due is None:
        return amount
    return _("%(amount)s, ready by %(time)s", amount=amount, time=clock(task.due, preferences))


def _trimming(trimming: Trimming, preferences: Preferences) -> str:
    amount = mass(trimming.grams, preferences)
    if trimming.to is None:
        return _("%(amount)s to waste", amount=amount)
    return _("%(amount)s to %(use)s", amount=amount, use=trimming.to)
