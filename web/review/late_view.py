"""What was late or not done in a range of days, with what cooks said of it."""

from collections import Counter
from collections.abc import Sequence

from planner.floor.days import DayLabor
from planner.floor.lines import BatchLine
from planner.floor.progress import Stage
from web.language import _
from web.presenters.clock import clock
from web.presenters.preferences import Preferences
from web.presenters.tables import Table
from web.review.view import batch_words, stage_word
from web.review.words import short_day


def late_tables(days: Sequence[DayLabor], preferences: Preferences, most: int) -> tuple[Table, ...]:
    """Late, not done, and reasons, the newest first; at most ``most`` rows each."""
    found = [(day, line) for day in reversed(days) for line in day.lines]
    late = [(day, line) for day, line in found if line.late > 0]
    left = [(day, line) for day, line in found if line.stage is not Stage.DONE]
    tables = (
        _late(late, preferences, most),
        _left(left, preferences, most),
        _reasons(found, most),
    )
    return tuple(table for table in tables if table.rows)


def _late(
    found: Sequence[tuple[DayLabor, BatchLine]], preferences: Preferences, most: int
) -> Table:
    return Table(
        id="late",
        caption=_("Ready late"),
        heads=(
            _("Batch"),
            _("Day"),
            _("Cook"),
            _("Due"),
            _("Late, min"),
            _("What was said"),
        ),
        rows=tuple(
            (
                batch_words(line.operation, line.food, line.part),
                short_day(day.date),
                line.cook_name,
                "" if line.due is None else str(clock(line.due, preferences)),
                str(line.late),
                _said(line),
            )
            for day, line in found[:most]
        ),
        numbers=frozenset({3, 4}),
        note=_more(len(found), most),
    )


def _left(
    found: Sequence[tuple[DayLabor, BatchLine]], preferences: Preferences, most: int
) -> Table:
    return Table(
        id="left",
        caption=_("Not done"),
        heads=(_("Batch"), _("Day"), _("Cook"), _("Planned"), _("Stands"), _("What was said")),
        rows=tuple(
            (
                batch_words(line.operation, line.food, line.part),
                short_day(day.date),
                line.cook_name,
                str(clock(line.start, preferences)),
                stage_word(line.stage),
                _said(line),
            )
            for day, line in found[:most]
        ),
        numbers=frozenset({3}),
        note=_more(len(found), most),
    )


def _reasons(found: Sequence[tuple[DayLabor, BatchLine]], most: int) -> Table:
    batches: Counter[str] = Counter()
    late: Counter[str] = Counter()
    left: Counter[str] = Counter()
    for _day, line in found:
        for reason in set(line.problems):
            batches[reason] += 1
            late[reason] += line.late
            left[reason] += line.stage is not Stage.DONE
    return Table(
        id="reasons",
        caption=_("Problems reported"),
        heads=(_("What was said"), _("Batches"), _("Late, min"), _("Not done")),
        rows=tuple(
            (reason, str(number), str(late[reason]), str(left[reason]))
            for reason, number in sorted(batches.items(), key=lambda one: (-one[1], one[0]))[:most]
        ),
        numbers=frozenset({1, 2, 3}),
        note=_more(len(batches), most),
    )


def _said(line: BatchLine) -> str:
    return "; ".join(line.problems)


def _more(number: int, most: int) -> str:
    if number <= most:
        return ""
    return _("%(most)s of %(n)s are shown; the file of every batch has all.", most=most, n=number)
