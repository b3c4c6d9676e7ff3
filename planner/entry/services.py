"""Services taken over from another day, to be set from there."""

import datetime as dt
import re
from collections.abc import Iterable, Mapping
from typing import Any

from planner.entry.edit import EnteredFile, file_bytes
from planner.kitchen.json_text import parse_document
from planner.kitchen.reading import read_kitchen

_DATED = re.compile(r"_\d{8}$")
_LONGEST = 60 - len("_20260302_99")


Services = tuple[Mapping[str, Any], ...]
"""As a file has them."""


def services_by_day(data: bytes) -> Mapping[str, Services]:
    """Services by their date, ISO 8601, of a file that need not be one that can be used."""
    found: dict[str, list[Mapping[str, Any]]] = {}
    for one in parse_document(data).values.get("services", ()):
        found.setdefault(str(one.get("date")), []).append(one)
    return {date: tuple(services) for date, services in found.items()}


def services_on(data: bytes, date: dt.date) -> Services:
    """The services of a day, as a file has them."""
    return services_by_day(data).get(date.isoformat(), ())


def with_services(data: bytes, date: dt.date, taken: Iterable[Mapping[str, Any]]) -> EnteredFile:
    """The file with copies of services on ``date``, but for those it has there by the same name.

    Dishes that the file does not have any more are left out.

    Raises
    ------
    planner.kitchen.errors.KitchenErrors
        The file would be bad.
    """
    file = parse_document(data).values
    dishes = {one["id"] for one in file["dishes"]}
    ids = {one["id"] for one in file["services"]}
    there = {one["name"] for one in services_on(data, date)}
    notes: list[str] = []
    copies = []
    for service in taken:
        if service["name"] in there:
            continue
        mix = [line for line in service["mix"] if line["dish"] in dishes]
        if len(mix) < len(service["mix"]):
            notes.append(f"{service['name']}: dishes that are no longer in the file are left out.")
        if mix:
            made = _new_id(service["id"], date, ids)
            ids.add(made)
            copies.append({**service, "id": made, "date": date.isoformat(), "mix": mix})
    if not copies:
        return EnteredFile(data, changed=False, notes=tuple(notes))
    file["services"] = [*file["services"], *copies]
    made_file = file_bytes(file)
    read_kitchen(made_file)
    return EnteredFile(made_file, changed=True, notes=tuple(notes))


def _new_id(known: str, date: dt.date, taken: set[str]) -> str:
    """An id with the day in it: ``dinner_20261202``."""
    stem = _DATED.sub("", known)[:_LONGEST]
    made = f"{stem}_{date:%Y%m%d}"
    number = 2
    while made in taken:
        made = f"{stem}_{date:%Y%m%d}_{number}"
        number += 1
    return made
