"""Days that were planned, released and ticked, put straight into a database."""

import datetime as dt
from dataclasses import replace
from typing import Any

from planner.kitchen.reading import read_kitchen
from planner.sheet.types import KitchenSheet, ServiceLine
from service.db.unit_of_work import Database
from service.documents import sheet_text
from service.floor_values import Release, TicksSent
from service.usecases.floor import release_plan
from service.usecases.kitchens import store_kitchen
from service.usecases.plans import request_plan
from service.usecases.released import ReleasedPlans
from service.usecases.ticking import take_ticks
from service.values import PlanChoices, PlanTexts
from tests.service import stubs

SLUG = "test-kitchen"


def worked_sheet(date: dt.date) -> KitchenSheet:
    """One cook with two batches of twenty minutes, a service, and wages."""
    sheet = stubs.sheet_of(read_kitchen(stubs.kitchen_bytes()), date)
    cooks = tuple(
        replace(cook, batches=(stubs.dicing(cook.cook, 1), stubs.dicing(cook.cook, 2)))
        for cook in sheet.cooks
    )
    lunch = ServiceLine("lunch", "Lunch", date, 690, 660, 40, ())
    labor = tuple((cook.name, 40, 6, 0, 4, 480, 160.0) for cook in cooks)
    return replace(sheet, cooks=cooks, services=(lunch,), labor=labor)


def add_day(database: Database, date: dt.date, *, took: int = 24, ticked: bool = True) -> Release:
    """A day whose sheet is released; ``ticked``: its batches take ``took`` minutes each."""
    store_kitchen(database, stubs.kitchen_bytes(), actor="test", now=lambda: moment(date, 300))
    plan = request_plan(
        database,
        SLUG,
        date,
        PlanChoices(seconds=0, seed=1, workers=1),
        actor="test",
        now=lambda: moment(date, 301),
    )
    sheet = worked_sheet(date)
    with database.writing() as unit:
        unit.runs.start(plan.id, moment(date, 302))
        unit.runs.keep(plan.id, PlanTexts("{}", sheet_text(sheet), "{}"), moment(date, 303))
        unit.runs.end(plan.id, moment(date, 304), error=None, note=None)
        unit.commit()
    release = release_plan(database, plan.id, actor="test", now=lambda: moment(date, 305))
    if ticked:
        for number, start in ((1, 450), (2, 480)):
            send(database, release, number, "begun", start)
            send(database, release, number, "done", start + took)
    return release


def send(database: Database, release: Release, number: int, act: str, at: int, **more: Any) -> None:
    """One tick of a batch, ``at`` minutes after midnight."""
    date = release.date
    sent = moment(date, 1430)
    tick = {
        "key": f"{act}-{number}-{date}-{at}".replace(" ", "-"),
        "release": release.number,
        "act": act,
        "at": moment(date, at).isoformat(),
        "cook": "ada",
        "tasks": [f"{number}:dice"],
        **more,
    }
    received = take_ticks(
        database,
        ReleasedPlans(database),
        SLUG,
        date,
        TicksSent(device="phone-1", sent_at=sent, ticks=(tick,)),
        actor="test",
        now=lambda: sent,
    )
    assert received.received[0].error is None, received


def moment(date: dt.date, minutes: int) -> dt.datetime:
    """A moment of a day in New York's winter, in UTC."""
    return dt.datetime.combine(date, dt.time(5), dt.UTC) + dt.timedelta(minutes=minutes)
