"""Routes of the floor for programs: release a plan, send ticks, hear of changes."""

import asyncio
import datetime as dt
from collections.abc import AsyncIterator
from typing import Annotated

from fastapi import APIRouter, Depends, Path, Response
from fastapi.sse import EventSourceResponse, ServerSentEvent
from pydantic import Field
from starlette.concurrency import run_in_threadpool

from service.api.bodies import json_only
from service.api.kitchens import Slug
from service.api.plans import PlanId
from service.api.problems import LOCATION, documented
from service.api.services import ACTOR, ServicesDep
from service.floor_values import Release, ReleaseSummary, TicksReceived, TicksSent
from service.usecases.floor import floor_version, newest_release, release_plan
from service.usecases.ticking import take_ticks
from service.values import Value

router = APIRouter(tags=["floor"])
stream_router = APIRouter(include_in_schema=False)

_PAUSE = 0.25
"""Seconds: several ticks of one moment are told at once."""

Day = Annotated[dt.date, Path(description="The day, ISO 8601.")]


class FloorChange(Value):
    """Where the floor stands, in two numbers: whoever shows others reads it again."""

    release: int = Field(description="Number of the day's newest release.")
    version: int = Field(description="How many ticks of it are kept.")
    now: dt.datetime = Field(description="The server's clock, UTC.")


@router.post(
    "/plans/{plan_id}/release",
    status_code=201,
    summary="Release a plan to the floor",
    response_description="The release; Location has its address.",
    responses={201: LOCATION, **documented(403, 404, 409)},
)
def post_release(plan_id: PlanId, services: ServicesDep, response: Response) -> ReleaseSummary:
    """Give a plan that is done to the floor: cooks work from it until the next release."""
    release = release_plan(services.database, plan_id, actor=ACTOR, now=services.now)
    services.bell.ring(topic_of(release.kitchen, release.date))
    response.headers["Location"] = f"/api/v1/floor/{release.kitchen}/{release.date}"
    return summary_of(release)


@router.get("/floor/{slug}/{date}", summary="Read the release", responses=documented(404))
def get_release(slug: Slug, date: Day, services: ServicesDep) -> ReleaseSummary:
    """What the day's cooks work from."""
    return summary_of(newest_release(services.database, slug, date))


@router.post(
    "/floor/{slug}/{date}/ticks",
    summary="Send ticks",
    response_description="What became of each, and where the floor stands.",
    responses=documented(403, 404, 415, 422),
    dependencies=[Depends(json_only)],
)
def post_ticks(slug: Slug, date: Day, sent: TicksSent, services: ServicesDep) -> TicksReceived:
    """Keep what a device has to tell. The same again changes nothing: send it until it is heard.

    A tick that is bad is refused with its reason and does not hold up the others.
    """
    received = take_ticks(
        services.database, services.released, slug, date, sent, actor=ACTOR, now=services.now
    )
    services.bell.ring(topic_of(slug, date), (received.release, received.version))
    return received


def _released(slug: Slug, date: Day, services: ServicesDep) -> None:
    """Refuse before the stream begins: an error within it would have no status."""
    newest_release(services.database, slug, date)


@stream_router.get(
    "/floor/{slug}/{date}/stream",
    response_class=EventSourceResponse,
    dependencies=[Depends(_released)],
)
async def stream(slug: Slug, date: Day, services: ServicesDep) -> AsyncIterator[ServerSentEvent]:
    """Tell where the floor stands, at once and whenever that changes."""
    topic = topic_of(slug, date)
    with services.bell.listening(topic) as rung:
        while True:
            rung.clear()
            stands = services.bell.said(topic)
            if stands is None:
                stands = await run_in_threadpool(floor_version, services.database, slug, date)
            release, version = stands
            change = FloorChange(release=release, version=version, now=services.now())
            yield ServerSentEvent(event="floor", raw_data=change.model_dump_json())
            await rung.wait()
            await asyncio.sleep(_PAUSE)


def topic_of(slug: str, date: dt.date) -> str:
    """What the bell rings for when this day's floor changes."""
    return f"{slug}/{date}"


def summary_of(release: Release) -> ReleaseSummary:
    """A release as programs read it."""
    return ReleaseSummary(
        kitchen=release.kitchen,
        date=release.date,
        number=release.number,
        plan=release.plan_id,
        created_at=release.created_at,
    )
