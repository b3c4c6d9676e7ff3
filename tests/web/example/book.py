"""Turns short rows of work into batches with times, for the example morning."""

import datetime as dt
from dataclasses import dataclass

from planner.sheet.batch_types import (
    BatchOutput,
    ContainerLabel,
    SheetBatch,
    SheetCut,
    SheetTask,
    Taking,
    Trimming,
)
from planner.sheet.cautions import (
    CLEAN_FIRST,
    COLD,
    HOT_FAT,
    HOT_SURFACE,
    KNIFE,
    LIFTING,
    MACHINE,
    STEAM,
    TEMPERATURE,
    WASH_HANDS,
)
from planner.sheet.types import Away

DATE = dt.date(2027, 3, 9)

CUTS = {
    "large dice": SheetCut("Large dice", (0.75, 0.75, 0.75), "common practice, no source"),
    "medium dice": SheetCut("Medium dice", (0.5, 0.5, 0.5), "common practice, no source"),
    "small dice": SheetCut(
        "Small dice", (0.25, 0.25, 0.25), "a batonnet cut across; common practice, no source"
    ),
    "brunoise": SheetCut(
        "Brunoise", (0.125, 0.125, 0.125), "a julienne cut across; common practice, no source"
    ),
    "julienne": SheetCut(
        "Julienne", (0.125, 0.125, 2.0), "1 to 2 in long; common practice, no source"
    ),
    "paysanne": SheetCut("Paysanne", (0.5, 0.5, 0.125), "common practice, no source"),
    "mince": SheetCut("Mince", (), "as fine as the knife goes, no set size"),
    "slice": SheetCut("Slice", (), "across the length; thickness by recipe"),
}
_STATION_CAUTIONS = {
    "Boards": (KNIFE,),
    "Range": (HOT_SURFACE, STEAM),
    "Fryer": (HOT_FAT,),
    "Ovens": (HOT_SURFACE,),
    "Machines": (MACHINE,),
}


def at(clock: str) -> int:
    """Minutes after midnight."""
    hours, minutes = clock.split(":")
    return int(hours) * 60 + int(minutes)


@dataclass(frozen=True)
class C:
    """One row of work: what on what, kilos in, yield, hands-on minutes, where."""

    verb: str
    food: str
    kilos: float
    fraction: float
    minutes: int
    station: str = "Boards"
    part: str = "work"
    cut: str | None = None
    pulled: tuple[str, float, str] | None = None
    """(name, pieces, piece) where it comes from the shelf."""
    takes: tuple[str, ...] = ()
    also_cut: tuple[str, float] | None = None
    equipment: tuple[str, ...] = ()
    alone: int = 0
    celsius: float | None = None
    into: tuple[str, int, str] | None = None
    """(container, how many, storage)."""
    label: str = ""
    days: int = 3
    pieces: tuple[float, str] | None = None
    dishes: tuple[str, ...] = ()
    allergens: tuple[str, ...] = ()
    raw: str = ""
    lead: tuple[int, int, int, int] = (0, 1, 0, 0)
    """(set-up, changeover, hand-wash, clean)."""
    trim: tuple[tuple[str | None, float], ...] = ()
    due: str | None = None
    late: int = 0
    guidance: str = ""
    notes: tuple[str, ...] = ()
    lots: int = 1
    not_before: str | None = None


class Book:
    """Places rows one after the other in a cook's day."""

    def day(
        self,
        cook: str,
        name: str,
        initials: str,
        start: int,
        away: tuple[Away, ...],
        work: tuple[C, ...],
    ) -> tuple[SheetBatch, ...]:
        """Batches of one cook, numbered later."""
        now, batches = start, []
        for row in work:
            if row.not_before:
                now = max(now, at(row.not_before))
            length = sum(row.lead) + row.minutes
            for stretch in sorted(away, key=lambda one: one.start):
                if now < stretch.end and now + length > stretch.start:
                    now = stretch.end
            batches.append(_batch(cook, name, initials, now, row))
            now += length
        return tuple(batches)


