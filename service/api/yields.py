"""Routes of the kitchen's yields in use: read them, answer, decide, put back."""

import datetime as dt
from collections.abc import Mapping
from typing import Annotated
from zoneinfo import ZoneInfo

from fastapi import APIRouter, Query
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from planner.yields.judging import Answer
from service.api.bench import bench_address, bench_nav, yields_address
from service.api.forms import FormFields
from service.api.kitchens import Slug
from service.api.reading import PreferencesDep
from service.api.services import ACTOR, ServicesDep
from service.errors import Fault, InvalidError
from service.usecases.yield_decisions import (
    Wish,
    count_since,
    enter_by_hand,
    put_back,
    set_pulling,
    take_tests,
    take_trim,
    use_usual,
    use_usual_trim,
)
from service.usecases.yield_lessons import YieldLine, YieldsNow, yields_now
from service.usecases.yield_tests import answer_test, gather_floor_tests
from service.yield_values import YieldDecision
from web.bench.pages import render_yields
from web.bench.yields_view import DecisionEntry, YieldEntry, yields_view
from web.chef.fields import BadFieldError, day, decimal
from web.language import _
from web.presenters.clock import moment
from web.presenters.preferences import Preferences

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_REASON = 200


@router.get("/kitchens/{slug}/yields")
def show(
    slug: Slug,
    services: ServicesDep,
    preferences: PreferencesDep,
    decided: Annotated[int | None, Query(ge=1)] = None,
) -> HTMLResponse:
    """The yields in use, after what the floor has weighed since was looked at."""
    gather_floor_tests(services.database, services.released, slug, now=services.now)
    now = yields_now(services.database, slug, now=services.now)
    level = now.kitchen.rules.pull_level
    page = render_yields(
        now.kitchen.name,
        yields_view(
            [_entry(now, line, preferences) for line in now.lines],
            "lb" if preferences.units == "us" else "g",
        ),
        nav=bench_nav(slug, 2),
        address=yields_address(slug),
        bench=bench_address(slug),
        level=level,
        by_rule=now.kitchen.rules.learns_yields,
        told=_("Decision %(n)s is kept. The next plan pulls by it.", n=decided) if decided else "",
    )
    return HTMLResponse(page)


@router.post("/kitchens/{slug}/yields/take")
def take(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Use what the tests say."""
    made = take_tests(services.database, slug, _wish(fields), actor=ACTOR, now=services.now)
    return _seen(slug, made, fields)


@router.post("/kitchens/{slug}/yields/take-trim")
def take_shares(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Use the shares of the trim that the tests say."""
    made = take_trim(services.database, slug, _wish(fields), actor=ACTOR, now=services.now)
    return _seen(slug, made, fields)


@router.post("/kitchens/{slug}/yields/usual-trim")
def usual_shares(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Go back to the usual shares of the trim."""
    made = use_usual_trim(services.database, slug, _wish(fields), actor=ACTOR, now=services.now)
    return _seen(slug, made, fields)


@router.post("/kitchens/{slug}/yields/hand")
def hand(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Use a figure that is entered."""
    try:
        fraction = decimal(fields.get("percent", "").strip(), example="84") / 100
    except BadFieldError as error:
        raise _bad("percent", error) from None
    made = enter_by_hand(
        services.database, slug, _wish(fields), fraction, actor=ACTOR, now=services.now
    )
    return _seen(slug, made, fields)


@router.post("/kitchens/{slug}/yields/usual")
def usual(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Go back to the usual figure."""
    made = use_usual(services.database, slug, _wish(fields), actor=ACTOR, now=services.now)
    return _seen(slug, made, fields)


@router.post("/kitchens/{slug}/yields/since")
def since(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Count tests from a day on, or all of them."""
    text = fields.get("since", "")
    try:
        first: dt.date | None = day(text) if text else None
    except BadFieldError as error:
        raise _bad("since", error) from None
    made = count_since(services.database, slug, _wish(fields), first, actor=ACTOR, now=services.now)
    return _seen(slug, made, fields)


@router.post("/kitchens/{slug}/yields/back")
def back(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Bring again what stood before a decision."""
    number = fields.get("decision", "")
    made = put_back(
        services.database,
        slug,
        int(number) if number.isascii() and number.isdecimal() else 0,
        fields.get("reason", "")[:_REASON],
        actor=ACTOR,
        now=services.now,
    )
    return _seen(slug, made, fields)


@router.post("/kitchens/{slug}/yields/pulling")
def pulling(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Set how cautiously food is pulled, and whether tests decide by rule."""
    try:
        level = decimal(fields.get("level", "").strip(), example="75") / 100
    except BadFieldError as error:
        raise _bad("level", error) from None
    set_pulling(
        services.database,
        slug,
        level,
        by_rule=fields.get("by_rule") == "yes",
        actor=ACTOR,
        now=services.now,
    )
    return _seen(slug, None, fields)


@router.post("/kitchens/{slug}/yields/answer")
def answer(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Say whether a test counts."""
    said = fields.get("answer", "")
    if said not in {Answer.COUNTS.value, Answer.LEFT_OUT.value}:
        raise InvalidError(
            Fault("answer", said[:60], _("this is no answer"), _("Send 'counts' or 'left out'"))
        )
    answer_test(
        services.database,
        slug,
        fields.get("test", ""),
        Answer(said),
        fields.get("reason", "")[:_REASON],
        actor=ACTOR,
        now=services.now,
    )
    return _seen(slug, None, fields)


def _seen(slug: str, decided: int | None, fields: Mapping[str, str]) -> Response:
    query = f"?decided={decided}" if decided else ""
    place = fields.get("of", "").replace("/", "-")
    anchor = f"#{place}" if place else ""
    return RedirectResponse(f"{yields_address(slug)}{query}{anchor}", 303)


def _wish(fields: Mapping[str, str]) -> Wish:
    return Wish(fields.get("of", ""), " ".join(fields.get("reason", "").split())[:_REASON])


def _bad(name: str, error: BadFieldError) -> InvalidError:
    said = error.error
    return InvalidError(Fault(name, said.value, said.message, said.remedy))


def _entry(now: YieldsNow, line: YieldLine, preferences: Preferences) -> YieldEntry:
    zone = ZoneInfo(now.kitchen.time_zone)
    return YieldEntry(
        known=line.known,
        lesson=line.lesson,
        drifts=line.drifts,
        proposal=line.proposal,
        trim_proposal=line.trim_proposal,
        own=line.state.own,
        since=line.state.since,
        decisions=tuple(_decision(one, zone, preferences) for one in line.decisions),
        overruled=line.overruled,
        links={
            key: f"{bench_address(now.slug)}/{test.number}"
            for key, test in line.tests.items()
            if test.number is not None
        },
    )


def _decision(one: YieldDecision, zone: dt.tzinfo, preferences: Preferences) -> DecisionEntry:
    return DecisionEntry(
        number=one.number,
        when=moment(one.created_at, zone, preferences),
        who=one.created_by,
        way=one.way,
        before=one.before.own,
        after=one.after.own,
        since_before=one.before.since,
        since_after=one.after.since,
        reason=one.reason,
        trim_before=one.before.trim,
        trim_after=one.after.trim,
    )
