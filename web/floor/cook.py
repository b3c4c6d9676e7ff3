"""One cook's live page: the batch at hand large, then what comes next, then what is done."""

from dataclasses import dataclass

from planner.floor.progress import BatchProgress, Stage, current, progress_of
from planner.floor.state import Floor
from planner.sheet.types import Away, CookSheet, KitchenSheet
from web.floor.reasons import reason_words
from web.floor.state import lot_by_lot
from web.floor.words import cook_words
from web.language import _, ngettext
from web.presenters.away import away_words
from web.presenters.batches import BatchView, batch_view
from web.presenters.cautions import CautionView, caution_views
from web.presenters.clock import clock, duration, short_date, span
from web.presenters.preferences import Preferences
from web.presenters.pulls import PullGroup, cold_words, pull_groups
from web.presenters.quantities import mass
from web.sentences import said


@dataclass(frozen=True, slots=True)
class LotView:
    """One lot of a batch whose lots are ticked one by one."""

    task: str
    text: str


@dataclass(frozen=True, slots=True)
class JobView:
    """A batch and where it stands. ``stage`` is for the style, ``told`` says it in words."""

    batch: BatchView
    stage: str
    told: str
    planned: str
    lots: tuple[LotView, ...]
    reports: tuple[str, ...]
    is_current: bool


@dataclass(frozen=True, slots=True)
class StretchView:
    """A break, a stretch on the line or the station set-up; ``end`` in minutes."""

    text: str
    end: int


@dataclass(frozen=True, slots=True)
class CheckView:
    """A line to tick off: what it is kept by on the device, and in words."""

    key: str
    text: str


@dataclass(frozen=True, slots=True)
class FloorLine:
    """One line of what comes next: a batch, or a stretch away from prep."""

    job: JobView | None
    away: StretchView | None


@dataclass(frozen=True, slots=True)
class FloorCookView:
    """Everything a cook's live page shows."""

    name: str
    kitchen: str
    day: str
    now: str
    heading: str
    current: JobView | None
    following: tuple[FloorLine, ...]
    done: tuple[JobView, ...]
    left: str
    done_count: str
    all_done: str
    cautions: tuple[CautionView, ...]
    set_up: tuple[CheckView, ...]
    pulls: tuple[PullGroup, ...]
    cold: str


def floor_cook_view(
    sheet: KitchenSheet, cook: CookSheet, floor: Floor, now: float, preferences: Preferences
) -> FloorCookView:
    """The live page of ``cook``; ``now`` in minutes after midnight of the planned day."""
    stages = progress_of(cook, floor)
    at_hand = current(stages)
    jobs = {one.batch.number: _job(one, one is at_hand, preferences) for one in stages}
    done = tuple(jobs[one.batch.number] for one in stages if one.stage is Stage.DONE)
    open_lines = [
        (one.batch.start, 1, FloorLine(jobs[one.batch.number], None))
        for one in stages
        if one.stage is not Stage.DONE
    ]
    aways = [
        (one.start, 0, FloorLine(None, _stretch(one, preferences)))
        for one in cook.away
        if one.end > now
    ]
    pulls = pull_groups(cook.pulls, preferences)
    lines = sorted([*open_lines, *aways], key=lambda line: line[:2])
    return FloorCookView(
        name=cook.name,
        kitchen=sheet.kitchen,
        day=short_date(sheet.date),
        now=clock(int(now), preferences).time,
        heading=_heading(at_hand),
        current=jobs[at_hand.batch.number] if at_hand is not None else None,
        following=tuple(line for _start, _rank, line in lines),
        done=done,
        left=str(len(stages) - len(done)),
        done_count=str(len(done)),
        all_done=_all_done(len(stages)),
        cautions=caution_views(cook.batches),
        set_up=tuple(CheckView(line, said(line)) for line in cook.set_up),
        pulls=pulls,
        cold=cold_words(pulls),
    )


def _all_done(batches: int) -> str:
    if not batches:
        return _("No batch is yours today. Ask who could use a hand.")
    return ngettext("%(n)s batch, all done", "%(n)s batches, all done", batches)


def _heading(at_hand: BatchProgress | None) -> str:
    words = cook_words()
    if at_hand is None:
        return words["finish"]
    return words["now_title"] if at_hand.stage is Stage.UNDER_WAY else words["next_title"]


def _job(one: BatchProgress, is_current: bool, preferences: Preferences) -> JobView:
    batch = one.batch
    return JobView(
        batch=batch_view(batch, preferences),
        stage=one.stage.value,
        told=_told(one, preferences),
        planned=span(batch.start, batch.end, preferences),
        lots=_lots(one, preferences),
        reports=tuple(reason_words(reason) for reason in one.problems),
        is_current=is_current,
    )


def _told(one: BatchProgress, preferences: Preferences) -> str:
    words = cook_words()
    if one.done is not None:
        return words["done"].format(time=clock(int(one.done.at), preferences))
    if one.begun is not None:
        return words["under_way"].format(time=clock(int(one.begun.at), preferences))
    return words["to_do"]


def _lots(one: BatchProgress, preferences: Preferences) -> tuple[LotView, ...]:
    if not lot_by_lot(one.batch):
        return ()
    return tuple(
        LotView(
            task.id,
            _(
                "%(amount)s, planned %(time)s",
                amount=mass(task.grams_in, preferences),
                time=clock(task.start, preferences),
            ),
        )
        for task in one.batch.tasks
    )


def _stretch(away: Away, preferences: Preferences) -> StretchView:
    kind, length = away_words(away.kind), duration(away.end - away.start)
    return StretchView(f"{span(away.start, away.end, preferences)} {kind}, {length}", away.end)
