"""Routes of the floor's pages: what people look at while a released plan is worked."""

from dataclasses import dataclass
from importlib.resources import files
from typing import Annotated

from fastapi import APIRouter, Depends, Path
from fastapi.responses import FileResponse, HTMLResponse, Response

from service.api.floor import Day
from service.api.kitchens import Slug
from service.api.reading import PreferencesDep
from service.api.services import ServicesDep
from service.errors import Fault, NotFoundError
from service.usecases.floor import FloorNow, floor_now
from web.assets import assets_version
from web.floor.links import WORKER, FloorLinks
from web.floor.pages import render_floor_cook, render_floor_home, render_floor_wall
from web.language import _
from web.presenters.preferences import Preferences
from web.review.csv_rows import review_csv
from web.review.pages import render_review

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)


@dataclass(frozen=True, slots=True)
class _Page:
    """What all pages of one day's floor have in common."""

    now: FloorNow
    links: FloorLinks
    preferences: Preferences


def _page(
    slug: Slug,
    date: Day,
    services: ServicesDep,
    preferences: PreferencesDep,
) -> _Page:
    now = floor_now(services.database, services.released, slug, date, now=services.now)
    links = links_of(now)
    return _Page(now, links, preferences)


def links_of(now: FloorNow) -> FloorLinks:
    """Addresses of a day's floor, as it stands."""
    base = f"/floor/{now.release.kitchen}/{now.release.date}"
    return FloorLinks(
        base=base,
        ticks=f"/api/v1{base}/ticks",
        release=now.release.number,
        version=now.version,
        assets=f"/static/{assets_version()}",
        midnight=now.plan.midnight.timestamp(),
        bench=f"/kitchens/{now.release.kitchen}/bench",
    )


PageDep = Annotated[_Page, Depends(_page)]


@router.get(WORKER)
def worker() -> Response:
    """The service worker: served from here, since it may only keep pages beside and below it."""
    return FileResponse(
        str(files("web").joinpath("static/worker.js")),
        media_type="text/javascript",
        headers={"Service-Worker-Allowed": "/floor/"},
    )


@router.get("/floor/{slug}/{date}")
def home(page: PageDep) -> HTMLResponse:
    """Choose your name."""
    now = page.now
    return HTMLResponse(
        render_floor_home(now.plan.sheet, now.floor, page.links, preferences=page.preferences)
    )


@router.get("/floor/{slug}/{date}/cooks/{cook}")
def cook(cook: Annotated[str, Path(max_length=60)], page: PageDep) -> HTMLResponse:
    """A cook's live page."""
    now = page.now
    if cook not in now.plan.cooks:
        known = ", ".join(sorted(now.plan.cooks))
        remedy = _("Choose one of: %(known)s", known=known)
        raise NotFoundError(Fault("cook", cook, _("is not on this sheet"), remedy))
    return HTMLResponse(
        render_floor_cook(
            now.plan.sheet,
            cook,
            now.floor,
            page.links,
            now=now.now,
            preferences=page.preferences,
        )
    )


@router.get("/floor/{slug}/{date}/wall")
def wall(page: PageDep) -> HTMLResponse:
    """The live page for a screen on the wall."""
    now = page.now
    return HTMLResponse(
        render_floor_wall(
            now.plan.sheet, now.floor, page.links, now=now.now, preferences=page.preferences
        )
    )


@router.get("/floor/{slug}/{date}/review")
def review(page: PageDep, services: ServicesDep) -> HTMLResponse:
    """Planned against ticked minutes."""
    mine = page.now.release
    found = services.histories.of(mine.kitchen, mine.date, mine.date, now=services.now)
    day = next(iter(found.days), None)
    return HTMLResponse(
        render_review(
            page.now.plan.sheet,
            page.now.floor,
            table_href=f"{page.links.base}/review.csv",
            floor_href=page.links.home,
            history_href=f"/kitchens/{page.now.release.kitchen}/labor",
            release=page.now.release.number,
            preferences=page.preferences,
            day=day,
            over=mine.date < found.today,
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
