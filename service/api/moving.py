"""Routes by which batches are moved or held by hand, and what comes of it is looked at."""

import datetime as dt
from collections.abc import Mapping

from fastapi import APIRouter, Depends, Response
from fastapi.responses import HTMLResponse, RedirectResponse
from pydantic import Field

from planner.kitchen.base import clock_minutes
from planner.kitchen.document import Kitchen
from planner.lots.crew import crew_of
from planner.pins.types import Pin
from service.api.bodies import json_only
from service.api.days import day_address, day_nav
from service.api.forms import FormFields
from service.api.plans import PlanId
from service.api.problems import LOCATION, RETRY_AFTER, documented, told
from service.api.reading import PreferencesDep
from service.api.services import ACTOR, Services, ServicesDep
from service.errors import Fault, WishError
from service.usecases.moving import (
    Movable,
    Wish,
    movable,
    moved_plan,
    pins_in,
    request_move,
)
from service.usecases.plans import plan_texts
from service.values import PlanStatus, Value
from web.chef.fields import BadFieldError, clock_text, whole
from web.chef.moving_pages import render_moved, render_moving
from web.chef.moving_view import Able, Typed, moving_view
from web.language import _
from web.links import Choice, Links
from web.presenters.preferences import Preferences

router = APIRouter(tags=["plans"])
pages_router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_WHENS = ("open", "at", "after")
_CLOCK = r"^([01][0-9]|2[0-3]):[0-5][0-9]$"


class BatchWish(Value):
    """One batch to hold where it is said, or to let go."""

    batch: int = Field(ge=1, description="Number of the batch on the plan's sheet.")
    cook: str | None = Field(
        default=None, max_length=60, description="Id of the cook who is to have it; null: anybody."
    )
    begin: str | None = Field(
        default=None,
        pattern=_CLOCK,
        description="When its work begins, HH:MM of the planned day, set-up apart; null: any time.",
    )
    exactly: bool = Field(
        default=False, description="Whether it begins at that minute; else not before it."
    )
    free: bool = Field(
        default=False, description="Let it go: nothing of it is held by hand any more."
    )


class MoveRequest(Value):
    """Which batches to hold by hand, and how long to search for a plan around them."""

    batches: tuple[BatchWish, ...] = Field(min_length=1, max_length=500, description="The batches.")
    seconds: float | None = Field(
        default=None, ge=0, le=600, description="Longest search; null: as the server is set."
    )


class HeldLot(Value):
    """A lot of food that is held by hand in a plan."""

    lot: str = Field(description="Id of the lot, as in the plan file.")
    cook: str | None = Field(description="Id of the cook it stays with; null: anybody.")
    begin: int | None = Field(
        description="When its work begins, minutes after midnight; null: any time."
    )
    exactly: bool = Field(description="Whether at that minute; else not before it.")


@router.post(
    "/plans/{plan_id}/moves",
    status_code=202,
    summary="Move or hold batches by hand",
    response_description="The run is queued; Location has its address.",
    responses={
        202: {"headers": {**LOCATION["headers"], **RETRY_AFTER}},
        **documented(403, 404, 409, 415, 422),
    },
    dependencies=[Depends(json_only)],
)
def post_moves(
    plan_id: PlanId, wish: MoveRequest, services: ServicesDep, response: Response
) -> PlanStatus:
    """Plan the rest anew around batches that are held, with few other changes.

    What is held already stays so. The run is a plan of its own: nobody works from it before it is
    released.
    """
    wishes = tuple(
        Wish(
            one.batch,
            one.cook,
            None if one.begin is None else clock_minutes(one.begin),
            one.exactly,
            one.free,
        )
        for one in wish.batches
    )
    status = _asked(services, plan_id, wishes, wish.seconds)
    response.headers["Location"] = f"/api/v1/plans/{status.id}"
    response.headers["Retry-After"] = "2"
    return status


@router.get("/plans/{plan_id}/held", summary="What is held by hand", responses=documented(404, 409))
def get_held(plan_id: PlanId, services: ServicesDep) -> tuple[HeldLot, ...]:
    """The lots of a plan that people hold at a cook or a time."""
    pins = pins_in(plan_texts(services.database, plan_id).document)
    return tuple(_held(pin) for pin in pins)


@pages_router.get("/plans/{plan_id}/moving")
def show(plan_id: PlanId, services: ServicesDep, preferences: PreferencesDep) -> HTMLResponse:
    """The plan's batches by cook, each with what may be done with it."""
    return HTMLResponse(_page(movable(services.database, plan_id), preferences))


