"""Routes of releases for people: what one changes, before it is made and after."""

from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from service.api.days import day_address, day_nav
from service.api.floor import Day, topic_of
from service.api.kitchens import Slug
from service.api.plans import PlanId
from service.api.reading import PreferencesDep
from service.api.services import ACTOR, ServicesDep
from service.floor_values import Release
from service.usecases.floor import release_plan
from service.usecases.releases import ToRelease, plan_to_release, released
from service.values import PlanState
from web.chef.pages import render_release
from web.language import _
from web.links import Choice, Links
from web.presenters.clock import moment

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)


@router.get("/plans/{plan_id}/release")
def preview(plan_id: PlanId, services: ServicesDep, preferences: PreferencesDep) -> HTMLResponse:
    """What releasing the plan changes, and the button that does it."""
    found = plan_to_release(services.database, plan_id)
    plan, before = found.plan, found.before
    on_floor = before is not None and before.plan_id == plan_id
    told = _hindrances(found) if not on_floor else []
    return HTMLResponse(
        render_release(
            heading=_("On the floor already") if on_floor else _("Release this plan?"),
            what=_compared_with(before) if not on_floor else _("What cooks work from"),
            sheet=found.sheet,
            before=None if on_floor else found.before_sheet,
            links=Links.under(f"/plans/{plan_id}"),
            nav=day_nav(plan.kitchen, plan.date, released=before is not None, current=False),
            told=told,
            act="" if told or on_floor else f"/plans/{plan_id}/release",
            choices=[
                Choice(_("Read the sheet"), f"/plans/{plan_id}"),
                Choice(_("Back to the day"), day_address(plan.kitchen, plan.date)),
            ],
            preferences=preferences,
        )
    )


@router.post("/plans/{plan_id}/release")
def release(plan_id: PlanId, services: ServicesDep) -> Response:
    """Give the plan to the floor."""
    made = release_plan(services.database, plan_id, actor=ACTOR, now=services.now)
    services.bell.ring(topic_of(made.kitchen, made.date))
    return RedirectResponse(f"/floor/{made.kitchen}/{made.date}/changes", 303)


@router.get("/floor/{slug}/{date}/changes")
def changes(
    slug: Slug,
    date: Day,
    services: ServicesDep,
    preferences: PreferencesDep,
    release: Annotated[int | None, Query(ge=1)] = None,
) -> HTMLResponse:
    """What a release changed for whom."""
    found = released(services.database, slug, date, release)
    mine, before = found.release, found.before
    zone = services.released.of(mine.plan_id).zone
    address = f"/floor/{slug}/{date}/changes"
    choices = [
        Choice(_("The cooks' pages"), f"/floor/{slug}/{date}"),
        Choice(_("Read the sheet"), f"/plans/{mine.plan_id}"),
        Choice(_("Print"), f"/plans/{mine.plan_id}/print"),
    ]
    if before is not None:
        choices.append(_of_release(before.number, address))
    if mine.number < found.newest:
        choices.append(_of_release(mine.number + 1, address))
    choices.append(Choice(_("Back to the day"), day_address(slug, date)))
    return HTMLResponse(
        render_release(
            heading=_("Release %(number)s", number=mine.number),
            what=_compared_with(before),
            sheet=found.sheet,
            before=found.before_sheet,
            links=Links.under(f"/plans/{mine.plan_id}"),
            nav=day_nav(slug, date, released=True, current=False),
            told=[
                _(
                    "Given to the floor %(moment)s.",
                    moment=moment(mine.created_at, zone, preferences),
                )
            ]
            + (
                [_("Release %(number)s is newer: cooks work from that.", number=found.newest)]
                if mine.number < found.newest
                else []
            ),
            choices=choices,
            preferences=preferences,
        )
    )


def _of_release(number: int, address: str) -> Choice:
    return Choice(_("Release %(number)s", number=number), f"{address}?release={number}")


def _hindrances(found: ToRelease) -> list[str]:
    """Why the plan cannot be released now, as the releasing itself would say."""
    if found.plan.state is not PlanState.DONE:
        return [_("It is still being made: wait until it is done, or stop its search.")]
    before = found.before
    if before is not None and found.said and found.plan.after_release != before.number:
        return [
            _(
                "Work of release %(number)s has begun, which this plan knows nothing of. Say on "
                "the floor's page what has happened, and the rest is planned from where it is.",
                number=before.number,
            )
        ]
    return []


def _compared_with(before: Release | None) -> str:
    if before is None:
        return _("The first release of this day")
    return _("What changes against release %(number)s", number=before.number)
