"""Routes by which the floor says that something has happened."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from fastapi import APIRouter
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from planner.clock import clock_of
from planner.kitchen.catalog import Catalog
from planner.kitchen.day import Delivery
from planner.replan.events import (
    CookGone,
    CookLate,
    CoversChanged,
    DeliveryLate,
    EquipmentDown,
    Event,
    Overran,
    Spoiled,
)
from service.api.floor import Day
from service.api.floor_pages import PageDep, links_of
from service.api.forms import FormFields
from service.api.kitchens import Slug
from service.api.reading import PreferencesDep
from service.api.services import ACTOR, Services, ServicesDep
from service.documents import kept_kitchen
from service.errors import Fault
from service.usecases.floor import FloorNow, floor_now
from service.usecases.happened import request_rest
from web.chef.day_view import delivered
from web.floor.happened import Thing, Things, render_happened
from web.language import _, pgettext
from web.presenters.preferences import Preferences

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_MOST_COVERS = 20_000
_REPAIR_SECONDS = 2.0
"""Of search after the first repaired plan: people stand and wait."""


class _Wrong(Exception):  # noqa: N818 - an answer, not a failure
    def __init__(self, path: str, value: str, message: str, remedy: str) -> None:
        super().__init__()
        self.fault = Fault(path, value[:60], message, remedy)


@router.get("/floor/{slug}/{date}/happened")
def ask(page: PageDep, services: ServicesDep) -> HTMLResponse:
    """Ask what has happened."""
    things = _things(services, page.now, page.preferences)
    return HTMLResponse(render_happened(page.now.plan.sheet, things, page.links))


@router.post("/floor/{slug}/{date}/happened")
def happened(
    slug: Slug,
    date: Day,
    fields: FormFields,
    services: ServicesDep,
    preferences: PreferencesDep,
) -> Response:
    """Plan the rest of the day anew, and go to where that is seen."""
    now = floor_now(services.database, services.released, slug, date, now=services.now)
    things = _things(services, now, preferences)
    try:
        events = _events(fields, things, int(now.now))
    except _Wrong as wrong:
        page = render_happened(now.plan.sheet, things, links_of(now), wrong=[str(wrong.fault)])
        return HTMLResponse(page, 422)
    status = request_rest(
        services.database,
        services.released,
        slug,
        date,
        events,
        services.choices.model_copy(update={"seconds": _REPAIR_SECONDS}),
        actor=ACTOR,
        now=services.now,
    )
    services.queue.submit(status.id)
    return RedirectResponse(f"/plans/{status.id}/build", 303)


def _events(fields: Mapping[str, str], things: Things, now: int) -> tuple[Event, ...]:
    what = fields.get("what", "")
    if what == "nothing":
        return ()
    if what not in _READERS:
        raise _Wrong(
            pgettext("field", "what"),
            what,
            _("nothing of that kind happens here"),
            _("Choose one of those below"),
        )
    said = _Said(fields.get("which", ""), fields.get("value", ""), "without" in fields, now)
    return (_READERS[what](said, things),)


@dataclass(frozen=True, slots=True)
class _Said:
    """What a form says; its methods raise _Wrong where it says it wrongly."""

    which: str
    value: str
    without: bool
    now: int

    def of(self, things: tuple[Thing, ...]) -> str:
        """Id of one of ``things``."""
        if self.which not in {thing.id for thing in things}:
            raise _Wrong(
                pgettext("field", "which"),
                self.which,
                _("is not there any more"),
                _("Choose one of those below"),
            )
        return self.which

    @property
    def time(self) -> int:
        """Minutes after midnight of what a time field sends."""
        try:
            return clock_of(self.value)
        except ValueError:
            raise _Wrong(
                pgettext("field", "time"),
                self.value,
                _("this is no time"),
                _("Write hours and minutes, 14:30"),
            ) from None

    @property
    def number(self) -> int:
        """Covers."""
        if not self.value.strip().isdecimal() or int(self.value) > _MOST_COVERS:
            remedy = _("Write a whole number up to %(most)s", most=_MOST_COVERS)
            raise _Wrong(
                pgettext("field", "covers"), self.value, _("this is no number of covers"), remedy
            )
        return int(self.value)


_READERS: dict[str, Callable[[_Said, Things], Event]] = {
    "cook_gone": lambda said, things: CookGone(said.of(things.cooks), said.now),
    "cook_late": lambda said, things: CookLate(said.of(things.cooks), said.time),
    "equipment_down": lambda said, things: EquipmentDown(said.of(things.equipment)),
    "covers": lambda said, things: CoversChanged(said.of(things.services), said.number),
    "delivery_late": lambda said, things: DeliveryLate(
        said.of(things.deliveries), None if said.without else said.time
    ),
    "overran": lambda said, things: Overran(said.of(things.under_way), said.time),
    "spoiled": lambda said, things: Spoiled(said.of(things.begun)),
}


def _things(services: Services, now: FloorNow, preferences: Preferences) -> Things:
    """What there is on this floor."""
    with services.database.reading() as unit:
        version, *_others = unit.plans.inputs(now.release.plan_id)
        kitchen = kept_kitchen(unit.kitchens.version(version).document)
    catalog, sheet = Catalog(kitchen), now.plan.sheet
    done, begun = {}, {}
    for cook in sheet.cooks:
        for batch in cook.batches:
            for task in batch.tasks:
                state = now.floor.of(task.id)
                name = f"{batch.operation_name} {batch.food_name}, {batch.cook_name}"
                if state.begun or state.done:
                    begun[task.lot] = Thing(task.lot, name)
                if state.done and task.part == "work" and not task.unattended:
                    done[task.lot] = True
    return Things(
        cooks=tuple(Thing(cook.cook, cook.name) for cook in sheet.cooks),
        equipment=tuple(
            Thing(one.id, one.name, _("there are %(count)s", count=one.count))
            for one in kitchen.equipment
        ),
        services=tuple(
            Thing(one.id, one.name, _("%(covers)s planned", covers=one.covers))
            for one in kitchen.services
            if one.date == sheet.date
        ),
        deliveries=tuple(
            _coming(catalog.name(one.item), one, preferences)
            for one in kitchen.deliveries
            if one.date == sheet.date
        ),
        begun=tuple(begun.values()),
        under_way=tuple(thing for lot, thing in begun.items() if lot not in done),
    )


def _coming(name: str, one: Delivery, preferences: Preferences) -> Thing:
    amount, time = delivered(one, preferences)
    return Thing(one.item, name, _("%(amount)s at %(time)s", amount=amount, time=time))
