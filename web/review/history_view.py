"""What a range of days took against its plans, as sections of charts and tables."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from planner.floor.days import DayLabor
from planner.floor.sums import LaborSum, Sums, merged
from web.language import _, ngettext
from web.presenters.clock import duration
from web.presenters.preferences import Preferences
from web.presenters.tables import Table
from web.review.charts import Chart, Line, bars_chart, lines_chart
from web.review.late_view import late_tables
from web.review.periods import Period, periods_of
from web.review.variance_view import variance_view
from web.review.view import between_note, by_tables
from web.review.words import minutes, money, per_cover, signed

_DRAWN = 8
"""Operations on a chart."""
_LISTED = 40
_SHOWN = 15
"""Rows of sums; the files have all."""
_LISTED_ON_PAPER = 6
_LATE_ON_PAPER = 4


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with a chart, or none, and its tables."""

    tables: tuple[Table, ...]
    charts: tuple[Chart, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HistoryView:
    """The whole page: what stands first, and its sections; no sections where nothing was worked."""

    facts: tuple[tuple[str, str], ...]
    sections: tuple[Section, ...]


def history_view(
    days: Sequence[DayLabor], today: dt.date, preferences: Preferences, *, brief: bool = False
) -> HistoryView:
    """All of a range, or, ``brief``, what a page of paper holds."""
    if not days:
        return HistoryView((), ())
    periods = periods_of(days)
    covers = sum(day.covers for day in days)
    sums = merged([day.sums for day in days])
    over = [day for day in days if day.date < today]
    by = by_tables(sums, covers, most=_LISTED_ON_PAPER if brief else _SHOWN, brief=brief)
    sections = [Section(tables=(_trend(periods, brief=brief),), charts=_trend_charts(periods))]
    if over:
        why = variance_view(over, brief=brief)
        notes = why.notes
        if len(over) < len(days):
            notes = (*notes, _("Today is not over and not counted here."))
        sections.append(Section(tables=(why.table,), charts=(why.chart,), notes=notes))
    operations = _operations(sums.operations)
    sections.append(
        Section(tables=by[:1], charts=() if brief or operations is None else (operations,))
    )
    # On paper stations are left out: operations and cooks say more.
    sections += [Section(tables=(table,)) for table in (by[2:] if brief else by[1:])]
    if not brief:
        sections.append(Section(tables=(_paid(days),)))
    sections += [
        Section(tables=(table,))
        for table in late_tables(days, preferences, _LATE_ON_PAPER if brief else _LISTED)
    ]
    return HistoryView(_facts(days, sums, covers), tuple(sections))


def charts_of(days: Sequence[DayLabor], today: dt.date) -> dict[str, Chart]:
    """Charts of a range by their names in addresses."""
    view = history_view(days, today, Preferences())
    return {chart.id: chart for section in view.sections for chart in section.charts}


def _facts(days: Sequence[DayLabor], sums: Sums, covers: int) -> tuple[tuple[str, str], ...]:
    whole = sums.whole
    found = whole.amounts
    facts = [
        (_("Days worked"), str(len(days))),
        (
            _("Done"),
            ngettext(
                "%(done)s of %(n)s batch",
                "%(done)s of %(n)s batches",
                whole.batches,
                done=whole.done,
            ),
        ),
        (_("Hands-on, planned"), duration(found.planned)),
        (_("Hands-on, worked"), duration(round(found.worked / 60))),
        (_("Paid, by the plan"), duration(sum(one.minutes for day in days for one in day.paid))),
        (_("Ready late"), ngettext("%(n)s batch", "%(n)s batches", whole.late)),
    ]
    if covers:
        facts.append((_("Covers"), f"{covers:,}"))
        facts.append((_("Worked per cover"), _("%(n)s min", n=per_cover(found.worked, covers))))
    return tuple(facts)


def _trend(periods: Sequence[Period], *, brief: bool) -> Table:
    heads = (
        _("When"),
        _("Covers"),
        _("Planned, min"),
        _("Worked, min"),
        _("Changed over, min"),
        _("Waited, min"),
        _("Paid, min"),
        _("Worked per cover"),
        _("Ready late"),
        _("Not done"),
        _("Batches"),
        _("Leads, min"),
        _("Planned per cover"),
    )
    columns = _BRIEFLY if brief else range(len(heads))
    return Table(
        id="trend",
        caption=_("Over time"),
        heads=tuple(heads[at] for at in columns),
        rows=tuple(tuple(_trend_row(period)[at] for at in columns) for period in periods),
        numbers=frozenset(range(1, len(columns))),
        note=""
        if brief
        else _(
            "Planned and worked are hands-on minutes; what was worked on and not timed counts as "
            "planned. Covers are those of the days themselves."
        )
        + " "
        + between_note(),
    )


_BRIEFLY = range(10)
"""The columns of a trend that paper has room for."""


def _trend_row(period: Period) -> tuple[str, ...]:
    found = period.whole.amounts
    return (
        period.name,
        str(period.covers),
        str(found.planned),
        minutes(found.worked),
        minutes(found.changeover),
        minutes(found.waiting),
        str(period.paid),
        per_cover(found.worked, period.covers),
        str(period.whole.late),
        str(period.left),
        str(period.whole.batches),
        str(found.leads),
        per_cover(found.planned * 60, period.covers),
    )


def _trend_charts(periods: Sequence[Period]) -> tuple[Chart, ...]:
    marks = [period.mark for period in periods]
    found = [
        _two_lines(
            "minutes",
            _("Hands-on minutes"),
            _("min"),
            marks,
            [float(period.whole.amounts.planned) for period in periods],
            [period.whole.amounts.worked / 60 for period in periods],
            0,
        )
    ]
    if any(period.covers for period in periods):
        found.append(
            _two_lines(
                "per-cover",
                _("Hands-on minutes per cover"),
                _("min per cover"),
                marks,
                [_each(period.whole.amounts.planned, period.covers) for period in periods],
                [_each(period.whole.amounts.worked / 60, period.covers) for period in periods],
                2,
            )
        )
    return tuple(found)


def _each(value: float, covers: int) -> float | None:
    return value / covers if covers else None


def _two_lines(
    name: str,
    title: str,
    unit: str,
    marks: Sequence[str],
    planned: Sequence[float | None],
    worked: Sequence[float | None],
    digits: int,
) -> Chart:
    known = [
        (mark, plan, work)
        for mark, plan, work in zip(marks, planned, worked, strict=True)
        if plan is not None and work is not None
    ]
    first, last = known[0], known[-1]
    alt = _(
        "%(title)s, planned as a dashed line and worked as a solid one. %(first)s: planned "
        "%(plan)s, worked "
        "%(work)s. %(last)s: planned %(last_plan)s, worked %(last_work)s.",
        title=title,
        first=first[0],
        plan=f"{first[1]:,.{digits}f}",
        work=f"{first[2]:,.{digits}f}",
        last=last[0],
        last_plan=f"{last[1]:,.{digits}f}",
        last_work=f"{last[2]:,.{digits}f}",
    )
    return lines_chart(
        name,
        title,
        alt,
        marks,
        [Line(_("Planned"), tuple(planned), dashed=True), Line(_("Worked"), tuple(worked))],
        unit,
    )


def _operations(sums: Sequence[LaborSum]) -> Chart | None:
    timed = [one for one in sums if one.amounts.took]
    most = sorted(timed, key=lambda one: -abs(one.over))[:_DRAWN]
    if not most:
        return None
    rows = [(one.name, one.over / 60) for one in sorted(most, key=lambda one: -one.over)]
    told = ", ".join(_("%(what)s %(n)s min", what=name, n=signed(value)) for name, value in rows)
    return bars_chart(
        "operations",
        _("Minutes over or under the plan, by operation"),
        _(
            "Bars of the operations that differ most from the plan, of what was timed. "
            "%(figures)s.",
            figures=told,
        ),
        rows,
        _("min"),
    )


def _paid(days: Sequence[DayLabor]) -> Table:
    paid: dict[tuple[str, str], tuple[int, float, int]] = {}
    for day in days:
        for cook in day.paid:
            before = paid.get((cook.name, day.currency), (0, 0.0, 0))
            paid[cook.name, day.currency] = (
                before[0] + cook.minutes,
                before[1] + cook.wages,
                before[2] + 1,
            )
    return Table(
        id="paid",
        caption=_("Paid, by the plan"),
        heads=(_("Cook"), _("Days"), _("Paid, min"), _("Wages"), _("Currency")),
        rows=tuple(
            (name, str(count), str(total), money(round(wages * 100)), currency)
            for (name, currency), (total, wages, count) in sorted(paid.items())
        ),
        numbers=frozenset({1, 2, 3}),
        note=_(
            "Shifts with planned overtime, whoever worked how long: presence is not recorded here."
        ),
    )
