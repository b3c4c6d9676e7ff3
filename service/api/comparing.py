"""Routes that put plans side by side, and try what would be otherwise."""

from fastapi import APIRouter
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from planner.kitchen.errors import KitchenErrors
from service.api.days import day_address, day_nav
from service.api.forms import FormFields
from service.api.plans import PlanId
from service.api.problems import file_faults
from service.api.reading import PreferencesDep
from service.api.services import Services, ServicesDep
from service.comparing import SEARCHES, Asked
from service.usecases.comparing import (
    MOST_SECONDS,
    ChangeError,
    ask_what_if,
    compared,
)
from web.chef.compare_view import WhatIfView, otherwise_words, plans_table, what_if_view
from web.chef.pages import render_compare, render_what_ifs
from web.language import _
from web.links import Choice
from web.presenters.clock import moment
from web.presenters.preferences import Preferences

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)


@router.get("/plans/{plan_id}/compare")
def show(plan_id: PlanId, services: ServicesDep, preferences: PreferencesDep) -> HTMLResponse:
    """The plan beside others of its day, and what-ifs."""
    return HTMLResponse(_page(plan_id, services, preferences))


@router.get("/plans/{plan_id}/compare/what-ifs")
def what_ifs(plan_id: PlanId, services: ServicesDep, preferences: PreferencesDep) -> HTMLResponse:
    """What came of the what-ifs so far."""
    views = [_view(one, preferences) for one in services.comparisons.of(plan_id)]
    return HTMLResponse(render_what_ifs(views, plan=f"/plans/{plan_id}"))


@router.post("/plans/{plan_id}/compare")
def ask(
    plan_id: PlanId, fields: FormFields, services: ServicesDep, preferences: PreferencesDep
) -> Response:
    """Try a what-if."""
    try:
        ask_what_if(
            services.database,
            services.comparisons,
            plan_id,
            fields.get("change", ""),
            fields.get("value", ""),
            services.choices,
        )
    except ChangeError as error:
        wrong = [f"{fault}." for fault in error.faults]
        return HTMLResponse(_page(plan_id, services, preferences, wrong), 422)
    except KitchenErrors as errors:
        wrong = [
            f"{fault.path}: {fault.value}: {fault.message}; {fault.remedy}."
            for fault in file_faults(errors)
        ]
        return HTMLResponse(_page(plan_id, services, preferences, wrong), 422)
    return RedirectResponse(f"/plans/{plan_id}/compare#what-if", 303)


def _page(
    plan_id: PlanId,
    services: Services,
    preferences: Preferences,
    wrong: list[str] | None = None,
) -> str:
    found = compared(services.database, services.comparisons, plan_id)
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
        views=[_view(one, preferences) for one in found.what_ifs],
        cooks=found.cooks,
        equipment=found.equipment,
        seconds=SEARCHES * min(services.choices.seconds, MOST_SECONDS),
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


def _view(one: Asked, preferences: Preferences) -> WhatIfView:
    return what_if_view(
        otherwise_words(one.otherwise),
        running=one.running,
        error=one.error,
        found=one.found,
        preferences=preferences,
    )