def _batch(cook: str, name: str, initials: str, start: int, row: C) -> SheetBatch:
    set_up, changeover, hand_wash, clean = row.lead
    work_start = start + sum(row.lead)
    end = work_start + row.minutes
    grams, given = row.kilos * 1000, row.kilos * 1000 * row.fraction
    outputs = _outputs(row, given, initials)
    cut = CUTS[row.cut] if row.cut and not row.also_cut else None
    return SheetBatch(
        number=0,
        cook=cook,
        cook_name=name,
        part=row.part,
        operation=row.verb.lower().replace(" ", "_"),
        operation_name=row.verb,
        food_name=row.food,
        components=tuple(output.name for output in outputs),
        station=row.station,
        equipment=row.equipment,
        place="place 2" if row.station == "Boards" else "",
        start=start,
        work_start=work_start,
        end=end,
        set_up=set_up,
        changeover=changeover,
        hand_wash=hand_wash,
        clean=clean,
        hands_on=row.minutes,
        grams_in=grams,
        grams_out=given,
        pieces_out=row.pieces[0] if row.pieces else None,
        piece_out=row.pieces[1] if row.pieces else None,
        cut=cut,
        temperature_c=row.celsius,
        unattended=row.alone,
        unattended_until=end + row.alone if row.alone else None,
        takings=_takings(row, grams) if row.part == "work" else (),
        trimmings=tuple(Trimming(to, kilos * 1000) for to, kilos in row.trim),
        label=next((one.label for one in outputs if one.label), None),
        dishes=row.dishes,
        due=at(row.due) if row.due else None,
        late=row.late,
        cautions=_cautions(row),
        allergens=row.allergens,
        guidance=row.guidance,
        notes=row.notes,
        tasks=_tasks(row, work_start, grams, given),
        outputs=outputs,
    )


def _outputs(row: C, given: float, initials: str) -> tuple[BatchOutput, ...]:
    name = row.label or row.food
    cut = CUTS[row.cut] if row.cut else None
    label = None
    if row.into:
        container, count, storage = row.into
        use_by = DATE + dt.timedelta(days=row.days - 1)
        label = ContainerLabel(
            name, DATE, use_by, row.allergens, initials, container, count, storage
        )
    count, piece = row.pieces or (None, None)
    first = BatchOutput(row.verb.lower(), name, given, count, piece, cut, label)
    if not row.also_cut:
        return (first,)
    other, kilos = row.also_cut
    second = BatchOutput("other", "Base for stock", kilos * 1000, None, None, CUTS[other], None)
    return (BatchOutput("first", name, given - kilos * 1000, None, None, cut, label), second)


def _takings(row: C, grams: float) -> tuple[Taking, ...]:
    if row.pulled:
        name, count, piece = row.pulled
        return (Taking(name, grams, count or None, piece or None, "pull"),)
    if row.takes:
        return tuple(
            Taking(name, grams / len(row.takes), None, None, "batch") for name in row.takes
        )
    return (Taking(row.food, grams, None, None, "stock"),)


def _cautions(row: C) -> tuple[str, ...]:
    lines = [WASH_HANDS] if row.lead[2] else []
    lines += [CLEAN_FIRST] if row.lead[3] else []
    lines += [
        text
        for text in _STATION_CAUTIONS.get(row.station, ())
        if row.part == "work" or text != KNIFE
    ]
    if row.raw:
        lines.append(
            f"Raw {row.raw}: keep below and apart from food eaten as it is; wash hands, clean and "
            "sanitise after."
        )
    if row.allergens:
        lines.append(
            f"Allergens: {', '.join(row.allergens)}. Own tools and containers; label; clean and "
            "sanitise after."
        )
    if row.kilos > 15:
        lines.append(LIFTING)
    if row.celsius is not None and row.celsius > 50:
        lines.append(TEMPERATURE)
    if row.into and row.into[2] == "cold":
        lines.append(COLD)
    return tuple(lines)


def _tasks(row: C, start: int, grams: float, given: float) -> tuple[SheetTask, ...]:
    each = row.minutes / row.lots
    return tuple(
        SheetTask(
            index,
            f"lot {index}",
            row.part,
            start + round(each * index),
            start + round(each * (index + 1)),
            grams / row.lots,
            given / row.lots,
            id=f"{row.verb} {row.food}:{start}:{index}:{row.part}",
        )
        for index in range(row.lots)
    )
