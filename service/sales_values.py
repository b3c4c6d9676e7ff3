"""Values of the kept sales history."""

import datetime as dt
import uuid
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from pydantic import Field

from planner.forecast.history import Sale
from planner.forecast.keeping import Key
from service.sales_choices import Differ
from service.values import Value

MOST_LINES = 60_000
"""In one request: ten years of a service with a dozen dishes are less."""
CLOSED = "\N{EN DASH}"
"""Stands for the dish in a line that says that a service was closed; no dish can be called so,
since names of files are never kept where they are it."""


INVENTED_BY = "demo, invented"
"""Who has entered what nobody bought: the demo's past."""


class SalesWay(StrEnum):
    """How an entry of the history came about."""

    FILE = "file"
    """A file, or lines, of a program or a person."""
    HAND = "hand"
    """Entered on the page."""
    CLOSED = "closed"
    """Said to have been closed."""
    BACK = "back"
    """Brings again what stood before another entry."""


@dataclass(frozen=True, slots=True)
class SalesChange:
    """A count of an entry; None: there is none any more."""

    date: dt.date
    service: str
    dish: str
    count: int | None

    @property
    def key(self) -> Key:
        """What it is the count of."""
        return self.date, self.service, self.dish


@dataclass(frozen=True, slots=True)
class SalesEntry:
    """Something that changed the history: never changed, put back by another.

    Attributes
    ----------
    source
        Name of the file, or empty.
    added, changed
        Counts that are new, and that are other than before.
    first, last
        Days that it is about.
    puts_back
        Number of the entry that it puts back.
    """

    number: int
    way: SalesWay
    source: str
    added: int
    changed: int
    first: dt.date
    last: dt.date
    puts_back: int | None
    answers: Mapping[tuple[str, str], str]
    at: dt.datetime
    actor: str


@dataclass(frozen=True, slots=True)
class KeptSales:
    """What is kept of a kitchen: ``version`` is the number of the newest entry, 0 where none is."""

    kitchen_id: uuid.UUID
    version: int
    counts: Mapping[Key, int]

    @property
    def sales(self) -> tuple[Sale, ...]:
        """Lines of what was sold, by day, service and dish."""
        return tuple(
            Sale(date, service, dish, count)
            for (date, service, dish), count in sorted(self.counts.items())
            if dish != CLOSED
        )

    @property
    def closed(self) -> frozenset[tuple[str, dt.date]]:
        """Days on which a service is known to have been closed."""
        return frozenset((service, date) for date, service, dish in self.counts if dish == CLOSED)


class SaleSent(Value):
    """How many of a dish a service sold on a day."""

    date: dt.date = Field(description="The day, ISO 8601.")
    service: str = Field(max_length=80, description="Name or id of a service.")
    dish: str = Field(max_length=80, description="Id or name of a dish; 'covers': the guests.")
    count: int = Field(ge=0, le=100_000, description="Portions, or guests.")


class SalesSent(Value):
    """Lines of a sales history, kept wholly or not at all."""

    lines: tuple[SaleSent, ...] = Field(
        min_length=1, max_length=MOST_LINES, description="What was sold."
    )
    source: str = Field(default="", max_length=120, description="Where it comes from.")
    services: dict[str, str] = Field(
        default_factory=dict,
        description="What unknown services are, by the kitchen's names; '': leave them out.",
    )
    dishes: dict[str, str] = Field(
        default_factory=dict,
        description="What unknown dishes are, by their ids; '': leave them out; its own name: keep "
        "it, it is no longer made.",
    )
    differing: Differ = Field(
        default=Differ.ASK,
        description="Counts other than those kept: ask (refuse all), keep, or replace.",
    )


class SalesGap(Value):
    """A day on which a service is usually open, and of which nothing is kept."""

    date: dt.date = Field(description="The day.")
    service: str = Field(description="The service.")


class SalesTaken(Value):
    """What became of lines that were sent."""

    number: int | None = Field(description="Of the entry; null where nothing was new.")
    added: int = Field(description="Counts that are new.")
    changed: int = Field(description="Counts that replaced others.")
    same: int = Field(description="Counts that were kept already.")
    left: int = Field(description="Counts that differ and stay as they were kept.")
    left_out: int = Field(description="Lines left out, as was said of their names.")
    gaps: tuple[SalesGap, ...] = Field(description="Days that may be missing now.")


class SalesKept(Value):
    """The kept sales history."""

    version: int = Field(description="Number of its newest entry; 0: nothing is kept.")
    lines: tuple[SaleSent, ...] = Field(description="Every count.")
    gaps: tuple[SalesGap, ...] = Field(description="Days that may be missing.")
