"""One cook's morning, in the order it happens."""

from dataclasses import dataclass

from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import Away, CookSheet, KitchenSheet
from web.language import _, ngettext
from web.presenters.away import away_words
from web.presenters.batches import BatchView, batch_view
from web.presenters.cautions import CautionView, caution_views
from web.presenters.clock import ClockText, clock, duration, long_date, short_date, span, until
from web.presenters.hours import runs_on
from web.presenters.outputs import every_label
from web.presenters.preferences import Preferences
from web.presenters.pulls import PullGroup, cold_words, pull_groups
from web.sentences import said


@dataclass(frozen=True, slots=True)
class AwayView:
    """A break, a stretch on the line or the station set-up."""

    kind: str
    start: ClockText
    until: str
    when: str
    length: str


@dataclass(frozen=True, slots=True)
class DayLine:
    """One line of the day: a batch, or a stretch away from prep."""

    batch: BatchView | None
    away: AwayView | None


@dataclass(frozen=True, slots=True)
class CookView:
    """Everything a cook's sheet shows."""

    id: str
    name: str
    initials: str
    kitchen: str
    date: str
    day_name: str
    every_label: str
    shift: str
    breaks: tuple[AwayView, ...]
    set_up: tuple[str, ...]
    pulls: tuple[PullGroup, ...]
    cold: str
    day: tuple[DayLine, ...]
    batch_count: str
    paper_head: str
    cautions: tuple[CautionView, ...]
    hands_on: str
    changeover: str
    finish: str
    overtime: str
    runs_on: str
    late: str


def cook_view(sheet: KitchenSheet, cook: CookSheet, preferences: Preferences) -> CookView:
    """The sheet of ``cook`` in the reader's units and clock."""
    late = sum(batch.late > 0 for batch in cook.batches)
    pulls = pull_groups(cook.pulls, preferences)
    name = cook.name
    if cook.beside:
        name = _("%(cook)s with %(trainee)s", cook=cook.name, trainee=cook.beside)
    batches = ngettext("%(n)s batch", "%(n)s batches", len(cook.batches))
    marks = every_label(cook.batches)
    return CookView(
        id=cook.cook,
        name=name,
        initials=cook.initials,
        kitchen=sheet.kitchen,
        date=long_date(sheet.date),
        day_name=short_date(sheet.date),
        every_label=marks,
        shift=span(cook.shift_start, cook.shift_end, preferences),
        breaks=tuple(
            _away(away, preferences) for away in cook.away if away.kind != "station set-up"
        ),
        set_up=tuple(said(line) for line in cook.set_up),
        pulls=pulls,
        cold=cold_words(pulls),
        day=_day(cook, preferences),
        batch_count=batches,
        paper_head=_paper_head(name, sheet, batches, marks),
        cautions=caution_views(cook.batches),
        hands_on=duration(cook.hands_on),
        changeover=duration(cook.changeover),
        finish=str(clock(cook.finish, preferences)) if cook.finish is not None else "",
        overtime=_overtime(cook),
        runs_on=runs_on(cook.batches, preferences),
        late=ngettext("%(n)s late", "%(n)s late", late) if late else "",
    )


def _paper_head(name: str, sheet: KitchenSheet, batches: str, marks: str) -> str:
    """What stands at the head of the work on every printed page."""
    day = short_date(sheet.date)
    if not marks:
        return _("%(batches)s of %(cook)s, %(day)s", batches=batches, cook=name, day=day)
    return _(
        "%(batches)s of %(cook)s, %(day)s; on every label: %(marks)s",
        batches=batches,
        cook=name,
        day=day,
        marks=marks,
    )


def _overtime(cook: CookSheet) -> str:
    """How long hands are needed after the shift's end; empty where they are not."""
    if cook.finish is None or cook.finish <= cook.shift_end:
        return ""
    return duration(cook.finish - cook.shift_end)


def _day(cook: CookSheet, preferences: Preferences) -> tuple[DayLine, ...]:
    entries: list[SheetBatch | Away] = [*cook.batches, *cook.away]
    # What a cook is called away to comes before a batch of the same minute.
    entries.sort(key=lambda entry: (entry.start, isinstance(entry, SheetBatch)))
    return tuple(
        DayLine(batch_view(entry, preferences), None)
        if isinstance(entry, SheetBatch)
        else DayLine(None, _away(entry, preferences))
        for entry in entries
    )


def _away(away: Away, preferences: Preferences) -> AwayView:
    return AwayView(
        kind=away_words(away.kind),
        start=clock(away.start, preferences),
        until=until(away.start, away.end, preferences),
        when=span(away.start, away.end, preferences),
        length=duration(away.end - away.start),
    )
