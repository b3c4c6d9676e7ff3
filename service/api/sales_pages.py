"""Routes of the pages of the sales history: read it, bring a file, answer, put back."""

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Annotated
from urllib.parse import urlencode
from zoneinfo import ZoneInfo

from babel import Locale
from fastapi import APIRouter, Path, Query
from fastapi.responses import HTMLResponse, RedirectResponse, Response
from starlette.background import BackgroundTask

from planner.forecast.history import COVERS, HistoryError, HistoryFault
from planner.kitchen.document import Kitchen
from service.api.forms import FormFields
from service.api.kitchens import Slug
from service.api.reading import PreferencesDep
from service.api.services import ACTOR, Services, ServicesDep
from service.api.uploads import UploadDep
from service.clock import today_in
from service.errors import Fault, InvalidError, NotFoundError
from service.sales_choices import Differ
from service.sales_csv import COLUMNS, read_lines, sales_csv
from service.sales_values import INVENTED_BY, SalesEntry, SalesWay
from service.usecases.forecasts import SalesNow, holiday_name
from service.usecases.sales import (
    SalesAskedError,
    SalesFaultsError,
    SalesImport,
    SalesWish,
    enter_covers,
    put_back_sales,
    sales_entries,
    say_closed,
    set_country,
    take_sales,
)
from web.chef.fields import BadFieldError, day, whole
from web.language import _, language, ngettext
from web.links import Choice
from web.presenters.clock import moment, short_date
from web.presenters.preferences import Preferences
from web.sales.asked_view import answers_in, asked_view
from web.sales.pages import CountryForm, EntryLine, chart_svg, render_asked, render_sales
from web.sales.view import Sold, charts_of, holidays_shown, sales_view

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_ENTRIES = 20
_TOLD = 20
_CODE = 2
_NO_COUNTRIES = frozenset({"EU", "EZ", "QO", "UN", "XA", "XB", "ZZ"})
"""Codes of two letters that the Unicode locale data name beside those of countries."""
Name = Annotated[str, Path(pattern=r"^[a-z0-9-]{1,30}$")]
Until = Annotated[dt.date | None, Query(description="The last day that is shown.")]


@router.get("/kitchens/{slug}/sales")
def show(
    slug: Slug,
    services: ServicesDep,
    preferences: PreferencesDep,
    until: Until = None,
    did: str = "",
    added: Annotated[int, Query(ge=0)] = 0,
    changed: Annotated[int, Query(ge=0)] = 0,
    same: Annotated[int, Query(ge=0)] = 0,
) -> HTMLResponse:
    """Days, what may be missing, and how forecasts would have done."""
    told = _told(did, added, changed, same)
    return HTMLResponse(_page(services, slug, preferences, until=until, told=told))


@router.get("/kitchens/{slug}/sales.csv")
def file(slug: Slug, services: ServicesDep) -> Response:
    """All that is kept, as a file that can be brought again."""
    now = services.forecasts.now(slug)
    return Response(
        sales_csv(now.kept.sales),
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="sales-{slug}.csv"'},
    )


@router.get("/kitchens/{slug}/sales/charts/{name}.svg")
def chart(slug: Slug, name: Name, services: ServicesDep) -> Response:
    """A chart, drawn when it is asked for: the page does not wait for it."""
    charts = charts_of(services.forecasts.now(slug).reviews)
    if name not in charts:
        raise NotFoundError(
            Fault(
                "chart",
                name,
                _("there is no such chart"),
                _("Choose one of: %(known)s", known=", ".join(charts) or _("none")),
            )
        )
    return Response(chart_svg(charts[name]), media_type="image/svg+xml")


@router.post("/kitchens/{slug}/sales")
def bring(
    slug: Slug, upload: UploadDep, services: ServicesDep, preferences: PreferencesDep
) -> Response:
    """Check a file; keep it unless something is wrong with it, or has to be answered first."""
    fields = upload.fields
    # A browser writes lines of a field with CR LF, as the file may have had them.
    data = fields["text"].encode() if "text" in fields else upload.data
    source = upload.name or fields.get("source", "")
    try:
        found = _taken(services, slug, data, source[:120], fields)
    except (HistoryError, SalesFaultsError) as error:
        faults = error.faults if isinstance(error, HistoryError) else error.found
        page = _page(services, slug, preferences, wrong=faults)
        return HTMLResponse(page, 422)
    except SalesAskedError as error:
        kitchen = services.forecasts.now(slug).kitchen
        names = {one.id: one.name for one in kitchen.dishes}
        asked = asked_view(
            error.unknown,
            error.compared,
            list(dict.fromkeys(one.name for one in kitchen.services)),
            {COVERS: _("Covers"), **names},
            fields,
        )
        open_names = {one.name for one in asked.names}
        page = render_asked(
            asked,
            kitchen=kitchen.name,
            nav=sales_nav(slug),
            address=sales_address(slug),
            text=data.decode("utf-8-sig"),
            source=source,
            given={
                name: text
                for name, text in fields.items()
                if name.startswith("is.") and name not in open_names
            },
        )
        return HTMLResponse(page, 409)
    return _seen(services, slug, "kept", found)


