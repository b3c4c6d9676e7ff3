"""A day's review in words and numbers, as tables that a page and a file of commas both show."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from planner.floor.days import DayLabor
from planner.floor.lines import batch_lines
from planner.floor.progress import Stage
from planner.floor.review import BatchReview, CookDay, batch_reviews, cook_days
from planner.floor.state import Floor
from planner.floor.sums import Sums, sums_of
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import KitchenSheet
from web.language import _, ngettext
from web.presenters.clock import clock
from web.presenters.labor import saving
from web.presenters.preferences import Preferences
from web.presenters.tables import Table
from web.review.tables import sums_table
from web.review.variance_view import assumed_words, saving_words, variance_view
from web.review.words import moment, signed


@dataclass(frozen=True, slots=True)
class ReviewView:
    """The whole page: what stands first, and its tables."""

    facts: tuple[tuple[str, str], ...]
    problems: tuple[str, ...]
    notes: tuple[str, ...]
    """What batching saved, and what counts as planned."""
    first: tuple[Table, ...]
    sums: tuple[Table, ...]
    """Side by side on paper."""
    last: tuple[Table, ...]
    """What is not done, and every batch."""


def review_view(
    sheet: KitchenSheet,
    floor: Floor,
    preferences: Preferences,
    day: DayLabor | None = None,
    *,
    over: bool = False,
) -> ReviewView:
    """What a day took so far against its plan; ``day`` is the same summed up, from its first plan.

    Why it took other minutes stands there once the day is ``over``: what is not done yet is not
    less work.
    """
    why = variance_view([day]) if day is not None and over else None
    reviews = batch_reviews(sheet, floor)
    return ReviewView(
        facts=_facts(sheet, reviews),
        problems=tuple(
            _(
                "%(batch)s, %(cook)s: %(problem)s",
                batch=_what(review.batch),
                cook=review.batch.cook_name,
                problem=problem,
            )
            for review in reviews
            for problem in review.problems
        ),
        notes=_notes(sheet, day, over=over),
        first=(
            *(() if why is None else (why.table,)),
            _cooks(cook_days(sheet, reviews), preferences),
        ),
        sums=by_tables(sums_of(batch_lines(sheet, floor)), covers_of(sheet)),
        last=tuple(_last(reviews, preferences)),
    )


def _notes(sheet: KitchenSheet, day: DayLabor | None, *, over: bool) -> tuple[str, ...]:
    """What counts as planned, and what batching saved: by the day's first plan, where the newest
    was made on the way and does not know.
    """
    saved = saving(sheet)
    if not saved and day is not None:
        saved = saving_words([day])
    assumed = assumed_words([day]) if day is not None and over else ""
    return tuple(filter(None, (assumed, saved)))


def covers_of(sheet: KitchenSheet) -> int:
    """Guests of the day itself: what is prepared for tomorrow's is a part of each day's work."""
    return sum(service.covers for service in sheet.services if service.date == sheet.date)


def _facts(sheet: KitchenSheet, reviews: Sequence[BatchReview]) -> tuple[tuple[str, str], ...]:
    done = sum(review.stage is Stage.DONE for review in reviews)
    timed = [review for review in reviews if review.took is not None]
    planned = sum(review.planned for review in timed)
    took = sum(review.took or 0.0 for review in timed)
    covers = covers_of(sheet)
    found = [
        (
            _("Done"),
            ngettext(
                "%(done)s of %(n)s batch", "%(done)s of %(n)s batches", len(reviews), done=done
            ),
        ),
        (_("Timed"), _batch_count(len(timed))),
    ]
    if timed:
        found.append((_("Planned for those"), _("%(n)s min", n=planned)))
        found.append(
            (
                _("They took"),
                _("%(n)s min (%(over)s)", n=f"{took:.0f}", over=signed(took - planned)),
            )
        )
    late = sum(1 for review in reviews if review.late is not None and review.late >= 1)
    found.append((_("Ready late"), _batch_count(late)))
    if covers:
        found.append(
            (_("Planned per cover"), _("%(n)s min", n=f"{sheet.labor_minutes / covers:.1f}"))
        )
    return tuple(found)


def _batch_count(number: int) -> str:
    return ngettext("%(n)s batch", "%(n)s batches", number)


def _last(reviews: Sequence[BatchReview], preferences: Preferences) -> Iterator[Table]:
    left = [review for review in reviews if review.stage is not Stage.DONE]
    if left:
        yield _left(left, preferences)
    yield _batches(reviews, preferences)


def by_tables(
    sums: Sums, covers: int, *, most: int | None = None, brief: bool = False
) -> tuple[Table, ...]:
    """Minutes by operation, station, cook and dish; ``most`` rows of each, None: all."""
    return (
        sums_table(
            "operations",
            _("By operation"),
            _("Operation"),
            sums.operations,
            covers=covers,
            most=most,
            brief=brief,
        ),
        sums_table(
            "stations",
            _("By station"),
            _("Station"),
            sums.stations,
            covers=covers,
            most=most,
            brief=brief,
        ),
        sums_table(
            "cooks",
            _("By cook"),
            _("Cook"),
            sums.cooks,
            covers=covers,
            most=most,
            brief=brief,
        ),
        sums_table(
            "dishes",
            _("By dish"),
            _("Dish"),
            sums.dishes,
            covers=covers,
            note=""
            if brief
            else _(
                "The minutes of a batch for several dishes are shared out by the grams that each "
                "takes, in whole minutes and seconds that add up to the batch; as a batch it "
                "counts for each."
            ),
            most=most,
            brief=brief,
        ),
    )


def _cooks(days: Sequence[CookDay], preferences: Preferences) -> Table:
    return Table(
        id="mornings",
        caption=_("Each cook's morning, as ticked"),
        heads=(
            _("Cook"),
            _("First begun"),
            _("Last done"),
            _("At work, min"),
            _("Between, min"),
            _("Away, min"),
        ),
        rows=tuple(
            (
                day.name,
                moment(day.first, preferences),
                moment(day.last, preferences),
                f"{day.at_work:.0f}",
                f"{day.between:.0f}",
                f"{day.away:.0f}",
            )
            for day in days
        ),
        numbers=frozenset(range(1, 6)),
        note=between_note(),
    )


def between_note() -> str:
    """How changing over and waiting are told apart."""
    return _(
        "Between two batches, the minutes before the second was planned to be set about are "
        "waiting, and the others changing over, which has at least its planned minutes: ticks "
        "alone cannot tell."
    )


def _left(left: Sequence[BatchReview], preferences: Preferences) -> Table:
    return Table(
        id="left",
        caption=_("Not done"),
        heads=(_("Batch"), _("Cook"), _("Planned"), _("Stands"), _("What was said")),
        rows=tuple(
            (
                _what(review.batch),
                review.batch.cook_name,
                str(clock(review.batch.start, preferences)),
                stage_word(review.stage),
                "; ".join(review.problems) or _("nothing"),
            )
            for review in left
        ),
        numbers=frozenset({2}),
    )


def stage_word(stage: Stage) -> str:
    """Where a batch stands."""
    return {
        Stage.TO_DO: _("not begun"),
        Stage.UNDER_WAY: _("under way"),
        Stage.DONE: _("done"),
    }[stage]


def _batches(reviews: Sequence[BatchReview], preferences: Preferences) -> Table:
    return Table(
        id="batches",
        caption=_("Every batch"),
        heads=(
            _("Batch"),
            _("Cook"),
            _("Station"),
            _("Planned start"),
            _("Planned, min"),
            _("Leads, min"),
            _("Begun"),
            _("Done"),
            _("Took, min"),
            _("Over, min"),
            _("Late, min"),
        ),
        rows=tuple(_batch(review, preferences) for review in reviews),
        numbers=frozenset(range(3, 11)),
    )


def _batch(review: BatchReview, preferences: Preferences) -> tuple[str, ...]:
    batch = review.batch
    return (
        _what(batch),
        batch.cook_name,
        batch.station,
        str(clock(batch.start, preferences)),
        str(review.planned),
        str(review.lead),
        moment(review.begun, preferences),
        moment(review.done, preferences),
        "" if review.took is None else f"{review.took:.1f}",
        "" if review.over is None else signed(review.over, 1),
        "" if not review.late else f"{review.late:.0f}",
    )


def _what(batch: SheetBatch) -> str:
    return batch_words(batch.operation_name, batch.food_name, batch.part)


def batch_words(operation: str, food: str, part: str) -> str:
    """A batch in words: ``Dice Onion``, with its part where that is not the work itself."""
    words = f"{operation} {food}"
    if part == "check":
        return _("%(batch)s (check)", batch=words)
    return _("%(batch)s (finish)", batch=words) if part == "finish" else words
