"""What a day brings: services with covers, stock on hand, deliveries."""

import datetime as dt
from enum import StrEnum

from pydantic import Field

from planner.kitchen.base import Amount, ClockTime, FileModel, Id, Name, Share


class MixLine(FileModel):
    """How often a cover orders a dish. Shares need not sum to 1."""

    dish: Id = Field(description="A dish on the menu of this service.")
    per_cover: float = Field(ge=0, le=10, description="Portions per cover; above 1 = several each.")


class Service(FileModel):
    """One service on one date."""

    id: Id
    name: Name
    date: dt.date = Field(description="The day it is on.")
    opens: ClockTime = Field(description="When doors open, 'HH:MM'.")
    closes: ClockTime = Field(description="When service ends, 'HH:MM'.")
    covers: int = Field(ge=0, le=20_000, description="Forecast, or the guaranteed count.")
    guaranteed: bool = Field(default=False, description="A banquet's count, not a forecast.")
    overset: int = Field(default=0, ge=0, le=1000, description="Covers agreed above guaranteed.")
    covers_spread: Share | None = Field(
        default=None, description="Standard deviation of covers / covers; default: the kitchen's."
    )
    service_level: float | None = Field(
        default=None, gt=0, lt=1, description="Chance of enough; default: the kitchen's."
    )
    buffer_fraction: float | None = Field(
        default=None, ge=0, le=1, description="The simple way: a flat share on top instead."
    )
    mix: tuple[MixLine, ...] = Field(min_length=1, description="What covers order.")
    plating_set_up_minutes: int | None = Field(
        default=None, ge=0, le=240, description="On the line so long before doors."
    )
    weight: int = Field(default=1, ge=1, le=10, description="How much a late minute matters.")


class PreparedStock(FileModel):
    """A component on hand: counted, with its use-by; or part-way along its route."""

    item: Id = Field(description="A component.")
    amount: Amount
    made: dt.date = Field(description="Day of preparation.")
    use_by: dt.date = Field(description="Last day of use.")
    after_step: int | None = Field(
        default=None,
        ge=1,
        description="Part-made: so many steps of its route are done, such as brined not roasted.",
    )


class RawStock(FileModel):
    """An ingredient on hand, as purchased."""

    item: Id = Field(description="An ingredient.")
    amount: Amount
    received: dt.date = Field(description="The day it came.")
    use_by: dt.date | None = Field(default=None, description="Last day of use; default: not known.")


class DeliveryState(StrEnum):
    """Whether a delivery can be counted on."""

    EXPECTED = "expected"
    MISSING = "missing"


class Delivery(FileModel):
    """An ingredient on its way, as purchased."""

    item: Id = Field(description="An ingredient.")
    amount: Amount
    date: dt.date = Field(description="The day it comes.")
    at: ClockTime = Field(description="When it comes, 'HH:MM'.")
    state: DeliveryState = DeliveryState.EXPECTED
    supplier: str = Field(default="", description="Who brings it.")
