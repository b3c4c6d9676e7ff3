"""Routes of the day's page: covers and mix, who is in, what is on hand."""

import datetime as dt
from collections.abc import Mapping
from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from planner.entry.edit import EntryErrors
from planner.forecast.outlook import DayOutlook
from service.api.floor import Day
from service.api.forms import FormFields
from service.api.kitchens import Slug
from service.api.reading import PreferencesDep
from service.api.services import ACTOR, ServicesDep
from service.errors import StaleError
from service.usecases.days import (
    DayNow,
    ServicesOf,
    day_now,
    kitchen_today,
    save_day,
    take_services,
)
from service.usecases.plans import request_plan
from service.usecases.yield_tests import gather_floor_tests
from service.values import PlanState, PlanSummary
from web.chef.day_form import form_errors, read_day_form
from web.chef.day_view import LastWeek, day_view
from web.chef.fields import BadFieldError, FieldError, day, whole
from web.chef.pages import PlanLink, TakableDay, render_day
from web.chef.usual_view import taken_over
from web.language import _
from web.links import Choice
from web.presenters.clock import moment, short_date, time_of_day
from web.presenters.plans import state_words
from web.presenters.preferences import Preferences
from web.sentences import said

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_LEFT = "shifts"


@router.get("/kitchens/{slug}")
def today(slug: Slug, services: ServicesDep) -> Response:
    """The kitchen's today."""
    date = kitchen_today(services.database, slug, now=services.now)
    return RedirectResponse(day_address(slug, date), 303)


@router.get("/kitchens/{slug}/days")
def another(slug: Slug, date: Annotated[dt.date, Query()]) -> Response:
    """The day that was picked."""
    return RedirectResponse(day_address(slug, date), 303)


@router.get("/kitchens/{slug}/days/{date}")
def show(
    slug: Slug,
    date: Day,
    services: ServicesDep,
    preferences: PreferencesDep,
    saved: Annotated[int | None, Query(ge=1)] = None,
    left: str = "",
) -> HTMLResponse:
    """What stands for the day."""
    now = day_now(services.database, slug, date, now=services.now)
    told = []
    if saved is not None:
        told.append(
            _("Saved, version %(version)s of the kitchen file.", version=saved)
            if saved == now.version
            else _(
                "Saved as version %(version)s; someone has changed the file since.", version=saved
            )
        )
    if left == _LEFT:
        told.append(
            _(
                "Breaks and times on the line that do not fit the changed hours are left out or "
                "cut short: look at the cooks."
            )
        )
    outlook = services.forecasts.of_day(slug, date)
    return HTMLResponse(_page(now, date, preferences, outlook, told=told))


@router.post("/kitchens/{slug}/days/{date}")
def save(
    slug: Slug,
    date: Day,
    fields: FormFields,
    services: ServicesDep,
    preferences: PreferencesDep,
) -> Response:
    """Save what was entered, and ask for a plan of it where that was wished for."""
    now = day_now(services.database, slug, date, now=services.now)
    outlook = services.forecasts.of_day(slug, date)
    if "take" in fields:
        return _taken(now, date, fields, preferences, outlook)
    read = read_day_form(now.entries, fields, preferences)
    errors = dict(read.errors)
    try:
        done = save_day(
            services.database,
            slug,
            date,
            _version(fields),
            read.entered,
            actor=ACTOR,
            now=services.now,
            only_check=bool(errors),
        )
    except StaleError:
        return HTMLResponse(
            _page(
                now,
                date,
                preferences,
                outlook,
                typed=fields,
                errors=errors,
                stale=_who(now, preferences),
            ),
            409,
        )
    except EntryErrors as found:
        errors = {**form_errors(found), **errors}
    if errors:
        page = _page(now, date, preferences, outlook, typed=fields, errors=errors)
        return HTMLResponse(page, 422)
    if fields.get("then") == "build":
        gather_floor_tests(services.database, services.released, slug, now=services.now)
        plan = request_plan(
            services.database, slug, date, services.choices, actor=ACTOR, now=services.now
        )
        services.queue.submit(plan.id)
        return RedirectResponse(f"/plans/{plan.id}/build", 303)
    tail = f"&left={_LEFT}" if done.notes else ""
    return RedirectResponse(f"{day_address(slug, date)}?saved={done.version}{tail}", 303)


@router.post("/kitchens/{slug}/days/{date}/services")
def take(
    slug: Slug,
    date: Day,
    fields: FormFields,
    services: ServicesDep,
    preferences: PreferencesDep,
) -> Response:
    """Take over another day's services."""
    try:
        source = day(fields.get("source", ""))
        done = take_services(
            services.database,
            slug,
            date,
            _version(fields),
            source,
            actor=ACTOR,
            now=services.now,
        )
    except StaleError:
        now = day_now(services.database, slug, date, now=services.now)
        outlook = services.forecasts.of_day(slug, date)
        page = _page(now, date, preferences, outlook, stale=_who(now, preferences))
        return HTMLResponse(page, 409)
    except BadFieldError as error:
        now = day_now(services.database, slug, date, now=services.now)
        outlook = services.forecasts.of_day(slug, date)
        page = _page(now, date, preferences, outlook, errors={"source": error.error})
        return HTMLResponse(page, 422)
    return RedirectResponse(f"{day_address(slug, date)}?saved={done.version}", 303)


