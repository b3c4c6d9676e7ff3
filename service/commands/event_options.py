"""Events as the command line writes them: ``ID``, ``ID=HH:MM``, ``ID=N``."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from planner.clock import clock_of
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
from service.errors import UserError

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class EventOptions:
    """What each option was given, as text; any of them may be given several times."""

    cook_gone: tuple[str, ...] = ()
    cook_late: tuple[str, ...] = ()
    overran: tuple[str, ...] = ()
    equipment_down: tuple[str, ...] = ()
    covers: tuple[str, ...] = ()
    delivery_late: tuple[str, ...] = ()
    spoiled: tuple[str, ...] = ()


def events_of(options: EventOptions, now: int) -> tuple[Event, ...]:
    """The events; raise UserError for text that is not of the option's form."""
    return (
        *(CookGone(text, now) for text in options.cook_gone),
        *(CookLate(*_pair("--cook-late", text, "HH:MM", clock_of)) for text in options.cook_late),
        *(Overran(*_pair("--overran", text, "HH:MM", clock_of)) for text in options.overran),
        *(_down(text) for text in options.equipment_down),
        *(CoversChanged(*_pair("--covers", text, "N", _number)) for text in options.covers),
        *(
            DeliveryLate(*_pair("--delivery-late", text, "HH:MM, or ID=never", _clock_or_never))
            for text in options.delivery_late
        ),
        *(Spoiled(text) for text in options.spoiled),
    )


def now_of(text: str) -> int:
    """The time of --now; raise UserError where it is none."""
    try:
        return clock_of(text)
    except ValueError:
        raise UserError(f"--now: {text!r} is no time of the day. Write it as HH:MM.") from None


def _pair(option: str, text: str, form: str, read: Callable[[str], T]) -> tuple[str, T]:
    name, equals, value = text.rpartition("=")
    try:
        if not (equals and name):
            raise ValueError(text)
        return name, read(value)
    except ValueError:
        raise UserError(f"{option}: {text!r} cannot be read. Write it as ID={form}.") from None


def _down(text: str) -> EquipmentDown:
    if "=" not in text:
        return EquipmentDown(text)
    return EquipmentDown(*_pair("--equipment-down", text, "UNITS", _number))


def _number(text: str) -> int:
    if not text.isdecimal():
        raise ValueError(text)
    return int(text)


def _clock_or_never(text: str) -> int | None:
    return None if text == "never" else clock_of(text)
