"""Planner's values as JSON texts, and back: the one place where they are translated."""

import datetime as dt
import json
from collections.abc import Mapping
from enum import Enum
from functools import cache, lru_cache
from typing import Any

from pydantic import TypeAdapter

from planner.kitchen.base import Amount
from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from planner.quantities.types import Trace
from planner.sheet.types import KitchenSheet
from planner.whatif.compare import Comparison

_KEPT = 8
"""Texts of a kind that are kept read, the last ones asked for: some megabytes each."""


@cache
def _sheets() -> TypeAdapter[KitchenSheet]:
    return TypeAdapter(KitchenSheet)


@cache
def _traces() -> TypeAdapter[dict[str, Trace]]:
    return TypeAdapter(dict[str, Trace])


@cache
def _comparisons() -> TypeAdapter[Comparison]:
    return TypeAdapter(Comparison)


def sheet_text(sheet: KitchenSheet) -> str:
    """A sheet as JSON."""
    return _sheets().dump_json(sheet).decode()


def read_sheet(text: str) -> KitchenSheet:
    """The sheet that ``sheet_text`` wrote.

    Raises
    ------
    ValueError
        The text is no sheet.
    """
    return _sheets().validate_json(text)


@lru_cache(maxsize=_KEPT)
def kept_sheet(text: str) -> KitchenSheet:
    """The same, read once for all who look at it: the text itself tells whether it is another."""
    return read_sheet(text)


def traces_text(traces: Mapping[str, Trace]) -> str:
    """Traces by item as a JSON object."""
    return _traces().dump_json(dict(traces)).decode()


def read_traces(text: str) -> dict[str, Trace]:
    """The traces that ``traces_text`` wrote.

    Raises
    ------
    ValueError
        The text is no such object.
    """
    return _traces().validate_json(text)


def comparison_text(found: Comparison) -> str:
    """A comparison as JSON."""
    return _comparisons().dump_json(found).decode()


def read_comparison(text: str) -> Comparison:
    """The comparison that ``comparison_text`` wrote.

    Raises
    ------
    ValueError
        The text is none.
    """
    return _comparisons().validate_json(text)


@lru_cache(maxsize=_KEPT)
def kept_traces(text: str) -> Mapping[str, Trace]:
    """The same, read once for all who look at them."""
    return read_traces(text)


@lru_cache(maxsize=_KEPT)
def kept_kitchen(document: bytes) -> Kitchen:
    """A kitchen file, read once for all who look at it.

    Raises
    ------
    planner.kitchen.errors.KitchenErrors
        The file is bad, as one may be that was stored before a rule it breaks.
    """
    return read_kitchen(document)


def kitchen_bytes(kitchen: Kitchen) -> bytes:
    """A kitchen as a kitchen file. The same kitchen gives the same bytes, in any process."""
    return json.dumps(kitchen.model_dump(), default=_plain, ensure_ascii=False, indent=1).encode()


def _plain(value: object) -> Any:
    """What JSON has for a value of the kitchen file."""
    match value:
        case frozenset():
            # Sorted: a set's own order differs from process to process.
            return sorted(str(each) for each in value)
        case dt.date():
            return value.isoformat()
        case Enum():
            return value.value
        case Amount():
            return str(value)
    raise TypeError(f"{value!r} has no place in a kitchen file")


def time_zone_of(document: str | bytes) -> str:
    """Name of the time zone of a kitchen file that was checked when it was stored."""
    return str(json.loads(document).get("time_zone", "UTC"))
