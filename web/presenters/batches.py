"""One batch as a cook reads it."""

from dataclasses import dataclass

from planner.sheet.types import SheetBatch, Trimming
from web.presenters.cautions import caution_heads
from web.presenters.clock import ClockText, clock, duration, until
from web.presenters.outputs import (
    CutLine,
    LabelView,
    OutputView,
    cut_lines,
    label_views,
    output_views,
)
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass, pieces, temperature

_ORIGINS = {"pull": "pulled", "stock": "on hand"}
"""Where a taking comes from; what another batch hands over names that batch itself."""

_PARTS = {"check": "Check", "finish": "Take out"}


@dataclass(frozen=True, slots=True)
class BatchView:
    """One batch in words. Empty text means that there is nothing to say.

    ``brief`` batches are a check or a take-out: the amounts were taken when the work began.
    ``cautions`` are heads only; the whole wording stands once on the sheet.
    """

    number: int
    brief: bool
    title: str
    food: str
    start: ClockText
    until: str
    lead: str
    where: str
    take: str
    give: str
    give_count: str
    takings: str
    outputs: tuple[OutputView, ...]
    cuts: tuple[CutLine, ...]
    temperature: str
    alone: str
    rounds: str
    trim: str
    labels: tuple[LabelView, ...]
    dishes: str
    due: str
    late: str
    cautions: tuple[str, ...]
    allergens: str
    guidance: str
    notes: tuple[str, ...]


def batch_view(batch: SheetBatch, preferences: Preferences) -> BatchView:
    """Everything a page shows of one batch, in the reader's units."""
    return BatchView(
        number=batch.number,
        brief=batch.part != "work",
        title=batch_title(batch),
        food=batch.food_name,
        start=clock(batch.start, preferences),
        until=until(batch.start, batch.end, preferences),
        lead=_lead(batch, preferences),
        where=_where(batch),
        take=mass(batch.grams_in, preferences),
        give=mass(batch.grams_out, preferences),
        give_count=_count(batch.pieces_out, batch.piece_out),
        takings=_takings(batch, preferences),
        outputs=output_views(batch, preferences),
        cuts=cut_lines(batch, preferences),
        temperature=_temperature(batch, preferences),
        alone=_alone(batch, preferences),
        rounds=_rounds(batch, preferences),
        trim="; ".join(_trimming(trimming, preferences) for trimming in batch.trimmings),
        labels=label_views(batch),
        dishes=dish_text(batch.dishes),
        due=str(clock(batch.due, preferences)) if batch.due is not None else "",
        late=f"Late by {duration(batch.late)}" if batch.late > 0 else "",
        cautions=caution_heads(batch),
        allergens=", ".join(batch.allergens),
        guidance=batch.guidance,
        notes=batch.notes,
    )


def batch_title(batch: SheetBatch) -> str:
    """The verb of the line: ``Dice``, or for later parts ``Take out: Roast``."""
    part = _PARTS.get(batch.part)
    return f"{part}: {batch.operation_name}" if part else batch.operation_name


def dish_text(dishes: tuple[str, ...]) -> str:
    """Dishes, each named once with its services: ``Soup (Lunch, Dinner); Tart (Dinner)``."""
    services: dict[str, list[str]] = {}
    for text in dishes:
        dish, bracket, service = text.removesuffix(")").rpartition(" (")
        if bracket and text.endswith(")"):
            services.setdefault(dish, []).append(service)
        else:
            services.setdefault(text, [])
    return "; ".join(
        f"{dish} ({', '.join(found)})" if found else dish for dish, found in services.items()
    )


def _lead(batch: SheetBatch, preferences: Preferences) -> str:
    parts = (
        ("change over", batch.changeover),
        ("wash hands", batch.hand_wash),
        ("clean and sanitise", batch.clean),
        ("set up", batch.set_up),
    )
    named = [f"{words} {minutes}" for words, minutes in parts if minutes]
    if not named:
        return ""
    return f"{', '.join(named)} min; food from {clock(batch.work_start, preferences)}"


def _where(batch: SheetBatch) -> str:
    station = f"{batch.station} {batch.place}".strip()
    return ", ".join(part for part in (station, *batch.equipment) if part)


def _count(count: float | None, piece: str | None) -> str:
    return pieces(count, piece) if count is not None and piece else ""


def _takings(batch: SheetBatch, preferences: Preferences) -> str:
    """What a batch starts from: ``Carrots, 62 each, pulled``; weights where there are several."""
    lines = []
    for taking in batch.takings:
        weight = mass(taking.grams, preferences) if len(batch.takings) > 1 else ""
        count = _count(taking.pieces, taking.piece)
        parts = (taking.name, weight, count, _ORIGINS.get(taking.kind, ""))
        lines.append(", ".join(part for part in parts if part))
    return "; ".join(lines)


def _temperature(batch: SheetBatch, preferences: Preferences) -> str:
    if batch.temperature_c is None:
        return ""
    return temperature(batch.temperature_c, preferences)


def _alone(batch: SheetBatch, preferences: Preferences) -> str:
    if batch.unattended <= 0:
        return ""
    text = f"Then {duration(batch.unattended)} by itself"
    if batch.unattended_until is None:
        return text
    return f"{text}, all done {clock(batch.unattended_until, preferences)}"


def _rounds(batch: SheetBatch, preferences: Preferences) -> str:
    """Lots of one batch that go into a vessel one after the other have a time each."""
    work = [task for task in batch.tasks if task.part == "work"]
    if len(work) < 2 or batch.unattended <= 0:
        return ""
    times = ", ".join(
        f"{clock(task.start, preferences)} ({mass(task.grams_in, preferences)})" for task in work
    )
    return f"In {len(work)} lots: {times}"


def _trimming(trimming: Trimming, preferences: Preferences) -> str:
    return f"{mass(trimming.grams, preferences)} to {trimming.to or 'waste'}"
