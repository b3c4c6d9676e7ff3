"""The tables. A plan is kept with the inputs that made it, so that yesterday's can be explained."""

import datetime as dt
import uuid
from typing import Any, ClassVar

from sqlalchemy import JSON, CheckConstraint, MetaData, String, Text, UniqueConstraint, event
from sqlalchemy.engine import Connection
from sqlalchemy.orm import Mapper
from sqlmodel import Field, SQLModel

from planner.floor.ticks import Act
from service.db.types import UtcDateTime
from service.values import PlanState, WhatIfState


class Row(SQLModel):
    """What every row says: who made it and when."""

    # Named constraints: SQLite can only alter a constraint that has a name.
    metadata: ClassVar[MetaData] = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s",
            "pk": "pk_%(table_name)s",
        }
    )

    created_by: str = Field(sa_type=String(60))
    created_at: dt.datetime = Field(sa_type=UtcDateTime)


class KitchenRow(Row, table=True):
    """A kitchen; what it consists of stands in its versions."""

    __tablename__ = "kitchen"

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    slug: str = Field(sa_type=String(80), unique=True)
    name: str = Field(sa_type=String(80))


class KitchenVersionRow(Row, table=True):
    """A kitchen file as it was given, never changed afterwards."""

    __tablename__ = "kitchen_version"
    __table_args__ = (UniqueConstraint("kitchen_id", "number"),)

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    number: int
    document: str = Field(sa_type=Text)
    sha256: str = Field(sa_type=String(64))


class PlanRow(Row, table=True):
    """A planning run: what was asked, of which version of the file, and how it went."""

    __tablename__ = "plan"
    __table_args__ = (
        CheckConstraint(
            "state IN ({})".format(", ".join(f"'{state}'" for state in PlanState)), name="state"
        ),
    )

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id", index=True)
    kitchen_version_id: uuid.UUID = Field(foreign_key="kitchen_version.id", index=True)
    date: dt.date = Field(index=True)
    state: str = Field(sa_type=String(10), index=True)
    choices: dict[str, Any] = Field(sa_type=JSON)
    error: str | None = Field(default=None, sa_type=Text)
    note: str | None = Field(default=None, sa_type=Text)
    started_at: dt.datetime | None = Field(default=None, sa_type=UtcDateTime)
    finished_at: dt.datetime | None = Field(default=None, sa_type=UtcDateTime)
    beat_at: dt.datetime = Field(sa_type=UtcDateTime)
    """When the program that runs it last said that it lives."""
    after_release: int | None = None
    """Number of the release whose day it plans anew, from where the floor stands; None: a day from
    its start."""
    news: list[dict[str, Any]] | None = Field(default=None, sa_type=JSON)
    """What has happened since, where it plans a day anew."""
    moved_from: uuid.UUID | None = None
    """The plan whose batches it moves or holds; None: it moves none. No key: a plan is never
    deleted, and it only names another."""
    pins: list[dict[str, Any]] | None = Field(default=None, sa_type=JSON)
    """What is held by hand in it, where it moves batches."""


class PlanProgressRow(Row, table=True):
    """An improving plan, at the moment it was found."""

    __tablename__ = "plan_progress"
    __table_args__ = (UniqueConstraint("plan_id", "number"),)

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    plan_id: uuid.UUID = Field(foreign_key="plan.id")
    number: int
    seconds: float
    origin: str = Field(sa_type=String(200))
    short: int
    tardiness: int
    labor: int
    freshness: int
    finish: int
    least_labor: int = Field(default=0, sa_column_kwargs={"server_default": "0"})


