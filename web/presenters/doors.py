"""Where each person begins: the doors of a kitchen on the first page."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from web.language import _
from web.presenters.clock import long_date


@dataclass(frozen=True, slots=True)
class KitchenEntry:
    """A kitchen with its today.

    ``days``, ``floor`` and ``home`` are paths: of today's day, of today's floor (empty where
    nothing is released for today), and of the kitchen, which the other pages lie below.
    """

    name: str
    date: dt.date
    home: str
    days: str
    floor: str


@dataclass(frozen=True, slots=True)
class Door:
    """Who goes in, what they do there, and where it leads; without ``href`` it is still shut."""

    title: str
    what: str
    href: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class KitchenDoors:
    """One kitchen: its name, its today, the doors of its people."""

    name: str
    today: str
    doors: tuple[Door, ...]
    more: tuple[Door, ...]


def kitchen_doors(kitchens: Sequence[KitchenEntry]) -> tuple[KitchenDoors, ...]:
    """The doors of every kitchen, in the order of the morning."""
    return tuple(
        KitchenDoors(one.name, long_date(one.date), _people(one), _more(one)) for one in kitchens
    )


def _people(one: KitchenEntry) -> tuple[Door, ...]:
    cook = (
        _("Choose your name. Tick each batch, weigh trim, and say when something has happened.")
        if one.floor
        else _("Nothing is released for today yet: the sous chef builds the plan and releases it.")
    )
    return (
        Door(
            _("Sous chef: the day"),
            _("Set covers, count what is on hand, mark who is in, build the plan, release it."),
            one.days,
            strong=True,
        ),
        Door(_("Line cook: your batches"), cook, one.floor, strong=True),
        Door(
            _("Kitchen manager: the minutes"),
            _("Where the minutes and the money went, day by day and week by week."),
            f"{one.home}/labor",
            strong=True,
        ),
    )


def _more(one: KitchenEntry) -> tuple[Door, ...]:
    wall = (Door(_("Wall screen"), "", f"{one.floor}/wall"),) if one.floor else ()
    return (
        *wall,
        Door(_("What was sold"), "", f"{one.home}/sales"),
        Door(_("Yield bench"), "", f"{one.home}/bench"),
        Door(_("Yields in use"), "", f"{one.home}/yields"),
        Door(_("Learned rates"), "", f"{one.home}/rates"),
        Door(_("What dishes cost"), "", f"{one.home}/costs"),
        Door(_("Bring a phone"), "", "/enrol"),
    )