@router.post("/kitchens/{slug}/sales/day")
def one_day(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Keep the covers of a day, or that it was closed."""
    service = fields.get("service", "")
    try:
        date = day(fields.get("date", ""))
    except BadFieldError as error:
        raise _bad("date", error) from None
    if fields.get("then") == "closed":
        say_closed(services.database, slug, service, date, actor=ACTOR, now=services.now)
        return _seen(services, slug, "closed")
    try:
        covers = whole(fields.get("covers", "").strip(), example="84")
    except BadFieldError as error:
        raise _bad("covers", error) from None
    found = enter_covers(
        services.database, slug, service, date, covers, actor=ACTOR, now=services.now
    )
    return _seen(services, slug, "kept", found)


@router.post("/kitchens/{slug}/sales/back")
def back(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Bring again what stood before an entry."""
    text = fields.get("entry", "")
    number = int(text) if text.isascii() and text.isdecimal() and len(text) < 10 else 0
    put_back_sales(services.database, slug, number, actor=ACTOR, now=services.now)
    return _seen(services, slug, "back")


@router.post("/kitchens/{slug}/sales/country")
def country(
    slug: Slug, fields: FormFields, services: ServicesDep, preferences: PreferencesDep
) -> Response:
    """Say whose public holidays count."""
    code = fields.get("country", "").strip().upper()
    region = fields.get("region", "").strip().upper()
    try:
        set_country(services.database, slug, code, region, actor=ACTOR, now=services.now)
    except InvalidError as error:
        fault = error.faults[0]
        wrong = (fault.value, fault.message, fault.remedy)
        page = _page(services, slug, preferences, country=(code, region), country_wrong=wrong)
        return HTMLResponse(page, 422)
    return _seen(services, slug, "country")


def sales_address(slug: str) -> str:
    """Path of a kitchen's sales history."""
    return f"/kitchens/{slug}/sales"


def sales_nav(slug: str) -> list[Choice]:
    """Links around the history."""
    return [
        Choice(_("All plans"), "/"),
        Choice(_("Today"), f"/kitchens/{slug}"),
        Choice(_("What was sold"), sales_address(slug), current=True),
        Choice(_("What dishes cost"), f"/kitchens/{slug}/costs"),
    ]


def _taken(
    services: Services, slug: str, data: bytes, source: str, fields: Mapping[str, str]
) -> SalesImport:
    """Take a file by the answers that came with it.

    What was answered of counts that differ holds for as many as were shown: a name that has just
    been answered may bring more.
    """

    def take(differing: Differ) -> SalesImport:
        wish = SalesWish(source, answers_in(fields), differing)
        return take_sales(services.database, slug, lines, wish, actor=ACTOR, now=services.now)

    lines = read_lines(data)
    try:
        return take(Differ.ASK)
    except SalesAskedError as error:
        text, shown = fields.get("differing", ""), fields.get("shown", "")
        if error.unknown or text not in set(Differ) or shown != str(len(error.compared.differing)):
            raise
        return take(Differ(text))


def _seen(
    services: Services, slug: str, did: str, found: SalesImport | None = None
) -> RedirectResponse:
    """Back to the page; what takes long is made meanwhile."""
    told: dict[str, str | int] = {"did": did}
    if found is not None:
        told |= {"added": found.added, "changed": found.changed, "same": found.same}
    return RedirectResponse(
        f"{sales_address(slug)}?{urlencode(told)}",
        303,
        background=BackgroundTask(services.forecasts.renew, slug),
    )


def _told(did: str, added: int, changed: int, same: int) -> list[str]:
    if did == "kept":
        if not added and not changed:
            return [_("Nothing new: all of it was kept already.")]
        told = [ngettext("%(n)s count is kept.", "%(n)s counts are kept.", added)] if added else []
        if changed:
            told.append(
                ngettext(
                    "%(n)s count replaced another; it can be put back.",
                    "%(n)s counts replaced others; they can be put back.",
                    changed,
                )
            )
        if same:
            told.append(ngettext("%(n)s was kept already.", "%(n)s were kept already.", same))
        return told
    words = {
        "closed": _("Kept that it was closed: nobody asks for it again."),
        "back": _("Put back: what stood before holds again."),
        "country": _("Saved, as the next version of the kitchen file."),
    }
    return [words[did]] if did in words else []


def _page(
    services: Services,
    slug: str,
    preferences: Preferences,
    *,
    until: dt.date | None = None,
    told: Sequence[str] = (),
    wrong: Sequence[HistoryFault] = (),
    country: tuple[str, str] | None = None,
    country_wrong: tuple[str, str, str] | None = None,
) -> str:
    now = services.forecasts.now(slug)
    kitchen = now.kitchen
    entries = sales_entries(services.database, slug)
    days = holidays_shown(now.history, until)
    sold = Sold(
        history=now.history,
        services=tuple(one.service for one in now.reviews),
        reviews=now.reviews,
        names={one.id: one.name for one in kitchen.dishes},
        holidays={date: holiday_name(kitchen, date) for date in days if date in now.holidays},
        closed=now.kept.closed,
    )
    return render_sales(
        sales_view(sold, until),
        kitchen=kitchen.name,
        nav=sales_nav(slug),
        address=sales_address(slug),
        entries=_entries(entries, kitchen, preferences),
        country=_country(kitchen, country, country_wrong),
        example=_example(now, today_in(kitchen.time_zone, services.now)),
        known=_services(now),
        told=told,
        wrong=wrong[:_TOLD],
        more_wrong=max(0, len(wrong) - _TOLD),
        invented=any(one.actor == INVENTED_BY for one in entries),
    )


def _services(now: SalesNow) -> list[str]:
    """Services whose covers may be entered: banquets are agreed, not forecast."""
    of_file = (one.name for one in now.kitchen.services if not one.guaranteed)
    return list(dict.fromkeys((*of_file, *now.history.sold)))


def _example(now: SalesNow, today: dt.date) -> list[str]:
    """How a file of this kitchen begins."""
    service = next(
        (one for one in now.kitchen.services if not one.guaranteed), now.kitchen.services[0]
    )
    date = today - dt.timedelta(1)
    dish = service.mix[0]
    portions = round(service.covers * dish.per_cover)
    return [
        ",".join(COLUMNS),
        f"{date},{service.name},{COVERS},{service.covers}",
        f"{date},{service.name},{dish.dish},{portions}",
    ]


def _entries(
    entries: Sequence[SalesEntry], kitchen: Kitchen, preferences: Preferences
) -> list[EntryLine]:
    zone = ZoneInfo(kitchen.time_zone)
    undone = {one.puts_back for one in entries}
    return [
        EntryLine(
            moment(one.at, zone, preferences),
            _entry_words(one) + (" " + _("It was put back.") if one.number in undone else ""),
            0 if one.number in undone or one.way is SalesWay.BACK else one.number,
        )
        for one in entries[:_ENTRIES]
    ]


def _entry_words(one: SalesEntry) -> str:
    days = (
        short_date(one.first)
        if one.first == one.last
        else _("%(first)s to %(last)s", first=short_date(one.first), last=short_date(one.last))
    )
    if one.way is SalesWay.BACK:
        return _("entry %(n)s, put entry %(back)s back.", n=one.number, back=one.puts_back)
    if one.way is SalesWay.CLOSED:
        return _(
            "entry %(n)s, closed on %(days)s (%(who)s).", n=one.number, days=days, who=one.actor
        )
    values = {
        "n": one.number,
        "source": one.source or _("entered by hand"),
        "days": days,
        "added": one.added,
        "changed": one.changed,
        "who": one.actor,
    }
    if one.changed:
        return _(
            "entry %(n)s, %(source)s, %(days)s: %(added)s new, %(changed)s replaced (%(who)s).",
            **values,
        )
    return _("entry %(n)s, %(source)s, %(days)s: %(added)s new (%(who)s).", **values)


def _country(
    kitchen: Kitchen,
    typed: tuple[str, str] | None,
    wrong: tuple[str, str, str] | None,
) -> CountryForm:
    # Every one: which of them holidays are known of takes a second to find out.
    listed = sorted(
        (
            (code, str(name))
            for code, name in Locale.parse(language()).territories.items()
            if len(code) == _CODE and code.isalpha() and code not in _NO_COUNTRIES
        ),
        key=lambda one: one[1],
    )
    code, region = typed or (kitchen.country or "", kitchen.region or "")
    return CountryForm(listed, code, region, wrong or ("", "", ""))


def _bad(name: str, error: BadFieldError) -> InvalidError:
    one = error.error
    return InvalidError(Fault(name, one.value, one.message, one.remedy))
