"""The whole kitchen's morning on one page."""

from dataclasses import dataclass

from planner.sheet.types import KitchenSheet
from web.language import _, ngettext, pgettext
from web.presenters.chances import ChancesView, chances_view
from web.presenters.clock import duration, long_date, span
from web.presenters.cook import CookView, cook_view
from web.presenters.hours import last_hands_on, runs_on
from web.presenters.labor import (
    LaborRow,
    TermView,
    cleaning,
    how_sure,
    labor_rows,
    labor_total,
    saving,
    term_views,
)
from web.presenters.preferences import Preferences
from web.presenters.pulls import (
    LeftOutView,
    PullGroup,
    StraightView,
    cold_words,
    left_out_views,
    pull_groups,
    straight_views,
)
from web.presenters.services import ServiceView, service_views
from web.sentences import said


@dataclass(frozen=True, slots=True)
class Fact:
    """One figure of the page's head, with its name."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class AheadView:
    """What must be started on one later day."""

    day: str
    count: str
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class KitchenView:
    """Everything the kitchen page shows."""

    kitchen: str
    date: str
    facts: tuple[Fact, ...]
    services: tuple[ServiceView, ...]
    alerts: tuple[str, ...]
    troubles: tuple[str, ...]
    remedies: tuple[str, ...]
    ahead: tuple[AheadView, ...]
    cooks: tuple[CookView, ...]
    pulls: tuple[PullGroup, ...]
    cold: str
    straight: tuple[StraightView, ...]
    left_out: tuple[LeftOutView, ...]
    labor: tuple[LaborRow, ...]
    labor_total: LaborRow
    currency: str
    saving: str
    cleaning: str
    chances: ChancesView | None
    terms: tuple[TermView, ...]
    how_sure: str


def kitchen_view(sheet: KitchenSheet, preferences: Preferences) -> KitchenView:
    """The whole sheet in the reader's units and clock."""
    pulls = pull_groups(sheet.pulls, preferences)
    return KitchenView(
        kitchen=sheet.kitchen,
        date=long_date(sheet.date),
        facts=_facts(sheet, preferences),
        services=service_views(sheet, preferences),
        alerts=tuple(said(line) for line in sheet.alerts),
        troubles=tuple(said(line) for line in sheet.troubles),
        remedies=tuple(said(line) for line in sheet.remedies),
        ahead=tuple(_ahead(line) for line in sheet.ahead),
        cooks=tuple(cook_view(sheet, cook, preferences) for cook in sheet.cooks),
        pulls=pulls,
        cold=cold_words(pulls),
        straight=straight_views(sheet.straight, preferences),
        left_out=left_out_views(sheet.left_out, preferences),
        labor=labor_rows(sheet),
        labor_total=labor_total(sheet),
        currency=sheet.currency,
        saving=saving(sheet),
        cleaning=cleaning(sheet),
        chances=chances_view(sheet.chances, preferences),
        terms=term_views(sheet),
        how_sure=how_sure(sheet),
    )


def _facts(sheet: KitchenSheet, preferences: Preferences) -> tuple[Fact, ...]:
    batches = [batch for cook in sheet.cooks for batch in cook.batches]
    late = sum(batch.late > 0 for batch in batches)
    end = last_hands_on(batches)
    tail = runs_on(batches, preferences)
    return (
        *((Fact(_("Prep"), span(sheet.start, end, preferences)),) if end is not None else ()),
        *((Fact(_("Runs by itself"), tail),) if tail else ()),
        Fact(_("Cooks"), str(len(sheet.cooks))),
        Fact(_("Batches"), str(len(batches))),
        Fact(_("Labor"), duration(sheet.labor_minutes)),
        *_short(sheet.short_portions),
        Fact(
            _("Late"),
            ngettext("%(n)s batch", "%(n)s batches", late) if late else pgettext("amount", "none"),
        ),
    )


def _ahead(line: str) -> AheadView:
    """``Thu 26 Nov: Croutons; Dill, picked.`` as a day and its names."""
    day, _colon, rest = line.rstrip(".").partition(": ")
    names = tuple(filter(None, rest.split("; ")))
    count = ngettext("%(n)s component", "%(n)s components", len(names))
    return AheadView(said(day), count, tuple(said(name) for name in names))


def _short(portions: int) -> tuple[Fact, ...]:
    if not portions:
        return ()
    return (Fact(_("Short"), ngettext("%(n)s portion", "%(n)s portions", portions)),)
