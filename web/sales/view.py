"""The page of the sales history: days, what may be missing, and how forecasts would have done."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.forecast.history import COVERS, Gap, History
from planner.forecast.review import HeldDay, ServiceReview, held_weeks
from web.language import _, ngettext
from web.presenters.clock import short_date
from web.presenters.tables import Table
from web.review.charts import Chart, Line, lines_chart
from web.review.history_view import Section
from web.review.words import day_mark
from web.sales.words import how_words, off, thing_words, way_words

DAYS = 14
"""On one page."""
_DRAWN = 28
"""Open days on a chart: more are hard to follow."""
_ASKED = 12
"""Days asked about at once: more are a file that is missing."""
_NONE = "\N{EN DASH}"


@dataclass(frozen=True, slots=True)
class SoldDish:
    """How many of a dish a service sold."""

    dish: str
    count: str


@dataclass(frozen=True, slots=True)
class SoldService:
    """What a service sold on a day: its covers, or why there are none, and its dishes."""

    service: str
    covers: str
    dishes: tuple[SoldDish, ...]


@dataclass(frozen=True, slots=True)
class SoldDay:
    """A day of the history; ``holiday`` is what it is called, empty where it is none."""

    date: str
    holiday: str
    services: tuple[SoldService, ...]

    @property
    def has_dishes(self) -> bool:
        """Whether there is more of it than covers."""
        return any(one.dishes for one in self.services)


@dataclass(frozen=True, slots=True)
class AskedDay:
    """A day that may be missing: it is answered by what it was, or that it was closed."""

    iso: str
    date: str
    service: str


@dataclass(frozen=True, slots=True)
class SalesView:
    """The whole page; without ``days`` nothing is kept."""

    facts: tuple[tuple[str, str], ...]
    services: tuple[str, ...]
    days: tuple[SoldDay, ...]
    before: dt.date | None
    after: dt.date | None
    asked: tuple[AskedDay, ...]
    more_asked: int
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True)
class Sold:
    """What the page is about.

    ``services`` are those of the history in the order of the day, ``names`` dishes by id,
    ``holidays`` what days are called, ``closed`` (service, day).
    """

    history: History
    services: tuple[str, ...]
    reviews: Sequence[ServiceReview]
    names: Mapping[str, str]
    holidays: Mapping[dt.date, str]
    closed: frozenset[tuple[str, dt.date]]


def sales_view(sold: Sold, until: dt.date | None = None) -> SalesView:
    """The page whose last day is ``until``; default: the newest of the history."""
    dates = sorted({date for days in sold.history.sold.values() for date in days})
    if not dates:
        return SalesView((), (), (), None, None, (), 0, ())
    services = sold.services
    last = min(until or dates[-1], dates[-1])
    first = last - dt.timedelta(min(DAYS - 1, (last - dt.date.min).days))
    gaps = {(gap.service, gap.date) for gap in sold.history.gaps}
    known, told = set(dates), gaps | sold.closed
    shown = [last - dt.timedelta(n) for n in range((last - first).days + 1)]
    asked = sorted(sold.history.gaps, key=lambda gap: (gap.date, gap.service), reverse=True)
    return SalesView(
        facts=_facts(sold, dates),
        services=services,
        days=tuple(
            _day(sold, services, date, gaps)
            for date in shown
            if date in known or any((service, date) in told for service in services)
        ),
        before=first - dt.timedelta(1) if first > dates[0] else None,
        after=min(last + dt.timedelta(DAYS), dates[-1]) if last < dates[-1] else None,
        asked=tuple(_asked(gap) for gap in asked[:_ASKED]),
        more_asked=max(0, len(asked) - _ASKED),
        sections=tuple(
            section
            for number, review in enumerate(sold.reviews, start=1)
            for section in _sections(number, review, sold.names)
        ),
    )


def holidays_shown(history: History, until: dt.date | None = None) -> tuple[dt.date, ...]:
    """Days of a page, of which holidays are named."""
    dates = [date for days in history.sold.values() for date in days]
    if not dates:
        return ()
    last = min(until or max(dates), max(dates))
    return tuple(last - dt.timedelta(n) for n in range(min(DAYS, (last - dt.date.min).days + 1)))


def charts_of(reviews: Sequence[ServiceReview]) -> dict[str, Chart]:
    """Charts of the page by their names in addresses."""
    found = (
        _chart(number, review) for number, review in enumerate(reviews, start=1) if review.days
    )
    return {chart.id: chart for chart in found}


def _facts(sold: Sold, dates: Sequence[dt.date]) -> tuple[tuple[str, str], ...]:
    return (
        (_("Days kept"), f"{len(dates):,}"),
        (_("From"), _with_year(dates[0])),
        (_("To"), _with_year(dates[-1])),
        (_("May be missing"), str(len(sold.history.gaps))),
    )


def _with_year(date: dt.date) -> str:
    return _("%(day)s %(year)s", day=short_date(date), year=date.year)


def _day(
    sold: Sold, services: Sequence[str], date: dt.date, gaps: set[tuple[str, dt.date]]
) -> SoldDay:
    return SoldDay(
        date=short_date(date),
        holiday=sold.holidays.get(date, ""),
        services=tuple(_service(sold, service, date, gaps) for service in services),
    )


def _service(
    sold: Sold, service: str, date: dt.date, gaps: set[tuple[str, dt.date]]
) -> SoldService:
    counts = sold.history.sold[service].get(date)
    if counts is None:
        if (service, date) in sold.closed:
            said = _("closed")
        else:
            said = _("missing?") if (service, date) in gaps else _NONE
        return SoldService(service, said, ())
    dishes = sorted(
        ((dish, count) for dish, count in counts.items() if dish != COVERS),
        key=lambda one: (-one[1], one[0]),
    )
    covers = counts.get(COVERS)
    said = _("not counted") if covers is None else f"{covers:,}"
    return SoldService(
        service,
        said,
        tuple(SoldDish(sold.names.get(dish, dish), f"{count:,}") for dish, count in dishes),
    )


def _asked(gap: Gap) -> AskedDay:
    return AskedDay(gap.date.isoformat(), _with_year(gap.date), gap.service)


def _sections(number: int, review: ServiceReview, names: Mapping[str, str]) -> tuple[Section, ...]:
    """How forecasts of a service would have done, thing by thing and week by week."""
    covers = review.chosen.get(COVERS)
    if not review.chosen:
        note = _("Too little is kept of it to hold a week back: bring at least three weeks.")
    elif covers is None:
        note = _("Its covers are not counted, or too seldom to be forecast.")
    else:
        note = how_words(covers)
    things = Section(tables=(_things(number, review, names),), notes=(note,))
    if not review.days:
        return (things,)
    return things, Section(tables=(_weeks(number, review),), charts=(_chart(number, review),))


def _things(number: int, review: ServiceReview, names: Mapping[str, str]) -> Table:
    rows = []
    for dish, chosen in review.chosen.items():
        naive = next(one for one in chosen.scores if one.name == "same day last week")
        rows.append(
            (
                thing_words(dish, names.get(dish, dish)),
                way_words(chosen.name),
                off(chosen.scores[0].off),
                off(naive.off),
            )
        )
    return Table(
        id=f"ways-{number}",
        caption=_("How forecasts of %(service)s would have done", service=review.service),
        heads=(
            _("Of"),
            _("Forecast by"),
            _("Off by, a day"),
            _("Last week off by"),
        ),
        rows=tuple(rows),
        numbers=frozenset({2, 3}),
        note=_(
            "The last eight weeks, each forecast from what was known before it; beside it, by how "
            "much the same day last week was off. Where that one was off by least, it is used."
        ),
    )


def _weeks(number: int, review: ServiceReview) -> Table:
    return Table(
        id=f"weeks-{number}",
        caption=_("Covers of %(service)s, week by week", service=review.service),
        heads=(
            _("Week from"),
            _("Open days"),
            _("Covers"),
            _("Off by, a day"),
            _("Last week off by"),
        ),
        rows=tuple(
            (
                short_date(week.first),
                str(week.days),
                f"{week.count:,}",
                off(week.off),
                off(week.off_last_week),
            )
            for week in held_weeks(review.days)
        ),
        numbers=frozenset({1, 2, 3, 4}),
    )


def _chart(number: int, review: ServiceReview) -> Chart:
    days: Sequence[HeldDay] = review.days[-_DRAWN:]
    return lines_chart(
        f"covers-{number}",
        _("Covers of %(service)s and their forecast", service=review.service),
        ngettext(
            "Covers of %(service)s on the last open day, and what was forecast before its week; "
            "the table sums them up by week.",
            "Covers of %(service)s on the last %(n)s open days, and what was forecast before their "
            "week; the table sums them up by week.",
            len(days),
            service=review.service,
        ),
        [day_mark(day.date) for day in days],
        [
            Line(_("Came"), tuple(float(day.count) for day in days)),
            Line(
                _("Forecast"),
                tuple(round(day.forecast.mean, 1) for day in days),
                dashed=True,
            ),
        ],
        _("covers"),
    )
