"""Routes that put plans side by side, and try what would be otherwise."""

import uuid
from collections.abc import Callable
from zoneinfo import ZoneInfo

from fastapi import APIRouter
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from planner.kitchen.errors import KitchenErrors
from service.api.days import day_address, day_nav
from service.api.forms import FormFields
from service.api.plans import PlanId
from service.api.problems import file_faults
from service.api.reading import PreferencesDep
from service.api.services import ACTOR, Services, ServicesDep
from service.comparing import SEARCHES
from service.db.what_ifs import Asked
from service.usecases.comparing import (
    KEPT,
    MOST_SECONDS,
    ChangeError,
    Trying,
    ask_again,
    ask_what_if,
    compared,
    throw_away,
    what_ifs_of,
)
from web.chef.compare_view import WhatIfView, otherwise_words, plans_table, what_if_view
from web.chef.pages import render_compare, render_what_ifs
from web.language import _
from web.links import Choice
from web.presenters.clock import moment
from web.presenters.preferences import Preferences
from web.sentences import said

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)


@router.get("/plans/{plan_id}/compare")
def show(plan_id: PlanId, services: ServicesDep, preferences: PreferencesDep) -> HTMLResponse:
    """The plan beside others of its day, and what-ifs."""
    return HTMLResponse(_page(plan_id, services, preferences))


@router.get("/plans/{plan_id}/compare/what-ifs")
def what_ifs(plan_id: PlanId, services: ServicesDep, preferences: PreferencesDep) -> HTMLResponse:
    """What came of the what-ifs so far."""
    asked, zone = what_ifs_of(services.database, plan_id)
    views = [_view(one, zone, preferences) for one in asked]
    return HTMLResponse(render_what_ifs(views, plan=f"/plans/{plan_id}"))


@router.post("/plans/{plan_id}/compare")
def ask(
    plan_id: PlanId, fields: FormFields, services: ServicesDep, preferences: PreferencesDep
) -> Response:
    """Try a what-if."""
    change, value = fields.get("change", ""), fields.get("value", "")
    return _tried(
        lambda: ask_what_if(_trying(services), plan_id, change, value, actor=ACTOR),
        plan_id,
        services,
        preferences,
    )


@router.post("/plans/{plan_id}/compare/what-ifs/{what_if}/again")
def again(
    plan_id: PlanId, what_if: uuid.UUID, services: ServicesDep, preferences: PreferencesDep
) -> Response:
    """Try a what-if again that came to nothing."""
    return _tried(
        lambda: ask_again(_trying(services), plan_id, what_if, actor=ACTOR),
        plan_id,
        services,
        preferences,
    )


@router.post("/plans/{plan_id}/compare/what-ifs/{what_if}/throw-away")
def forget(plan_id: PlanId, what_if: uuid.UUID, services: ServicesDep) -> Response:
    """Throw a what-if away."""
    throw_away(_trying(services), plan_id, what_if)
    return _back(plan_id)


def _trying(services: Services) -> Trying:
    return Trying(services.database, services.comparisons, services.now, services.choices)


def _back(plan_id: PlanId) -> Response:
    return RedirectResponse(f"/plans/{plan_id}/compare#what-if", 303)


def _tried(
    ask_for: Callable[[], object], plan_id: PlanId, services: Services, preferences: Preferences
) -> Response:
    """Back to the page once a what-if is asked for, or the page with what is wrong with it."""
    try:
        ask_for()
    except ChangeError as error:
        wrong = [f"{fault}." for fault in error.faults]
        return HTMLResponse(_page(plan_id, services, preferences, wrong), 422)
    except KitchenErrors as errors:
        wrong = [
            f"{fault.path}: {fault.value}: {fault.message}; {fault.remedy}."
            for fault in file_faults(errors)
        ]
        return HTMLResponse(_page(plan_id, services, preferences, wrong), 422)
    return _back(plan_id)


def _page(
    plan_id: PlanId,
    services: Services,
    preferences: Preferences,
    wrong: list[str] | None = None,
) -> str:
    found = compared(services.database, plan_id)
    plan = found.plan
    address = f"/plans/{plan_id}"
    return render_compare(
        table=plans_table(
            [
                (_heading(_("This plan"), found.release), address, found.sheet),
                *(
                    (
                        _heading(
                            _(
                                "Plan of %(moment)s",
                                moment=moment(one.plan.created_at, found.zone, preferences),
                            ),
                            one.release,
                        ),
                        f"/plans/{one.plan.id}",
                        one.sheet,
                    )
                    for one in found.others
                ),
            ],
            preferences,
        ),
        views=[_view(one, found.zone, preferences) for one in found.what_ifs],
        cooks=found.cooks,
        equipment=found.equipment,
        seconds=SEARCHES * min(services.choices.seconds, MOST_SECONDS),
        kept=KEPT,
        plan=address,
        nav=day_nav(plan.kitchen, plan.date, current=False),
        choices=[
            Choice(_("Release to the floor"), f"{address}/release"),
            Choice(_("Move batches"), f"{address}/moving"),
            Choice(_("Read the sheet"), address),
            Choice(_("Back to the day"), day_address(plan.kitchen, plan.date)),
        ],
        kitchen=plan.kitchen_name,
        date=plan.date,
        wrong=wrong or (),
    )


def _heading(plan: str, release: int | None) -> str:
    if release is None:
        return plan
    return _("%(plan)s, release %(number)s", plan=plan, number=release)


def _view(one: Asked, zone: ZoneInfo, preferences: Preferences) -> WhatIfView:
    return what_if_view(
        otherwise_words(one.otherwise),
        key=str(one.id),
        state=one.state.value,
        asked=moment(one.at, zone, preferences),
        error=said(one.error),
        found=one.found,
        preferences=preferences,
    )
