"""Routes of the pages that people read."""

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Annotated
from zoneinfo import ZoneInfo

from fastapi import APIRouter, Depends, Path
from fastapi.responses import HTMLResponse

from planner.quantities.types import Trace
from planner.sheet.types import KitchenSheet
from service.api.days import day_address
from service.api.live import LiveDep
from service.api.reading import PreferencesDep
from service.api.services import ServicesDep
from service.documents import kept_sheet, kept_traces
from service.errors import Fault, NotFoundError
from service.usecases.plans import list_plans, plan_status, plan_texts, trace_of
from service.usecases.today import kitchens_today
from service.values import PlanState, PlanStatus, PlanSummary
from web.language import _
from web.links import Choice, Links
from web.pages import (
    KitchenEntry,
    PlanEntry,
    Preferences,
    render_cook,
    render_index,
    render_kitchen,
    render_wall,
    render_why,
    render_whys,
)
from web.presenters.clock import moment
from web.presenters.plans import state_words
from web.sentences import said

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_LISTED = 200


@dataclass(frozen=True, slots=True)
class _Page:
    """What all pages of one plan have in common."""

    sheet: KitchenSheet
    traces: Mapping[str, Trace]
    links: Links
    preferences: Preferences


def _page(
    plan_id: Annotated[uuid.UUID, Path()],
    services: ServicesDep,
    preferences: PreferencesDep,
) -> _Page:
    status = plan_status(services.database, plan_id)
    texts = plan_texts(services.database, plan_id)
    traces = kept_traces(texts.traces)
    links = Links.under(f"/plans/{plan_id}")
    links = replace(links, explained=frozenset(traces), more=_more(status))
    return _Page(kept_sheet(texts.sheet), traces, links, preferences)


PageDep = Annotated[_Page, Depends(_page)]


@router.get("/")
def index(services: ServicesDep, preferences: PreferencesDep) -> HTMLResponse:
    """The list of plans."""
    today = kitchens_today(services.database, now=services.now)
    zones = {one.slug: one.zone for one in today}
    entries = [
        _entry(plan, zones[plan.kitchen], preferences)
        for plan in list_plans(services.database, limit=_LISTED)
    ]
    kitchens = [
        KitchenEntry(
            name=one.name,
            date=one.date,
            home=f"/kitchens/{one.slug}",
            days=day_address(one.slug, one.date),
            floor=f"/floor/{one.slug}/{one.date}" if one.released else "",
        )
        for one in today
    ]
    return HTMLResponse(
        render_index(entries, start="" if kitchens else _start(), kitchens=kitchens)
    )


@router.get("/plans/{plan_id}")
def kitchen(page: PageDep) -> HTMLResponse:
    """The whole kitchen."""
    return HTMLResponse(render_kitchen(page.sheet, page.links, preferences=page.preferences))


@router.get("/plans/{plan_id}/cooks/{cook_id}")
def cook(cook_id: str, page: PageDep, live: LiveDep) -> HTMLResponse:
    """One cook's sheet."""
    if cook_id not in {each.cook for each in page.sheet.cooks}:
        known = ", ".join(each.cook for each in page.sheet.cooks)
        raise NotFoundError(
            Fault(
                "cook",
                cook_id[:60],
                _("is not on this sheet"),
                _("Choose one of: %(known)s", known=known),
            )
        )
    return HTMLResponse(
        render_cook(
            page.sheet,
            cook_id,
            page.links,
            preferences=page.preferences,
            live=live(cook_id),
        )
    )


@router.get("/plans/{plan_id}/wall")
def wall(page: PageDep) -> HTMLResponse:
    """The chart for the wall."""
    return HTMLResponse(render_wall(page.sheet, page.links, preferences=page.preferences))


@router.get("/plans/{plan_id}/why")
def whys(page: PageDep) -> HTMLResponse:
    """Why every quantity is what it is."""
    return HTMLResponse(render_whys(page.sheet, page.traces, page.links))


@router.get("/plans/{plan_id}/why/{item}")
def why(item: Annotated[str, Path(max_length=60)], page: PageDep) -> HTMLResponse:
    """Why one quantity is what it is."""
    trace = trace_of(page.traces, item)
    return HTMLResponse(render_why(page.sheet, item, trace, page.links))


def _start() -> str:
    return _(
        "Send a kitchen file to /api/v1/kitchens: its days are then entered and planned from here. "
        "Or see a made-up kitchen first: prepwright demo"
    )


def _entry(plan: PlanSummary, zone: ZoneInfo, preferences: Preferences) -> PlanEntry:
    asked = _("Asked for %(moment)s.", moment=moment(plan.created_at, zone, preferences))
    told = said(plan.error or plan.note or "")
    return PlanEntry(
        kitchen=plan.kitchen_name,
        date=plan.date,
        href=f"/plans/{plan.id}" if plan.has_sheet else None,
        state=state_words(plan.state),
        summary=told if plan.error else " ".join(filter(None, (asked, told))),
    )


def _more(plan: PlanStatus) -> tuple[Choice, ...]:
    """The day it is for, and what can be done with it."""
    address = f"/plans/{plan.id}"
    day = Choice(_("The day"), day_address(plan.kitchen, plan.date))
    if not plan.state.ended:
        return day, Choice(_("Being made"), f"{address}/build")
    if plan.state is PlanState.FAILED:
        return (day,)
    return (
        day,
        Choice(_("Release"), f"{address}/release"),
        Choice(_("Compare"), f"{address}/compare"),
    )
