"""A plan in a few lines of text."""

from collections.abc import Iterator

from planner.plan import Plan
from planner.sheet.batch_types import SheetBatch
from planner.sheet.head import started_today
from planner.sheet.types import CookSheet, KitchenSheet
from planner.troubles.words import remedy_line, short_line, trouble_lines
from planner.wording import short_date
from service.planning import Made
from web.presenters.batches import batch_title
from web.presenters.clock import clock, duration, long_date, span
from web.presenters.labor import saving, term_views
from web.presenters.preferences import Preferences
from web.presenters.quantities import mass

_FIRST_BATCHES = 3
_METRIC = Preferences()


def summary_lines(made: Made) -> Iterator[str]:
    """The plan for a terminal: services, each cook's first batches, minutes, what is wrong."""
    yield from _head(made.sheet)
    for cook in made.sheet.cooks:
        yield ""
        yield from _cook(cook)
    yield ""
    yield from _minutes(made)
    yield ""
    yield from outcome_lines(made.plan)
    yield "Cautions, allergens and temperatures are on the sheets. Your local food code governs."


def outcome_lines(plan: Plan) -> Iterator[str]:
    """What is short or late, why, and what would help; or that all is well."""
    if not any(demand.date == plan.date for demand in plan.demands):
        yield from _no_service(plan)
    elif not plan.troubles:
        yield "Everything due is made on time."
    if not plan.troubles:
        return
    if total := short_line(plan):
        yield total
    for trouble, line in zip(plan.troubles, trouble_lines(plan), strict=True):
        yield f"{trouble.kind.upper()}: {line}"
    for remedy in plan.remedies:
        yield f"Remedy, planned anew: {remedy_line(remedy)}"
    if not plan.remedies:
        yield "Remedy: none that was tried helps. More hands, an earlier start or fewer covers may."


def _head(sheet: KitchenSheet) -> Iterator[str]:
    yield f"{sheet.kitchen}, {long_date(sheet.date)}"
    for service in sheet.services:
        day = "" if service.date == sheet.date else f", {short_date(service.date)}"
        yield (
            f"  {service.name}{day}: {service.covers} covers, "
            f"on the line by {clock(service.due, _METRIC).time}"
        )
    for alert in sheet.alerts:
        yield f"  Note: {alert}"


def _cook(cook: CookSheet) -> Iterator[str]:
    count = len(cook.batches)
    batches = f"{count} batch{'' if count == 1 else 'es'}"
    yield f"{cook.name}: {batches}, {duration(cook.hands_on + cook.changeover)} of work"
    for batch in cook.batches[:_FIRST_BATCHES]:
        yield f"  {span(batch.start, batch.end, _METRIC)}  {_batch(batch)}"
    if count > _FIRST_BATCHES:
        yield f"  and {count - _FIRST_BATCHES} more"


def _batch(batch: SheetBatch) -> str:
    late = f", {batch.late} min LATE" if batch.late else ""
    food = f"{batch_title(batch)} {batch.food_name}"
    return f"{food}, {mass(batch.grams_in, _METRIC)}, {batch.station}{late}"


def _minutes(made: Made) -> Iterator[str]:
    sheet = made.sheet
    overtime = sum(cook.overtime for cook in made.plan.labor.cooks)
    wages = sum(cook.wages for cook in made.plan.labor.cooks)
    yield (
        f"Labor: {sheet.labor_minutes} min ({duration(sheet.labor_minutes)}) of all cooks; "
        f"overtime {overtime} min; wages {wages:,.2f} {sheet.currency}."
    )
    if saved := saving(sheet):
        yield saved
    yield "How good the plan is, first things first:"
    for term in term_views(sheet):
        yield f"  {term.name} ({term.meaning}): {term.value}. {term.sure}"


def _no_service(plan: Plan) -> Iterator[str]:
    """What a day without guests is for."""
    yield f"There is no service on {long_date(plan.date)}."
    begun = started_today(plan)
    if begun:
        yield f"Made or started for later days: {'; '.join(begun)}."
    else:
        yield "Nothing is made or started for later days."
