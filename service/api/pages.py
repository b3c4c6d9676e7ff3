"""Routes of the pages that people read."""

import datetime as dt
import uuid
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Annotated, Literal
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Path, Query
from fastapi.responses import HTMLResponse

from planner.quantities.types import Trace
from planner.sheet.types import KitchenSheet
from service.api.days import day_address
from service.api.services import ServicesDep
from service.documents import read_sheet, read_traces
from service.errors import Fault, NotFoundError
from service.usecases.kitchens import list_kitchens
from service.usecases.plans import list_plans, plan_status, plan_texts, trace_of
from service.values import PlanState, PlanStatus, PlanSummary
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

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_LISTED = 200
_START = (
    "Send a kitchen file to /api/v1/kitchens: its days are then entered and planned from here. "
    "Or see a made-up kitchen first: prepwright demo"
)
_STATES = {
    PlanState.QUEUED: "waiting",
    PlanState.RUNNING: "being planned",
    PlanState.DONE: "ready",
    PlanState.FAILED: "failed",
}
Units = Literal["metric", "us"]
Clock = Literal["24", "12"]


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
    units: Annotated[Units, Query()] = "metric",
    clock: Annotated[Clock, Query()] = "24",
) -> _Page:
    status = plan_status(services.database, plan_id)
    texts = plan_texts(services.database, plan_id)
    traces = read_traces(texts.traces)
    links = Links.under(f"/plans/{plan_id}", query=_query(units, clock))
    links = replace(links, explained=frozenset(traces), more=_more(status))
    preferences = Preferences(units, 12 if clock == "12" else 24)
    return _Page(read_sheet(texts.sheet), traces, links, preferences)


PageDep = Annotated[_Page, Depends(_page)]


@router.get("/")
def index(services: ServicesDep) -> HTMLResponse:
    """The list of plans."""
    entries = [_entry(plan) for plan in list_plans(services.database, limit=_LISTED)]
    kitchens = [
        KitchenEntry(one.name, f"/kitchens/{one.slug}") for one in list_kitchens(services.database)
    ]
    start = "" if kitchens else _START
    return HTMLResponse(render_index(entries, start=start, kitchens=kitchens))


@router.get("/plans/{plan_id}")
def kitchen(page: PageDep) -> HTMLResponse:
    """The whole kitchen."""
    links = _with_choices(page, lambda links: links.kitchen)
    return HTMLResponse(render_kitchen(page.sheet, links, preferences=page.preferences))


@router.get("/plans/{plan_id}/cooks/{cook_id}")
def cook(cook_id: str, page: PageDep) -> HTMLResponse:
    """One cook's sheet."""
    if cook_id not in {each.cook for each in page.sheet.cooks}:
        known = ", ".join(each.cook for each in page.sheet.cooks)
        raise NotFoundError(
            Fault("cook", cook_id[:60], "is not on this sheet", f"Choose one of: {known}")
        )
    links = _with_choices(page, lambda links: links.cook(cook_id))
    return HTMLResponse(render_cook(page.sheet, cook_id, links, preferences=page.preferences))


@router.get("/plans/{plan_id}/wall")
def wall(page: PageDep) -> HTMLResponse:
    """The chart for the wall."""
    links = _with_choices(page, lambda links: links.wall)
    return HTMLResponse(render_wall(page.sheet, links, preferences=page.preferences))


@router.get("/plans/{plan_id}/why")
def whys(page: PageDep) -> HTMLResponse:
    """Why every quantity is what it is."""
    links = _with_choices(page, lambda links: links.all_whys)
    return HTMLResponse(render_whys(page.sheet, page.traces, links, preferences=page.preferences))


@router.get("/plans/{plan_id}/why/{item}")
def why(item: Annotated[str, Path(max_length=60)], page: PageDep) -> HTMLResponse:
    """Why one quantity is what it is."""
    trace = trace_of(page.traces, item)
    links = _with_choices(page, lambda links: links.why(item))
    return HTMLResponse(render_why(page.sheet, item, trace, links, preferences=page.preferences))


def _entry(plan: PlanSummary) -> PlanEntry:
    planned = plan.created_at.astimezone(dt.UTC).strftime("%Y-%m-%d %H:%M UTC")
    return PlanEntry(
        kitchen=plan.kitchen_name,
        date=plan.date,
        href=f"/plans/{plan.id}" if plan.has_sheet else None,
        state=_STATES[plan.state],
        summary=plan.error or " ".join(filter(None, (f"Asked for {planned}.", plan.note))),
    )


def _more(plan: PlanStatus) -> tuple[Choice, ...]:
    """The day it is for, and what can be done with it."""
    address = f"/plans/{plan.id}"
    day = Choice("The day", day_address(plan.kitchen, plan.date))
    if not plan.state.ended:
        return day, Choice("Being made", f"{address}/build")
    if plan.state is PlanState.FAILED:
        return (day,)
    return day, Choice("Release", f"{address}/release"), Choice("Compare", f"{address}/compare")


def _query(units: Units, clock: Clock) -> str:
    """What differs from the usual way of seeing."""
    asked = {"units": units if units != "metric" else "", "clock": clock if clock != "24" else ""}
    return urlencode({name: value for name, value in asked.items() if value})


def _with_choices(page: _Page, here: Callable[[Links], str]) -> Links:
    """The page's links with other ways to see the page it is: ``here`` picks its address."""
    path = here(page.links).partition("?")[0]
    units, clock = page.preferences.units, page.preferences.clock

    def choice(label: str, to_units: Units, to_clock: Clock, *, current: bool) -> Choice:
        query = _query(to_units, to_clock)
        return Choice(label, f"{path}?{query}" if query else path, current)

    now_clock: Clock = "12" if clock == 12 else "24"
    return replace(
        page.links,
        choices=(
            choice("Metric", "metric", now_clock, current=units == "metric"),
            choice("US units", "us", now_clock, current=units == "us"),
            choice("24 h", units, "24", current=clock == 24),
            choice("12 h", units, "12", current=clock == 12),
        ),
    )
