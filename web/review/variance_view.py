"""Why the minutes and the money differ from the plan, and what batching saved, in words."""

from collections.abc import Sequence
from dataclasses import dataclass

from planner.floor.days import DayLabor
from planner.labor.variance import Variance, added
from web.language import _, ngettext
from web.presenters.clock import duration
from web.presenters.tables import Table
from web.review.charts import Chart, bars_chart
from web.review.words import money, signed


@dataclass(frozen=True, slots=True)
class VarianceView:
    """The chart and the table of why, with what stands beside them."""

    chart: Chart
    table: Table
    notes: tuple[str, ...]


def variance_view(days: Sequence[DayLabor], *, brief: bool = False) -> VarianceView:
    """Over the days given, which must be over: what is not done yet is not less work.

    ``brief`` leaves out what each line says.
    """
    split = added([day.split for day in days]).in_units_of(60)
    by_currency: dict[str, list[Variance]] = {}
    for day in days:
        by_currency.setdefault(day.currency, []).append(day.money)
    monies = {currency: added(found) for currency, found in by_currency.items()}
    rows = [
        _row(_("Planned"), split.plan, [one.plan for one in monies.values()], "", whole=True),
        *(
            _row(name, getattr(split, term), [getattr(one, term) for one in monies.values()], why)
            for term, name, why in _terms()
        ),
        _row(_("Worked"), split.actual, [one.actual for one in monies.values()], "", whole=True),
    ]
    return VarianceView(
        chart=_chart(split),
        table=Table(
            id="why",
            caption=_("Why it took other minutes than planned"),
            heads=(
                _("Because of"),
                _("Minutes"),
                *(_("In %(currency)s", currency=currency) for currency in monies),
                *(() if brief else (_("What it says"),)),
            ),
            rows=tuple(row[:-1] if brief else row for row in rows),
            numbers=frozenset(range(1, 2 + len(monies))),
            totals=1,
        ),
        notes=tuple(filter(None, (assumed_words(days), saving_words(days)))),
    )


def _terms() -> tuple[tuple[str, str, str], ...]:
    return (
        ("volume", _("Volume"), _("more or less food was handled than planned, at the plan's mix")),
        ("mix", _("Mix"), _("the food that was handled asks for more or fewer minutes a kilo")),
        ("rate", _("Rate"), _("the same work took more or fewer minutes a kilo")),
        ("changeover", _("Changeover"), _("changing over between batches took more or less")),
        ("wage", _("Wage"), _("others did it than planned, at other wages")),
    )


def _row(
    name: str, minutes: int, amounts: Sequence[int], why: str, *, whole: bool = False
) -> tuple[str, ...]:
    if whole:
        return (name, f"{minutes:,}", *(money(amount) for amount in amounts), why)
    return (name, signed(minutes), *(signed(amount / 100, 2) for amount in amounts), why)


def _chart(split: Variance) -> Chart:
    rows = [
        (_("Volume"), split.volume),
        (_("Mix"), split.mix),
        (_("Rate"), split.rate),
        (_("Changeover"), split.changeover),
        (_("In all"), split.total),
    ]
    told = ", ".join(
        _("%(what)s %(n)s min", what=name, n=signed(minutes)) for name, minutes in rows
    )
    return bars_chart(
        "why",
        _("Minutes over or under the plan, and why"),
        _("Bars of the minutes more or fewer than planned. %(figures)s.", figures=told),
        rows,
        _("min"),
    )


def assumed_words(days: Sequence[DayLabor]) -> str:
    """Which batches count as planned, since nobody timed them; empty: none."""
    found = [line for day in days for line in day.lines if line.assumed]
    if not found:
        return ""
    return ngettext(
        "%(n)s batch was worked on and not timed: it counts with its planned %(minutes)s min.",
        "%(n)s batches were worked on and not timed: they count with their planned "
        "%(minutes)s min.",
        len(found),
        minutes=sum(line.planned for line in found),
    )


def saving_words(days: Sequence[DayLabor]) -> str:
    """What batching saved over days, against the same food made dish by dish."""
    compared = [(day.planned, day.dish_by_dish) for day in days if day.dish_by_dish is not None]
    if not compared:
        return ""
    planned = sum(plan for plan, _dishes in compared)
    apart = sum(dishes for _plan, dishes in compared)
    saved = apart - planned
    if saved <= 0:
        return _(
            "Batching saved nothing: the plans have %(planned)s of work, dish by dish it would be "
            "%(apart)s.",
            planned=duration(planned),
            apart=duration(apart),
        )
    return _(
        "Batching saved %(saved)s, %(share)s %% of the %(apart)s that the same food would take "
        "made dish by dish (%(days)s of %(of)s days are known and comparable; both as planned).",
        saved=duration(saved),
        share=f"{100 * saved / apart:.0f}",
        apart=duration(apart),
        days=len(compared),
        of=len(days),
    )
