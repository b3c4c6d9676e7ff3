"""Routes of what dishes cost, by the file and by a day's plan."""

import datetime as dt
from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, Response

from service.api.days import day_address
from service.api.kitchens import Slug
from service.api.pages import PageDep
from service.api.reading import PreferencesDep
from service.api.services import ServicesDep
from service.errors import Fault, NotFoundError
from service.usecases.costs import costs_now
from web.language import _
from web.links import Choice
from web.money.csv_rows import costs_csv
from web.money.day_view import day_csv
from web.money.pages import render_costs, render_day_costs

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

Week = Annotated[dt.date | None, Query(description="A day of the week; default: today.")]
_WEEK = dt.timedelta(7)


@router.get("/kitchens/{slug}/costs")
def show(
    slug: Slug, services: ServicesDep, preferences: PreferencesDep, week: Week = None
) -> HTMLResponse:
    """Dishes, waste, and what a yield point or a minute is worth."""
    costs = costs_now(services.database, slug, week, now=services.now)
    base = f"/kitchens/{slug}/costs"
    nav = [
        Choice(_("All plans"), "/"),
        Choice(_("The day"), day_address(slug, week) if week else f"/kitchens/{slug}"),
        Choice(_("What dishes cost"), base, current=True),
    ]
    if costs.week > dt.date.min + _WEEK:
        nav.append(Choice(_("Week before"), f"{base}?week={costs.week - _WEEK}"))
    if costs.week < dt.date.max - 2 * _WEEK:
        nav.append(Choice(_("Week after"), f"{base}?week={costs.week + _WEEK}"))
    return HTMLResponse(
        render_costs(
            costs,
            nav=nav,
            table_href=f"{base}.csv?week={costs.week}",
            preferences=preferences,
        )
    )


@router.get("/kitchens/{slug}/costs.csv")
def table(slug: Slug, services: ServicesDep, week: Week = None) -> Response:
    """The same dishes in a file, line by line."""
    costs = costs_now(services.database, slug, week, now=services.now)
    return Response(
        costs_csv(costs),
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="costs-{slug}.csv"'},
    )


@router.get("/plans/{plan_id}/costs")
def day(page: PageDep) -> HTMLResponse:
    """What the dishes and components of a plan cost."""
    return HTMLResponse(
        render_day_costs(
            page.sheet,
            page.links,
            table_href=f"{page.links.costs}.csv",
            preferences=page.preferences,
        )
    )


@router.get("/plans/{plan_id}/costs.csv")
def day_table(page: PageDep) -> Response:
    """The same in a file."""
    costs = page.sheet.costs
    if costs is None:
        raise NotFoundError(
            Fault(
                "plan",
                page.sheet.date.isoformat(),
                _("This plan was made before costs were counted."),
                _("Build the day again to see them."),
            )
        )
    return Response(
        day_csv(page.sheet, costs),
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="costs-{page.sheet.date}.csv"'},
    )
