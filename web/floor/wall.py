"""The wall's live page: what is late, what comes out next, who is at what."""

from dataclasses import dataclass

from planner.floor.lateness import Lag, lagging
from planner.floor.progress import Stage, Timer, current, progress_of, timers_of
from planner.floor.state import Floor, Problem
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import CookSheet, KitchenSheet
from web.floor.reasons import reason_words
from web.floor.words import wall_words
from web.language import _, ngettext
from web.presenters.batches import batch_title
from web.presenters.clock import clock, duration, short_date
from web.presenters.preferences import Preferences

_MOST = 4
"""Lines of one list that are read from across a kitchen; starting guess."""


@dataclass(frozen=True, slots=True)
class WallLine:
    """One line: what it is about in strong words, the rest beside it."""

    head: str
    text: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class WallTimer:
    """What runs by itself. ``due`` in minutes; ``left`` says the same until a script counts."""

    task: str
    what: str
    place: str
    due: float
    left: str
    is_due: bool
    heard: bool


@dataclass(frozen=True, slots=True)
class WallView:
    """Everything the wall shows beside the chart. ``more_`` say how many lines had no room."""

    kitchen: str
    day: str
    now: str
    done: str
    late: tuple[WallLine, ...]
    more_late: str
    timers: tuple[WallTimer, ...]
    more_timers: str


def wall_view(sheet: KitchenSheet, floor: Floor, now: float, preferences: Preferences) -> WallView:
    """The wall; ``now`` in minutes after midnight of the planned day."""
    late = (
        *(_problem(one, sheet) for one in floor.problems),
        *(_lag(one, preferences) for one in lagging(sheet, floor, now)),
    )
    timers = _timers(sheet, floor, now)
    stages = [one for cook in sheet.cooks for one in progress_of(cook, floor)]
    done = sum(one.stage is Stage.DONE for one in stages)
    return WallView(
        kitchen=sheet.kitchen,
        day=short_date(sheet.date),
        now=clock(int(now), preferences).time,
        done=ngettext(
            "%(done)s of %(n)s batch done", "%(done)s of %(n)s batches done", len(stages), done=done
        ),
        late=late[:_MOST],
        more_late=_more(len(late)),
        timers=timers[:_MOST],
        more_timers=_more(len(timers)),
    )


def late_numbers(sheet: KitchenSheet, floor: Floor, now: float) -> frozenset[int]:
    """Numbers of the batches that will be late."""
    return frozenset(
        lag.progress.batch.number for lag in lagging(sheet, floor, now) if lag.late > 0
    )


def _more(count: int) -> str:
    more = count - _MOST
    return ngettext("and %(n)s more", "and %(n)s more", more) if more > 0 else ""


def _problem(problem: Problem, sheet: KitchenSheet) -> WallLine:
    head = _("Problem: %(reason)s", reason=reason_words(problem.reason))
    for cook in sheet.cooks:
        for batch in cook.batches:
            if any(task.id in problem.tasks for task in batch.tasks):
                return WallLine(head, _of(batch), strong=True)
    return WallLine(head, problem.said.cook, strong=True)


def _lag(lag: Lag, preferences: Preferences) -> WallLine:
    batch = lag.progress.batch
    # What is late by less than a minute is late.
    if lag.late > 0 and batch.due is not None:
        late = _("Late %(time)s", time=duration(max(1, round(lag.late))))
        due = _("%(batch)s, due %(time)s", batch=_of(batch), time=clock(batch.due, preferences))
        return WallLine(late, due, True)
    return WallLine(_("Behind %(time)s", time=duration(round(lag.behind))), _of(batch))


def _of(batch: SheetBatch) -> str:
    return f"{batch.number} {batch_title(batch)} {batch.food_name}, {_first(batch.cook_name)}"


def _first(name: str) -> str:
    """On the wall people go by their first name."""
    return name.split(" ", maxsplit=1)[0]


def _timers(sheet: KitchenSheet, floor: Floor, now: float) -> tuple[WallTimer, ...]:
    """Lots of one batch that are ready within a minute of the first share a line."""
    groups: list[list[Timer]] = []
    for timer in timers_of(sheet, floor):
        group = next(
            (one for one in groups if one[0].batch == timer.batch and timer.due - one[0].due < 1),
            None,
        )
        if group is None:
            groups.append([timer])
        else:
            group.append(timer)
    return tuple(_timer(group, floor, now) for group in groups)


def _timer(group: list[Timer], floor: Floor, now: float) -> WallTimer:
    timer = group[0]
    is_due = timer.due <= now
    over = int(now - timer.due)
    left = duration(max(0, -int(-(timer.due - now) // 1)))
    if is_due:
        words = wall_words()
        left = words["over"].format(minutes=over) if over else words["now"]
    return WallTimer(
        task=timer.task,
        what=timer.what,
        place=", ".join((_first(timer.cook_name), *_lots(group), timer.place)),
        due=timer.due,
        left=left,
        is_due=is_due,
        heard=all(floor.of(one.task).heard is not None for one in group),
    )


def _lots(group: list[Timer]) -> tuple[str, ...]:
    number = len(group)
    return (ngettext("%(n)s lot", "%(n)s lots", number),) if number > 1 else ()


def at_work(
    sheet: KitchenSheet, floor: Floor, preferences: Preferences
) -> dict[str, tuple[str, str]]:
    """By full name: the name in short, and what the cook is at or does next."""
    return {cook.name: (_first(cook.name), _at(cook, floor, preferences)) for cook in sheet.cooks}


def _at(cook: CookSheet, floor: Floor, preferences: Preferences) -> str:
    stages = progress_of(cook, floor)
    one = current(stages)
    if one is None:
        return _("all done") if stages else _("no batch")
    batch = one.batch
    what = f"{batch.number} {batch_title(batch)} {batch.food_name}"
    if one.stage is Stage.UNDER_WAY:
        return what
    return f"{clock(batch.start, preferences)} {what}"
