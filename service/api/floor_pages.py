"""Routes of the floor's pages: what people look at while a released plan is worked."""

import datetime as dt
from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Depends, Query
from fastapi.responses import HTMLResponse, Response

from service.api.floor import Day
from service.api.kitchens import Slug
from service.api.pages import Clock, Units
from service.api.services import ServicesDep
from service.usecases.floor import FloorNow, floor_now
from web.presenters.preferences import Preferences
from web.review.csv_rows import review_csv
from web.review.pages import render_review

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)


@dataclass(frozen=True, slots=True)
class _Page:
    """What all pages of one day's floor have in common."""

    now: FloorNow
    base: str
    preferences: Preferences


def _page(
    slug: Slug,
    date: Day,
    services: ServicesDep,
    units: Annotated[Units, Query()] = "metric",
    clock: Annotated[Clock, Query()] = "24",
) -> _Page:
    now = floor_now(services.database, services.released, slug, date, now=services.now)
    return _Page(now, _base(slug, date), Preferences(units, 12 if clock == "12" else 24))


PageDep = Annotated[_Page, Depends(_page)]


@router.get("/floor/{slug}/{date}/review")
def review(page: PageDep) -> HTMLResponse:
    """Planned against ticked minutes."""
    return HTMLResponse(
        render_review(
            page.now.plan.sheet,
            page.now.floor,
            table_href=f"{page.base}/review.csv",
            release=page.now.release.number,
            preferences=page.preferences,
        )
    )


@router.get("/floor/{slug}/{date}/review.csv")
def review_file(page: PageDep) -> Response:
    """The same, every batch in a row of a file."""
    release = page.now.release
    name = f"batches-{release.kitchen}-{release.date}.csv"
    return Response(
        review_csv(page.now.plan.sheet, page.now.floor, release.number),
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )


def _base(slug: str, date: dt.date) -> str:
    return f"/floor/{slug}/{date}"
