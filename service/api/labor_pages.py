"""Routes of the manager's pages over days and weeks, with their charts and files."""

import datetime as dt
from collections.abc import Iterable
from typing import Annotated

from fastapi import APIRouter, Depends, Path, Query
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from service.api.kitchens import Slug
from service.api.reading import PreferencesDep
from service.api.services import ServicesDep
from service.errors import Fault, NotFoundError
from service.usecases.history import LaborHistory
from web.language import _
from web.review.history_csv import batches_csv, sums_csv, variance_csv
from web.review.history_view import charts_of
from web.review.pages import (
    LaborLinks,
    LaborRange,
    chart_svg,
    monday_of,
    render_history,
    render_week,
)

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_FILES = {"batches": batches_csv, "sums": sums_csv, "variance": variance_csv}
First = Annotated[dt.date, Path(description="The first day, ISO 8601.")]
Last = Annotated[dt.date, Path(description="The last day, ISO 8601.")]
Name = Annotated[str, Path(pattern=r"^[a-z-]{1,30}$")]


@router.get("/kitchens/{slug}/labor")
def usual(
    slug: Slug,
    services: ServicesDep,
    first: Annotated[dt.date | None, Query(alias="from")] = None,
    last: Annotated[dt.date | None, Query(alias="to")] = None,
) -> Response:
    """The range that was picked, or the last weeks."""
    found = services.histories.of(slug, first, last, now=services.now)
    return RedirectResponse(_links(slug).range(found.first, found.last), 303)


@router.get("/kitchens/{slug}/labor/week/{date}")
def week(
    slug: Slug, date: dt.date, services: ServicesDep, preferences: PreferencesDep
) -> HTMLResponse:
    """The week that a day lies in, for paper."""
    monday = monday_of(date)
    found = services.histories.of(slug, monday, monday + dt.timedelta(6), now=services.now)
    return HTMLResponse(render_week(_range(found), _links(slug), preferences))


def _found(slug: Slug, first: First, last: Last, services: ServicesDep) -> LaborHistory:
    return services.histories.of(slug, first, last, now=services.now)


FoundDep = Annotated[LaborHistory, Depends(_found)]


@router.get("/kitchens/{slug}/labor/{first}/{last}")
def labor(found: FoundDep, preferences: PreferencesDep) -> HTMLResponse:
    """Planned and worked minutes of a range of days."""
    return HTMLResponse(render_history(_range(found), _links(found.slug), preferences))


@router.get("/kitchens/{slug}/labor/{first}/{last}/charts/{name}.svg")
def chart(name: Name, found: FoundDep) -> Response:
    """A chart of the range, drawn when it is asked for: the page does not wait for it."""
    charts = charts_of(found.days, found.today)
    if name not in charts:
        wrong = _("there is no such chart of these days")
        raise NotFoundError(Fault("chart", name, wrong, _one_of(charts)))
    return Response(chart_svg(charts[name]), media_type="image/svg+xml")


@router.get("/kitchens/{slug}/labor/{first}/{last}/{name}.csv")
def file(name: Name, found: FoundDep) -> Response:
    """The range as a file for a spreadsheet."""
    if name not in _FILES:
        wrong = _("there is no such file of these days")
        raise NotFoundError(Fault("file", name, wrong, _one_of(_FILES)))
    called = f"{name}-{found.slug}-{found.first}-{found.last}.csv"
    return Response(
        _FILES[name](found.days),
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{called}"'},
    )


def _one_of(known: Iterable[str]) -> str:
    names = ", ".join(known)
    return _("Choose one of: %(known)s", known=names or _("none: nothing was worked"))


def _links(slug: str) -> LaborLinks:
    return LaborLinks(
        base=f"/kitchens/{slug}/labor", kitchen=f"/kitchens/{slug}", floor=f"/floor/{slug}"
    )


def _range(found: LaborHistory) -> LaborRange:
    return LaborRange(
        found.kitchen, found.first, found.last, found.today, found.known, found.days, found.invented
    )