@pages_router.post("/plans/{plan_id}/moving")
def move(
    plan_id: PlanId, fields: FormFields, services: ServicesDep, preferences: PreferencesDep
) -> Response:
    """Plan the rest anew around a batch, and go to where that is seen."""
    try:
        status = _asked(services, plan_id, (_wish(fields, services, plan_id),), None)
    except WishError as error:
        typed = _typed(fields, error.faults)
        page = _page(movable(services.database, plan_id), preferences, typed)
        return HTMLResponse(page, 422)
    return RedirectResponse(f"/plans/{status.id}/build", 303)


@pages_router.get("/plans/{plan_id}/moved")
def moved(plan_id: PlanId, services: ServicesDep, preferences: PreferencesDep) -> HTMLResponse:
    """What moving batches changes for whom."""
    found = moved_plan(services.database, plan_id)
    plan = found.plan
    return HTMLResponse(
        render_moved(
            sheet=found.sheet,
            before=found.before_sheet,
            told=found.told,
            plan=f"/plans/{plan_id}",
            links=Links.under(f"/plans/{plan_id}"),
            nav=day_nav(plan.kitchen, plan.date, current=False),
            choices=[
                Choice(_("Move more batches"), f"/plans/{plan_id}/moving"),
                Choice(_("Read the sheet"), f"/plans/{plan_id}"),
                Choice(_("Back to the plan before"), f"/plans/{found.before.id}/moving"),
                Choice(_("Back to the day"), day_address(plan.kitchen, plan.date)),
            ],
            preferences=preferences,
        )
    )


def _asked(
    services: Services, plan_id: PlanId, wishes: tuple[Wish, ...], seconds: float | None
) -> PlanStatus:
    update = {} if seconds is None else {"seconds": seconds}
    status = request_move(
        services.database,
        plan_id,
        wishes,
        services.choices.model_copy(update=update),
        actor=ACTOR,
        now=services.now,
    )
    services.queue.submit(status.id)
    return status


def _wish(fields: Mapping[str, str], services: Services, plan_id: PlanId) -> Wish:
    number = _number(fields)
    deed = fields.get("do", "move")
    if deed == "free":
        return Wish(number, free=True)
    if deed == "keep":
        sheet = movable(services.database, plan_id).sheet
        for cook in sheet.cooks:
            for batch in cook.batches:
                if batch.number == number:
                    return Wish(number, batch.cook, batch.work_start, exactly=True)
    when = fields.get("when", "open")
    if when not in _WHENS:
        raise WishError(
            Fault(
                "when",
                when[:60],
                _("this cannot be chosen"),
                _("Choose one of %(known)s", known=", ".join(_WHENS)),
            )
        )
    return Wish(
        number,
        fields.get("cook") or None,
        None if when == "open" else _minutes(fields.get("time", "")),
        exactly=when == "at",
    )


def _number(fields: Mapping[str, str]) -> int:
    try:
        return whole(fields.get("batch", ""), example="1")
    except BadFieldError as error:
        raise WishError(_field_fault("batch", error)) from None


def _minutes(text: str) -> int:
    try:
        return clock_minutes(clock_text(text, Preferences()))
    except BadFieldError as error:
        raise WishError(_field_fault("time", error)) from None


def _field_fault(path: str, error: BadFieldError) -> Fault:
    return Fault(path, error.error.value, error.error.message, error.error.remedy)


def _typed(fields: Mapping[str, str], faults: tuple[Fault, ...]) -> Typed:
    number = fields.get("batch", "")
    return Typed(
        batch=int(number) if number.isascii() and number.isdecimal() and len(number) < 9 else 0,
        cook=fields.get("cook", ""),
        when=fields.get("when", "open"),
        time=fields.get("time", ""),
        wrong=tuple(
            f"{fault.value} {fault.message}. {fault.remedy}.".strip() for fault in map(told, faults)
        ),
    )


def _page(base: Movable, preferences: Preferences, typed: Typed | None = None) -> str:
    plan = base.plan
    address = f"/plans/{plan.id}"
    return render_moving(
        moving_view(base.sheet, _able(base.kitchen, plan.date), preferences, typed),
        plan=address,
        nav=day_nav(plan.kitchen, plan.date, current=False),
        choices=[
            Choice(_("Read the sheet"), address),
            Choice(_("Compare"), f"{address}/compare"),
            Choice(_("Release to the floor"), f"{address}/release"),
            Choice(_("Back to the day"), day_address(plan.kitchen, plan.date)),
        ],
        kitchen=plan.kitchen_name,
        date=plan.date,
    )


def _able(kitchen: Kitchen, date: dt.date) -> dict[str, tuple[Able, ...]]:
    """Cooks who are in and can do an operation, by its id."""
    crew = crew_of(kitchen, date)
    return {
        one.id: tuple(Able(crew.cooks[w].id, crew.cooks[w].name) for w in crew.paces(one))
        for one in kitchen.operations
    }


def _held(pin: Pin) -> HeldLot:
    return HeldLot(lot=pin.lot, cook=pin.cook, begin=pin.begin, exactly=pin.exactly)
