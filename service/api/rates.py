"""Routes of the learned rates: what ticks have taught, taken over and back."""

from fastapi import APIRouter
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from starlette.exceptions import HTTPException

from planner.rates.apply import Use
from service.api.forms import FormFields
from service.api.kitchens import Slug
from service.api.services import ServicesDep
from service.usecases.rates import (
    CAUTIOUS,
    FIRST_CUT_TICKED,
    SET_UP_TICKED,
    TAKEN_BACK,
    TAKEN_OVER,
    rates_now,
    take_back,
    take_over,
    tick_set_ups,
)
from web.language import _
from web.links import Choice
from web.rates.pages import render_rates
from web.rates.view import Decided, decision_view, rates_view

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_USES = {"mean": Use(), "cautious": CAUTIOUS}
_DECIDED = {
    TAKEN_OVER: Decided.OVER,
    TAKEN_BACK: Decided.BACK,
    SET_UP_TICKED: Decided.SET_UP,
    FIRST_CUT_TICKED: Decided.FIRST_CUT,
}
_STARTS = {"set-up": True, "first-cut": False}


@router.get("/kitchens/{slug}/rates")
def show(slug: Slug, services: ServicesDep, done: str = "") -> HTMLResponse:
    """What was learned, and what was decided."""
    now = rates_now(services.database, slug, now=services.now)
    address = f"/kitchens/{slug}/rates"
    told = {
        "over": _("Taken over: the next plan is made with the learned rates."),
        "back": _("Taken back: the next plan is made with the rates of before."),
        "ticks": _("Saved: the rates below are learned with it."),
    }
    nav = [
        Choice(_("All plans"), "/"),
        Choice(_("The day"), f"/kitchens/{slug}"),
        Choice(_("Learned rates"), address, current=True),
        Choice(_("What dishes cost"), f"/kitchens/{slug}/costs"),
    ]
    return HTMLResponse(
        render_rates(
            rates_view(now.kitchen, now.skills, now.ticked, now.days, now.changes, now.cautious),
            kitchen=now.kitchen.name,
            nav=nav,
            address=address,
            version=now.version,
            decisions=[
                decision_view(_DECIDED[one.actor], one.at.astimezone(now.zone))
                for one in now.decisions
            ],
            can_take_back=now.can_take_back,
            told=told.get(done, ""),
        )
    )


@router.post("/kitchens/{slug}/rates")
def decide(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Take the learned rates over, on average or with room, or back."""
    use, written = fields.get("use", ""), fields.get("version", "")
    if use not in (*_USES, "back"):
        remedy = "Choose mean, cautious or back."
        raise HTTPException(422, f"use: {use[:60]!r}: this cannot be chosen. {remedy}")
    version = int(written) if written.isascii() and written.isdecimal() else 0
    if use == "back":
        take_back(services.database, slug, version, now=services.now)
        return RedirectResponse(f"/kitchens/{slug}/rates?done=back", 303)
    take_over(services.database, slug, version, _USES[use], now=services.now)
    return RedirectResponse(f"/kitchens/{slug}/rates?done=over", 303)


@router.post("/kitchens/{slug}/rates/start")
def choose_start(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Say whether *Start* is ticked before the set-up or at the first cut."""
    start, written = fields.get("start", ""), fields.get("version", "")
    if start not in _STARTS:
        remedy = "Choose set-up or first-cut."
        raise HTTPException(422, f"start: {start[:60]!r}: this cannot be chosen. {remedy}")
    version = int(written) if written.isascii() and written.isdecimal() else 0
    tick_set_ups(services.database, slug, version, ticked=_STARTS[start], now=services.now)
    return RedirectResponse(f"/kitchens/{slug}/rates?done=ticks", 303)