class PlanResultRow(Row, table=True):
    """What a run made. Apart from ``plan``, since it is large and lists do not need it."""

    __tablename__ = "plan_result"

    plan_id: uuid.UUID = Field(foreign_key="plan.id", primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    document: str = Field(sa_type=Text)
    """The plan file, JSON."""
    sheet: str = Field(sa_type=Text)
    """What the pages show, JSON: yesterday's sheet reopens as it was."""
    traces: str = Field(sa_type=Text)
    """Why each quantity is what it is: JSON object by item."""
    course: str | None = Field(default=None, sa_type=Text)
    """The whole day as it has gone and goes on, JSON, of a day that was planned anew."""
    told: list[str] | None = Field(default=None, sa_type=JSON)
    """What people must be told of it, such as food to discard."""


class ReleaseRow(Row, table=True):
    """A plan that was given to the floor: what cooks work from until the next one."""

    __tablename__ = "release"
    __table_args__ = (UniqueConstraint("kitchen_id", "date", "number"),)

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    date: dt.date
    number: int
    plan_id: uuid.UUID = Field(foreign_key="plan.id")
    follows: int | None = None
    """Number of the release whose work it goes on with: what was said of that one still counts."""


class TickRow(Row, table=True):
    """What a cook said of a released plan, never changed afterwards: it is taken back by another.

    ``created_at`` is when it came; ``at`` when it was said, by the device's clock set right.
    """

    __tablename__ = "tick"
    __table_args__ = (
        UniqueConstraint("release_id", "key"),
        CheckConstraint("act IN ({})".format(", ".join(f"'{act}'" for act in Act)), name="act"),
    )

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    release_id: uuid.UUID = Field(foreign_key="release.id")
    key: str = Field(sa_type=String(60))
    act: str = Field(sa_type=String(20))
    at: dt.datetime = Field(sa_type=UtcDateTime)
    device_at: dt.datetime = Field(sa_type=UtcDateTime)
    """The same by the device's own clock."""
    device: str = Field(sa_type=String(60))
    cook: str = Field(sa_type=String(60))
    tasks: list[str] = Field(sa_type=JSON)
    reason: str = Field(sa_type=String(200))
    weight: dict[str, Any] | None = Field(default=None, sa_type=JSON)
    takes_back: str = Field(sa_type=String(60))


class WhatIfRow(Row, table=True):
    """A what-if of a plan. Only a look ahead: whoever asked may throw it away."""

    __tablename__ = "what_if"
    __table_args__ = (
        CheckConstraint(
            "state IN ({})".format(", ".join(f"'{state}'" for state in WhatIfState)), name="state"
        ),
    )

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    plan_id: uuid.UUID = Field(foreign_key="plan.id", index=True)
    change: str = Field(sa_type=String(10))
    value: str = Field(sa_type=String(80))
    """With ``change`` what was asked, to be asked again."""
    otherwise: dict[str, Any] = Field(sa_type=JSON)
    """The same with the names and counts of that day, as it is told."""
    state: str = Field(sa_type=String(10))
    result: str | None = Field(default=None, sa_type=Text)
    """The comparison, JSON."""
    error: str = Field(sa_type=Text)
    """Why there is none; empty unless it was refused or failed."""


class YieldTestRow(Row, table=True):
    """A yield test: of the bench, never changed; or of the floor, made anew as ticks come."""

    __tablename__ = "yield_test"
    __table_args__ = (
        UniqueConstraint("kitchen_id", "key"),
        UniqueConstraint("kitchen_id", "number"),
    )

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    key: str = Field(sa_type=String(100))
    number: int | None = None
    """Of a bench test, from 1 within its kitchen; None: of the floor."""
    date: dt.date
    of: str = Field(sa_type=String(190), index=True)
    """The yield it is of; empty: a food the kitchen file does not have."""
    supplier: str = Field(sa_type=String(80))
    cook: str = Field(sa_type=String(80))
    grams_in: float
    grams_out: float
    asked: list[dict[str, Any]] = Field(sa_type=JSON)
    record: str | None = Field(default=None, sa_type=Text)
    """All that was entered, JSON, of a bench test."""
    trim: dict[str, Any] = Field(sa_type=JSON)
    """Grams by by-product under ``kept``; ``whole``: all that was taken off was weighed."""


class YieldAnswerRow(Row, table=True):
    """What somebody answered of a test that was questioned; the newest of a test holds."""

    __tablename__ = "yield_answer"

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id", index=True)
    test_key: str = Field(sa_type=String(100))
    answer: str = Field(sa_type=String(20))
    reason: str = Field(sa_type=String(200))


class YieldDecisionRow(Row, table=True):
    """A change of a yield in use, never changed: it is put back by another."""

    __tablename__ = "yield_decision"
    __table_args__ = (UniqueConstraint("kitchen_id", "number"),)

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    number: int
    of: str = Field(sa_type=String(190))
    way: str = Field(sa_type=String(20))
    before: dict[str, Any] = Field(sa_type=JSON)
    """What stood: the kitchen's own figure or null, the day that tests count from or null, and its
    own shares of the trim by by-product.
    """
    after: dict[str, Any] = Field(sa_type=JSON)
    reason: str = Field(sa_type=String(200))
    version: int
    """Of the kitchen file that holds it."""
    puts_back: int | None = None
    """Number of the decision that it puts back."""


class YieldGatheredRow(Row, table=True):
    """How much of a day's floor the tests of the floor were made from."""

    __tablename__ = "yield_gathered"
    __table_args__ = (UniqueConstraint("kitchen_id", "date"),)

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    date: dt.date
    release: int
    ticks: int
    over: bool


class SalesEntryRow(Row, table=True):
    """Something that changed the sales history, never changed: it is put back by another."""

    __tablename__ = "sales_entry"
    __table_args__ = (UniqueConstraint("kitchen_id", "number"),)

    id: uuid.UUID = Field(default_factory=uuid.uuid4, primary_key=True)
    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id")
    number: int
    way: str = Field(sa_type=String(20))
    source: str = Field(sa_type=String(120))
    answers: list[list[str]] = Field(sa_type=JSON)
    """What was answered about names: (service or dish, name in the file, name in the kitchen)."""
    puts_back: int | None = None
    """Number of the entry that it puts back."""


class SalesLineRow(SQLModel, table=True):
    """A count of an entry; the newest of a day, service and dish holds."""

    metadata = Row.metadata
    __tablename__ = "sales_line"

    kitchen_id: uuid.UUID = Field(foreign_key="kitchen.id", primary_key=True)
    number: int = Field(primary_key=True)
    date: dt.date = Field(primary_key=True)
    service: str = Field(sa_type=String(80), primary_key=True)
    dish: str = Field(sa_type=String(80), primary_key=True)
    count: int | None = None
    """None: there is none any more."""
    before: int | None = None
    """What stood when it was entered."""


@event.listens_for(KitchenVersionRow, "before_update")
@event.listens_for(KitchenVersionRow, "before_delete")
def _refuse_change(
    mapper: Mapper[KitchenVersionRow], connection: Connection, row: KitchenVersionRow
) -> None:
    del mapper, connection
    raise ValueError(
        f"kitchen_version {row.id} is never changed: plans were made from it. Store a new version."
    )
