"""Routes of plans: ask for one, follow it, read what it made."""

import datetime as dt
import uuid
from typing import Annotated

from fastapi import APIRouter, Depends, Path, Query, Response
from pydantic import Field

from planner.plan_file import PlanDocument
from planner.plan_file.traces import PlanTrace
from planner.quantities.types import Trace
from planner.sheet.types import KitchenSheet
from service.api.bodies import json_only
from service.api.kitchens import Slug
from service.api.problems import LOCATION, RETRY_AFTER, documented
from service.api.services import ACTOR, ServicesDep
from service.documents import kept_traces
from service.usecases.plans import (
    list_plans,
    plan_status,
    plan_texts,
    request_plan,
    trace_of,
)
from service.usecases.yield_tests import gather_floor_tests
from service.values import PlanStatus, PlanSummary, Value

router = APIRouter(tags=["plans"])

PlanId = Annotated[uuid.UUID, Path(description="The run, as its answer or the list names it.")]
Limit = Annotated[int, Query(ge=1, le=500, description="How many at most.")]
_JSON = "application/json"


class PlanRequest(Value):
    """What to plan, and how long to search. What is left out is as the server's settings say."""

    date: dt.date | None = Field(
        default=None, description="The day; null: today in the kitchen's time zone."
    )
    seconds: float | None = Field(
        default=None,
        ge=0,
        le=600,
        description="Longest search, seconds; 0: the constructive rules only.",
    )
    deterministic_limit: float | None = Field(
        default=None,
        gt=0,
        le=600,
        description="Longest search in the solver's own time units, in place of seconds, for a "
        "repeatable plan.",
    )
    seed: int | None = Field(default=None, ge=0, le=2**31 - 1, description="Seeds the search.")


@router.post(
    "/kitchens/{slug}/plans",
    status_code=202,
    summary="Ask for a plan",
    response_description="The run is queued; Location has its address.",
    responses={
        202: {"headers": {**LOCATION["headers"], **RETRY_AFTER}},
        **documented(403, 404, 415, 422),
    },
    dependencies=[Depends(json_only)],
)
def post_plan(
    slug: Slug, wish: PlanRequest, services: ServicesDep, response: Response
) -> PlanStatus:
    """Plan one day from the newest version of a kitchen's file, in the background.

    The first sheet is there within seconds; the search goes on for the seconds asked for.
    """
    asked = wish.model_dump(exclude={"date"}, exclude_none=True)
    gather_floor_tests(services.database, services.released, slug, now=services.now)
    status = request_plan(
        services.database,
        slug,
        wish.date,
        services.choices.model_copy(update=asked),
        actor=ACTOR,
        now=services.now,
    )
    services.queue.submit(status.id)
    response.headers["Location"] = f"/api/v1/plans/{status.id}"
    response.headers["Retry-After"] = "2"
    return status


@router.get("/plans", summary="List the plans", responses=documented(422))
def get_plans(services: ServicesDep, limit: Limit = 50) -> tuple[PlanSummary, ...]:
    """Planning runs, newest first, whatever came of them."""
    return list_plans(services.database, limit=limit)


@router.get("/sheets", summary="List the sheets", responses=documented(422))
def get_sheets(services: ServicesDep, limit: Limit = 50) -> tuple[PlanSummary, ...]:
    """Planning runs that have a sheet, newest first."""
    return list_plans(services.database, limit=limit, with_sheet=True)


@router.get("/plans/{plan_id}", summary="Follow a plan", responses=documented(404))
def get_plan(plan_id: PlanId, services: ServicesDep) -> PlanStatus:
    """Where a run stands, with the improving plans it found: minutes, and seconds of search."""
    return plan_status(services.database, plan_id)


@router.get(
    "/plans/{plan_id}/document",
    summary="Read a plan file",
    response_model=PlanDocument,
    response_description="The plan file.",
    responses=documented(404, 409),
)
def get_document(plan_id: PlanId, services: ServicesDep) -> Response:
    """The whole plan: quantities in grams, times in minutes after midnight of the planned day."""
    return Response(plan_texts(services.database, plan_id).document, media_type=_JSON)


@router.get(
    "/plans/{plan_id}/sheet",
    summary="Read a sheet",
    response_model=KitchenSheet,
    response_description="What the pages show.",
    responses=documented(404, 409),
)
def get_sheet(plan_id: PlanId, services: ServicesDep) -> Response:
    """The prep sheet as values: grams, and minutes after midnight of the planned day."""
    return Response(plan_texts(services.database, plan_id).sheet, media_type=_JSON)


@router.get(
    "/plans/{plan_id}/why/{item}",
    summary="Ask why so much",
    response_model=PlanTrace,
    response_description="The quantity in grams, and what it follows from.",
    responses=documented(404, 409),
)
def get_trace(
    plan_id: PlanId,
    item: Annotated[str, Path(max_length=60, description="Id of an ingredient or component.")],
    services: ServicesDep,
) -> Trace:
    """Why the quantity of an ingredient or component is what it is, back to covers and yields."""
    return trace_of(kept_traces(plan_texts(services.database, plan_id).traces), item)
