"""Read the changes that ``compare`` is asked for: text into changed kitchens."""

import datetime as dt
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from planner.kitchen.document import Kitchen
from planner.kitchen.errors import KitchenErrors
from planner.whatif.changes import (
    with_covers,
    with_equipment,
    with_hours,
    with_places,
    with_shift_moved,
    without_cook,
)
from service.commands.inputs import error_lines
from service.errors import UserError

_EVERYBODY = "all"
_PERCENT = re.compile(r"[+-]\d+(\.\d+)?%")
_NUMBER = re.compile(r"\d+")
_MINUTES = re.compile(r"[+-]\d+")
_HOURS = re.compile(r"(\d\d:\d\d)-(\d\d:\d\d)")

_Step = Callable[[Kitchen, dt.date], Kitchen]


@dataclass(frozen=True, slots=True)
class Wanted:
    """The options of ``compare``, as they were written."""

    without: tuple[str, ...] = ()
    covers: tuple[str, ...] = ()
    equipment: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    shift: tuple[str, ...] = ()

    def words(self) -> str:
        """The changes in one line."""
        return ", ".join(
            f"{option} {text}"
            for option in ("without", "covers", "equipment", "places", "shift")
            for text in getattr(self, option)
        )


def changed_kitchen(kitchen: Kitchen, date: dt.date, wanted: Wanted) -> Kitchen:
    """The kitchen with every change made.

    Raises
    ------
    UserError
        Nothing is to be changed, or a change cannot be read or made; says which and what to do.
    """
    steps = list(_steps(wanted))
    if not steps:
        raise UserError(
            "There is nothing to compare with. Give a change: --without, --covers, --equipment, "
            "--places or --shift."
        )
    for option, step in steps:
        try:
            kitchen = step(kitchen, date)
        except KitchenErrors as errors:
            raise UserError(
                "\n".join(f"{option}: {line}" for line in error_lines(errors))
            ) from None
    return kitchen


def _steps(wanted: Wanted) -> Iterator[tuple[str, _Step]]:
    for text in wanted.without:
        yield f"--without {text}", _without(text)
    for text in wanted.covers:
        yield f"--covers {text}", _covers(text)
    for text in wanted.equipment:
        yield f"--equipment {text}", _equipment(text)
    for text in wanted.places:
        yield f"--places {text}", _places(text)
    for text in wanted.shift:
        yield f"--shift {text}", _shift(text)


def _without(cook: str) -> _Step:
    return lambda kitchen, date: without_cook(kitchen, date, cook)


def _covers(text: str) -> _Step:
    service, _, number = text.rpartition("=")
    if _PERCENT.fullmatch(number):
        factor = 1 + float(number[:-1]) / 100

        def covers(now: int) -> int:
            # Half a cover counts as a whole one.
            return int(now * factor + 0.5 + 1e-9) if factor > 0 else 0
    elif _NUMBER.fullmatch(number):

        def covers(now: int) -> int:
            del now
            return int(number)
    else:
        raise UserError(f"--covers {text}: write '+20%', '-10%' or '120', or 'dinner=120'.")
    return lambda kitchen, date: with_covers(kitchen, date, covers, service or None)


def _equipment(text: str) -> _Step:
    name, number = _id_and_number("--equipment", text, "oven_rack=12")
    return lambda kitchen, date: with_equipment(kitchen, name, number)  # noqa: ARG005


def _places(text: str) -> _Step:
    name, number = _id_and_number("--places", text, "board=5")
    return lambda kitchen, date: with_places(kitchen, name, number)  # noqa: ARG005


def _shift(text: str) -> _Step:
    cook, _, when = text.partition("=")
    hours = _HOURS.fullmatch(when)
    if cook and hours and cook != _EVERYBODY:
        start, end = hours.groups()
        return lambda kitchen, date: with_hours(kitchen, date, cook, start, end)
    if cook and _MINUTES.fullmatch(when):
        who = None if cook == _EVERYBODY else cook
        return lambda kitchen, date: with_shift_moved(kitchen, date, int(when), who)
    raise UserError(
        f"--shift {text}: write 'odile=-30' or 'odile=+60' (minutes), 'odile=07:00-15:00', or "
        f"'{_EVERYBODY}=-30' for everybody."
    )


def _id_and_number(option: str, text: str, example: str) -> tuple[str, int]:
    name, _, number = text.partition("=")
    if not name or not _NUMBER.fullmatch(number):
        raise UserError(f"{option} {text}: write an id and a whole number: '{example}'.")
    return name, int(number)
