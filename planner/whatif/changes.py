"""Changes of a kitchen for one day: pure functions from a kitchen to a changed, checked kitchen.

Every changed kitchen is read again as a file is, so a change that makes no sense is refused with
the field, the value and the remedy. Other days stay as they are, stations and equipment apart.
"""

import datetime as dt
from collections.abc import Callable, Iterable
from typing import TypeVar

from planner.kitchen.base import FileModel, clock_minutes
from planner.kitchen.document import Kitchen
from planner.kitchen.errors import KitchenErrors, Place, suggestion
from planner.kitchen.hours import shift_of
from planner.kitchen.reading import read_kitchen
from planner.kitchen.work import Cook, Shift
from planner.wording import sentence

_DAYS_AROUND = 14
"""Days before and after for which a cook who is out on one day stays in."""
_Model = TypeVar("_Model", bound=FileModel)


def without_cook(kitchen: Kitchen, date: dt.date, cook: str) -> Kitchen:
    """``cook`` is out on ``date``, and in as ever on the days around it.

    Raises
    ------
    KitchenErrors
        There is no such cook, or nobody else.
    """
    _known("cooks", kitchen.cooks, cook)
    changed = (_out(one, date) if one.id == cook else one for one in kitchen.cooks)
    cooks = tuple(one for one in changed if one is not None)
    if all(one.id != cook for one in cooks):
        # Who learns from somebody who is on no other day either has nobody to work beside.
        cooks = tuple(one for one in cooks if one.learns_from != cook)
    return _checked(kitchen.model_copy(update={"cooks": cooks}))


def with_covers(
    kitchen: Kitchen, date: dt.date, covers: Callable[[int], int], service: str | None = None
) -> Kitchen:
    """Other covers at the services of ``date``, or at one of them.

    Parameters
    ----------
    covers
        The new number from the old one.
    service
        Id of a service of that day; None: all.

    Raises
    ------
    KitchenErrors
        There is no such service on that day, or the number is out of range.
    """
    mine = [one for one in kitchen.services if one.date == date]
    if service is not None:
        _known("services", mine, service)
    elif not mine:
        raise _refused(
            "services",
            "",
            sentence("there is no service on this day"),
            sentence("choose another day"),
        )
    services = tuple(
        one.model_copy(update={"covers": covers(one.covers)})
        if one.date == date and service in (None, one.id)
        else one
        for one in kitchen.services
    )
    return _checked(kitchen.model_copy(update={"services": services}))


def with_equipment(kitchen: Kitchen, equipment: str, count: int) -> Kitchen:
    """``count`` of a kind of equipment.

    Raises
    ------
    KitchenErrors
        There is no such equipment, or the number is out of range.
    """
    changed = _changed("equipment", kitchen.equipment, equipment, count=count)
    return _checked(kitchen.model_copy(update={"equipment": changed}))


def with_places(kitchen: Kitchen, station: str, places: int) -> Kitchen:
    """Room for so many cooks or boards at a station.

    Raises
    ------
    KitchenErrors
        There is no such station, or the number is out of range.
    """
    changed = _changed("stations", kitchen.stations, station, places=places)
    return _checked(kitchen.model_copy(update={"stations": changed}))


def with_shift_moved(
    kitchen: Kitchen, date: dt.date, minutes: int, cook: str | None = None
) -> Kitchen:
    """A cook's shift of ``date``, or everybody's, so many minutes later; earlier if negative.

    Breaks move with it; times on the line stay, since service does.

    Raises
    ------
    KitchenErrors
        There is no such cook, the cook is not in, or a time falls out of the day.
    """

    def moved(shift: Shift) -> Shift:
        return shift.model_copy(
            update={
                "start": _moved(shift.start, minutes),
                "end": _moved(shift.end, minutes),
                "breaks": tuple(
                    rest.model_copy(
                        update={
                            "start": _moved(rest.start, minutes),
                            "latest": None if rest.latest is None else _moved(rest.latest, minutes),
                        }
                    )
                    for rest in shift.breaks
                ),
            }
        )

    return _with_shift(kitchen, date, cook, moved)


def with_hours(kitchen: Kitchen, date: dt.date, cook: str, start: str, end: str) -> Kitchen:
    """A cook in from ``start`` to ``end`` (``HH:MM``) on ``date``; breaks and line times stay.

    Raises
    ------
    KitchenErrors
        There is no such cook, the cook is not in, or the hours do not go with the breaks.
    """
    return _with_shift(
        kitchen, date, cook, lambda shift: shift.model_copy(update={"start": start, "end": end})
    )


def _with_shift(
    kitchen: Kitchen, date: dt.date, cook: str | None, changed: Callable[[Shift], Shift]
) -> Kitchen:
    if cook is not None:
        shift = shift_of(_known("cooks", kitchen.cooks, cook), date)
        if shift is None:
            place = sentence("not in on {isoformat}", isoformat=date.isoformat())
            raise _refused("cooks", cook, place, sentence("choose a cook who is, or another day"))
    cooks = tuple(
        _on_day(one, date, changed) if cook in (None, one.id) else one for one in kitchen.cooks
    )
    return _checked(kitchen.model_copy(update={"cooks": cooks}))


def _on_day(cook: Cook, date: dt.date, changed: Callable[[Shift], Shift]) -> Cook:
    """The cook with the shift of one day changed, all others kept."""
    shift = shift_of(cook, date)
    if shift is None:
        return cook
    dated = changed(shift).model_copy(update={"date": date})
    others = tuple(one for one in cook.shifts if one.date != date)
    return cook.model_copy(update={"shifts": (dated, *others)})


def _out(cook: Cook, date: dt.date) -> Cook | None:
    """The cook without the shift of ``date``; None where no shift is left.

    A shift for every day becomes one for each of the days around.
    """
    around = [date + dt.timedelta(days) for days in range(-_DAYS_AROUND, _DAYS_AROUND + 1)]
    shifts = tuple(
        shift.model_copy(update={"date": day})
        for day in around
        if day != date and (shift := shift_of(cook, day)) is not None
    )
    return cook.model_copy(update={"shifts": shifts}) if shifts else None


def _changed(
    name: str, elements: tuple[_Model, ...], known: str, **fields: int
) -> tuple[_Model, ...]:
    found = _known(name, elements, known)
    return tuple(one.model_copy(update=dict(fields)) if one is found else one for one in elements)


def _known(name: str, elements: Iterable[_Model], known: str) -> _Model:
    """The element of that id; raise KitchenErrors with those there are."""
    by_id = {str(getattr(one, "id", "")): one for one in elements}
    if known not in by_id:
        names = ", ".join(by_id) or sentence("none")
        hint = suggestion(known, by_id)
        raise _refused(
            name,
            known,
            sentence("there is none of this id"),
            hint + sentence("known: {list}", list=names),
        )
    return by_id[known]


def _refused(name: str, value: str, message: str, remedy: str) -> KitchenErrors:
    return KitchenErrors([Place(name).error(value or None, message, remedy)])


def _moved(clock: str, minutes: int) -> str:
    """A clock time later; one before midnight or after 29:59 is refused when it is read."""
    at = clock_minutes(clock) + minutes
    sign, at = ("-", -at) if at < 0 else ("", at)
    return f"{sign}{at // 60:02d}:{at % 60:02d}"


def _checked(kitchen: Kitchen) -> Kitchen:
    return read_kitchen(kitchen.model_dump_json().encode())
