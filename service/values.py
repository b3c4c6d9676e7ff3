"""What the use cases return: values without rows, shown by the API as they are."""

import datetime as dt
import uuid
from dataclasses import dataclass
from enum import StrEnum

from pydantic import BaseModel, ConfigDict, Field


class Value(BaseModel):
    """An immutable value; unknown fields are refused."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class PlanState(StrEnum):
    """Where a planning run stands."""

    QUEUED = "queued"
    RUNNING = "running"
    DONE = "done"
    FAILED = "failed"

    @property
    def ended(self) -> bool:
        """Nothing more will come of this run."""
        return self in (PlanState.DONE, PlanState.FAILED)


class WhatIfState(StrEnum):
    """Where a what-if stands."""

    QUEUED = "queued"
    RUNNING = "running"
    DONE = "done"
    REFUSED = "refused"
    """That day cannot be planned so; trying it again would come to the same."""
    FAILED = "failed"
    CUT_OFF = "cut_off"
    """The program ended before it was done."""

    @property
    def ended(self) -> bool:
        """Nothing more will come of it by itself."""
        return self not in (WhatIfState.QUEUED, WhatIfState.RUNNING)

    @property
    def again(self) -> bool:
        """Trying it once more may come to something else."""
        return self in (WhatIfState.FAILED, WhatIfState.CUT_OFF)


class PlanChoices(Value):
    """How long and how the planner searches.

    With ``deterministic_limit`` the same choices and inputs give the same plan.
    """

    seconds: float = Field(
        default=8.0,
        ge=0,
        le=3600,
        description="Longest search, seconds of wall clock; 0: the constructive rules only.",
    )
    deterministic_limit: float | None = Field(
        default=None,
        gt=0,
        le=10_000,
        description="Longest search in the solver's own time units, which do not depend on the "
        "machine's speed; in place of seconds. Null: the clock ends it.",
    )
    seed: int = Field(default=1, ge=0, le=2**31 - 1, description="Seeds the search.")
    workers: int = Field(default=2, ge=1, le=64, description="Processor cores the search uses.")

    @property
    def first_only(self) -> "PlanChoices":
        """The same, without a search: the plan of the constructive rules."""
        return self.model_copy(update={"seconds": 0.0, "deterministic_limit": None})


class KitchenSummary(Value):
    """A stored kitchen and the newest version of its file."""

    slug: str = Field(description="The kitchen's short name in addresses.")
    name: str = Field(description="The kitchen's name, as its file gives it.")
    version: int = Field(ge=1, description="Number of the newest stored version, from 1.")
    sha256: str = Field(description="SHA-256 of that version's bytes, in hexadecimal.")
    created_at: dt.datetime = Field(description="When that version was stored, UTC.")
    created_by: str = Field(description="Who stored it: 'api', 'cli' or 'demo'.")


class ProgressStep(Value):
    """An improving plan, at the moment it was found."""

    number: int = Field(ge=1, description="1 for the first plan of the run.")
    seconds: float = Field(ge=0, description="Seconds since the search began.")
    origin: str = Field(description="Which method found it.")
    short: int = Field(description="Weighted portions short.")
    tardiness: int = Field(description="Weighted minutes late.")
    labor: int = Field(description="Minutes of labor: hands-on, set-up, changeover, overtime.")
    freshness: int = Field(description="Weighted minutes that fresh work lies before it is due.")
    finish: int = Field(description="Minutes from the start of the day to the end of the work.")
    least_labor: int = Field(
        default=0,
        description="Minutes of labor that no plan of these batches has less than, none worse in "
        "what is short or late; 0: not worked out.",
    )


class PlanSummary(Value):
    """A planning run, without what it made."""

    id: uuid.UUID = Field(description="The run's identity in addresses.")
    kitchen: str = Field(description="Slug of the kitchen.")
    kitchen_name: str = Field(description="Name of the kitchen.")
    kitchen_version: int = Field(description="Version of the kitchen file it was planned from.")
    date: dt.date = Field(description="The day that is planned, on the kitchen's wall.")
    state: PlanState = Field(description="queued, running, done or failed.")
    has_sheet: bool = Field(
        description="Whether a sheet can be read. A running plan has its first sheet within "
        "seconds; it is replaced when the search ends."
    )
    choices: PlanChoices = Field(description="How it is searched for.")
    error: str | None = Field(description="Why it failed and what to do, or null.")
    note: str | None = Field(description="What else to know, such as that it was stopped early.")
    after_release: int | None = Field(
        default=None,
        description="Number of the release whose day it plans anew, from where the floor stands; "
        "null: it plans a day from its start.",
    )
    moved_from: uuid.UUID | None = Field(
        default=None,
        description="The plan whose batches it moves or holds by hand; null: it moves none.",
    )
    created_at: dt.datetime = Field(description="When it was asked for, UTC.")
    created_by: str = Field(description="Who asked for it: 'api', 'cli' or 'demo'.")
    started_at: dt.datetime | None = Field(description="When planning began, UTC, or null.")
    finished_at: dt.datetime | None = Field(description="When it ended, UTC, or null.")


class PlanStatus(PlanSummary):
    """A planning run with the plans it has found so far."""

    progress: tuple[ProgressStep, ...] = Field(description="Improving plans, first to last.")


@dataclass(frozen=True, slots=True)
class PlanTexts:
    """What a run made, as JSON texts: the plan file, the sheet, and the trace of each item.

    Of a day that was planned anew, ``course`` is the whole day to plan anew from again, and
    ``told`` what people must be told.
    """

    document: str
    sheet: str
    traces: str
    course: str | None = None
    told: tuple[str, ...] = ()
