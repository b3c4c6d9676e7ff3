"""What the floor sends and is told: releases of plans, and ticks."""

import datetime as dt
import uuid
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, Any

from pydantic import AwareDatetime, Field, StringConstraints

from planner.floor.ticks import Act, Weighed
from service.values import Value

MOST_TICKS = 500
"""In one request. A phone that was off all morning has fewer."""

Key = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9-]{8,60}$")]


@dataclass(frozen=True, slots=True)
class Release:
    """A plan that cooks work from."""

    id: uuid.UUID
    kitchen_id: uuid.UUID
    kitchen: str
    """Slug."""
    date: dt.date
    number: int
    plan_id: uuid.UUID
    created_at: dt.datetime
    follows: int | None = None
    """Number of the release whose work it goes on with."""


class ReleaseSummary(Value):
    """A release, as programs read it."""

    kitchen: str = Field(description="Slug of the kitchen.")
    date: dt.date = Field(description="The day.")
    number: int = Field(ge=1, description="1 for the day's first release.")
    plan: uuid.UUID = Field(description="The plan that was released.")
    created_at: dt.datetime = Field(description="When it was released, UTC.")


class WeightSent(Value):
    """One load on the scale."""

    kind: Weighed = Field(description="gross (went in), usable (came out) or trim (taken off).")
    grams: float = Field(gt=0, le=1e6, description="What the scale showed, grams.")
    tare_grams: float = Field(default=0, ge=0, le=1e6, description="The empty container, grams.")
    item: str = Field(default="", max_length=60, description="The food; empty: waste.")


class TickSent(Value):
    """One thing a cook said, as a device sends it."""

    key: Key = Field(description="Made by the device, never used twice.")
    release: int = Field(ge=1, description="The release that the device showed.")
    act: Act = Field(description="begun, done, problem, weighed, heard or taken back.")
    at: AwareDatetime = Field(description="When it was said, by the device's clock.")
    cook: str = Field(max_length=60, description="Id of who said it.")
    tasks: tuple[Annotated[str, StringConstraints(max_length=120)], ...] = Field(
        default=(), max_length=200, description="Ids of the tasks it is about."
    )
    reason: str = Field(default="", max_length=200, description="What is wrong, of a problem.")
    weight: WeightSent | None = Field(default=None, description="What was weighed.")
    takes_back: str = Field(default="", max_length=60, description="Key of what counts no more.")


class TicksSent(Value):
    """What a device has to tell, in its order."""

    device: Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9-]{1,60}$")] = Field(
        description="Names the device; made by itself."
    )
    sent_at: AwareDatetime = Field(
        description="The device's clock as it sends: what it is wrong by is set right."
    )
    ticks: tuple[dict[str, Any], ...] = Field(
        max_length=MOST_TICKS,
        description="Each of the form TickSent; one that is bad is refused alone.",
        json_schema_extra={"items": {"$ref": "#/components/schemas/TickSent"}},
    )


class Outcome(StrEnum):
    """What became of a tick."""

    KEPT = "kept"
    KNOWN = "known"
    """It had come before: nothing changed."""
    REFUSED = "refused"


class TickError(Value):
    """Why a tick was refused."""

    path: str = Field(description="The field.")
    value: str = Field(description="What stood there, shortened.")
    message: str = Field(description="What is wrong with it.")
    remedy: str = Field(description="What to do.")


class TickReceived(Value):
    """What became of one tick."""

    key: str = Field(description="Its key, or empty where it had none.")
    outcome: Outcome = Field(description="kept, known (it had come before) or refused.")
    error: TickError | None = Field(description="Why it was refused, or null.")


class TicksReceived(Value):
    """What became of all ticks of a request, and where the floor stands after it."""

    received: tuple[TickReceived, ...] = Field(description="In the order they were sent.")
    release: int = Field(description="Number of the day's newest release.")
    version: int = Field(description="How many ticks of that release are kept.")
