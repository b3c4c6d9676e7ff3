"""Routes of a plan as it is made: follow it live, and stop it when it is good enough."""

import asyncio
from collections.abc import AsyncIterator

from fastapi import APIRouter, Depends
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from fastapi.sse import EventSourceResponse, ServerSentEvent
from starlette.concurrency import run_in_threadpool

from service.api.days import day_address, day_nav
from service.api.plans import PlanId
from service.api.reading import PreferencesDep
from service.api.services import Services, ServicesDep
from service.bell import plan_topic
from service.documents import kept_sheet
from service.usecases.plans import plan_status, plan_texts, stop_plan
from service.values import PlanState, PlanStatus
from web.chef.build_view import BuildState, BuildView, Found, build_view
from web.chef.pages import render_build, render_progress
from web.presenters.preferences import Preferences

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_LOOK_AGAIN = 5.0
"""Seconds after which a run is looked at without a ring: another program may be doing it."""
_PAUSE = 0.25
"""Seconds between two events: the first plans come faster than anybody reads."""


@router.get("/plans/{plan_id}/build")
def show(plan_id: PlanId, services: ServicesDep, preferences: PreferencesDep) -> HTMLResponse:
    """Where the search stands, and what to do next."""
    status = plan_status(services.database, plan_id)
    return HTMLResponse(
        render_build(
            _view(services, status, preferences),
            nav=day_nav(status.kitchen, status.date, current=False),
            plan=f"/plans/{plan_id}",
            day=day_address(status.kitchen, status.date),
            kitchen=status.kitchen_name,
            date=status.date,
        )
    )


@router.post("/plans/{plan_id}/stop")
def stop(plan_id: PlanId, services: ServicesDep) -> Response:
    """End the search with the best plan it has."""
    stop_plan(services.database, services.queue, plan_id)
    return RedirectResponse(f"/plans/{plan_id}/build", 303)


def _there(plan_id: PlanId, services: ServicesDep) -> None:
    """Refuse before the stream begins: an error within it would have no status."""
    plan_status(services.database, plan_id)


@router.get(
    "/plans/{plan_id}/stream", response_class=EventSourceResponse, dependencies=[Depends(_there)]
)
async def stream(
    plan_id: PlanId, services: ServicesDep, preferences: PreferencesDep
) -> AsyncIterator[ServerSentEvent]:
    """What changes on the page, at once and whenever it does, until the run has ended."""
    shown = ""
    with services.bell.listening(plan_topic(plan_id)) as rung:
        while True:
            rung.clear()
            status, text = await run_in_threadpool(_progress, services, plan_id, preferences)
            if text != shown:
                shown = text
                yield ServerSentEvent(raw_data=text)
            if status.state.ended:
                yield ServerSentEvent(event="ended", raw_data=status.state.value)
                return
            try:
                await asyncio.wait_for(rung.wait(), _LOOK_AGAIN)
            except TimeoutError:
                # Whoever listens knows by it that the stream is not broken.
                yield ServerSentEvent(event="unchanged", raw_data="")
                continue
            await asyncio.sleep(_PAUSE)


def _progress(
    services: Services, plan_id: PlanId, preferences: Preferences
) -> tuple[PlanStatus, str]:
    status = plan_status(services.database, plan_id)
    text = render_progress(
        _view(services, status, preferences),
        plan=f"/plans/{plan_id}",
        day=day_address(status.kitchen, status.date),
    )
    return status, text


def _view(services: Services, status: PlanStatus, preferences: Preferences) -> BuildView:
    done = status.state is PlanState.DONE
    sheet = kept_sheet(plan_texts(services.database, status.id).sheet) if done else None
    return build_view(
        BuildState(
            state=status.state.value,
            found=[
                Found(
                    seconds=step.seconds,
                    late=step.tardiness,
                    short=step.short,
                    labor=step.labor,
                    how=step.origin,
                    least=step.least_labor,
                )
                for step in status.progress
            ],
            has_sheet=status.has_sheet,
            searched_for=status.choices.seconds,
            error=status.error or "",
            note=status.note or "",
            stopping=services.queue.stopping(status.id),
            troubles=sheet.troubles if sheet else (),
            remedies=sheet.remedies if sheet else (),
            moved=status.moved_from is not None,
            chances=sheet.chances if sheet else (),
        ),
        preferences,
    )