def _taken(
    now: DayNow,
    date: dt.date,
    fields: Mapping[str, str],
    preferences: Preferences,
    outlook: DayOutlook,
) -> HTMLResponse:
    """The form with what is usual in it, to be looked at and saved, or not."""
    typed = taken_over(now.entries, outlook, fields["take"], fields)
    if _version(fields) != now.version:
        stale = _who(now, preferences)
        return HTMLResponse(_page(now, date, preferences, outlook, typed=typed, stale=stale), 409)
    told = [_("What is usual stands in the form now. Nothing is saved yet: look it over and save.")]
    return HTMLResponse(_page(now, date, preferences, outlook, typed=typed, told=told))


def _page(
    now: DayNow,
    date: dt.date,
    preferences: Preferences,
    outlook: DayOutlook,
    *,
    typed: Mapping[str, str] | None = None,
    errors: Mapping[str, FieldError] | None = None,
    told: list[str] | None = None,
    stale: str = "",
) -> str:
    view = day_view(now.entries, _last_week(now), typed, errors, preferences, outlook)
    return render_day(
        view,
        nav=day_nav(now.slug, date, released=now.released is not None),
        address=f"/kitchens/{now.slug}/days",
        sales_href=f"/kitchens/{now.slug}/sales",
        date=date,
        version=now.version,
        plans=[_plan_link(plan, now, number, preferences) for number, plan in enumerate(now.plans)],
        takable=[_takable(one) for one in now.takable],
        told=told or (),
        stale=stale,
    )


def day_nav(
    slug: str, date: dt.date, *, released: bool = False, current: bool = True
) -> list[Choice]:
    """Links around a day: all plans, the day before and after, and the floor where it works."""
    one = dt.timedelta(1)
    found = [Choice(_("All plans"), "/")]
    if date > dt.date.min:
        found.append(
            Choice(f"\N{LEFTWARDS ARROW} {short_date(date - one)}", day_address(slug, date - one))
        )
    found.append(Choice(short_date(date), day_address(slug, date), current=current))
    if date < dt.date.max:
        found.append(
            Choice(f"{short_date(date + one)} \N{RIGHTWARDS ARROW}", day_address(slug, date + one))
        )
    if released:
        found.append(Choice(_("On the floor"), f"/floor/{slug}/{date}"))
    found.append(Choice(_("What was sold"), f"/kitchens/{slug}/sales"))
    found.append(Choice(_("Yields"), f"/kitchens/{slug}/yields"))
    found.append(Choice(_("Learned rates"), f"/kitchens/{slug}/rates"))
    found.append(Choice(_("What dishes cost"), f"/kitchens/{slug}/costs?week={date}"))
    return found


def day_address(slug: str, date: dt.date) -> str:
    """Path of a day's page."""
    return f"/kitchens/{slug}/days/{date}"


def _version(fields: Mapping[str, str]) -> int:
    """The version the form was about; 0, which is no version, where it does not say."""
    try:
        return whole(fields.get("version", ""), example="1")
    except BadFieldError:
        return 0


def _who(now: DayNow, preferences: Preferences) -> str:
    return _(
        "Version %(version)s was stored at %(time)s (%(who)s).",
        version=now.version,
        time=time_of_day(now.changed_at.astimezone(now.zone).time(), preferences),
        who=now.changed_by,
    )


def _last_week(now: DayNow) -> LastWeek | None:
    if now.last_week is None:
        return None
    return LastWeek(
        now.last_week.date,
        {one["name"]: one["covers"] for one in now.last_week.services},
        {
            (one["name"], line["dish"]): line["per_cover"]
            for one in now.last_week.services
            for line in one["mix"]
        },
    )


def _takable(one: ServicesOf) -> TakableDay:
    names = ", ".join(f"{service['name']} {service['covers']}" for service in one.services)
    return TakableDay(one.date.isoformat(), f"{short_date(one.date)}: {names}")


def _plan_link(plan: PlanSummary, now: DayNow, number: int, preferences: Preferences) -> PlanLink:
    notes = []
    if now.released and now.released[0] == str(plan.id):
        notes.append(_("On the floor, release %(number)s.", number=now.released[1]))
    if plan.kitchen_version != now.version and number == 0:
        notes.append(
            _(
                "Made from version %(version)s of the kitchen file, which has changed since.",
                version=plan.kitchen_version,
            )
        )
    if plan.error:
        notes.append(said(plan.error))
    # What is not done is looked on at; what is, is read.
    tail = "" if plan.state is PlanState.DONE else "/build"
    return PlanLink(
        f"/plans/{plan.id}{tail}",
        _("Plan of %(moment)s", moment=moment(plan.created_at, now.zone, preferences)),
        state_words(plan.state),
        " ".join(notes),
    )
