"""Something has happened: what, to whom or to which, in as few taps as may be."""

from collections.abc import Sequence
from dataclasses import dataclass

from planner.sheet.types import KitchenSheet
from web.engine import render
from web.floor.links import FloorLinks
from web.language import _
from web.links import STYLESHEETS
from web.presenters.clock import long_date


@dataclass(frozen=True, slots=True)
class Thing:
    """A cook, a service, a delivery, a batch, a kind of equipment: id, name, what it is now."""

    id: str
    name: str
    now: str = ""


@dataclass(frozen=True, slots=True)
class Things:
    """What may have something happen to it."""

    cooks: tuple[Thing, ...]
    equipment: tuple[Thing, ...]
    services: tuple[Thing, ...]
    deliveries: tuple[Thing, ...]
    begun: tuple[Thing, ...]
    under_way: tuple[Thing, ...]


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of event.

    ``asks`` is empty, ``time`` or ``number``; ``without`` labels a second button that sends no
    value.
    """

    what: str
    heading: str
    button: str
    things: tuple[Thing, ...]
    asks: str = ""
    label: str = ""
    without: str = ""
    nothing: str = ""


def kinds_of(things: Things) -> tuple[Kind, ...]:
    """Everything that may have happened, what happens most first."""
    return (
        Kind("cook_gone", _("A cook leaves"), _("Leaves now"), things.cooks),
        Kind(
            "cook_late",
            _("A cook comes later"),
            _("Comes then"),
            things.cooks,
            "time",
            _("Comes at"),
        ),
        Kind("equipment_down", _("Equipment fails"), _("One is out of use"), things.equipment),
        Kind(
            "covers", _("Covers have changed"), _("So many"), things.services, "number", _("Covers")
        ),
        Kind(
            "delivery_late",
            _("A delivery is late"),
            _("Comes then"),
            things.deliveries,
            "time",
            _("Comes at"),
            without=_("Does not come"),
            nothing=_("Nothing more is to come today."),
        ),
        Kind(
            "overran",
            _("A batch takes longer"),
            _("Done then"),
            things.under_way,
            "time",
            _("Done at"),
            nothing=_("No batch is ticked as begun."),
        ),
        Kind(
            "spoiled",
            _("Food is spoiled"),
            _("Thrown away"),
            things.begun,
            nothing=_("No batch is ticked as begun."),
        ),
    )


def render_happened(
    sheet: KitchenSheet, things: Things, links: FloorLinks, *, wrong: Sequence[str] = ()
) -> str:
    """What has happened? ``wrong`` says what could not be taken, with its remedy."""
    return render(
        "floor/happened.html",
        kitchen=sheet.kitchen,
        date=long_date(sheet.date),
        kinds=kinds_of(things),
        wrong=wrong,
        links=links,
        style="",
        stylesheets=(*STYLESHEETS, "/static/chef.css"),
    )
