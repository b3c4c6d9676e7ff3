"""The kitchen file: one versioned JSON document that holds a whole kitchen."""

import datetime as dt
from typing import Literal

from pydantic import Field

from planner.kitchen.base import STARTING_GUESS, Amount, FileModel, Name, Share, Source
from planner.kitchen.day import Delivery, PreparedStock, RawStock, Service
from planner.kitchen.foods import Component, Cut, Dish, Ingredient
from planner.kitchen.work import Changeovers, Cook, Equipment, Operation, RestRule, Station

FORMAT = "prepwright-kitchen"
VERSION = 1


class KitchenUnit(FileModel):
    """A unit of the kitchen's own: a sixth pan, a ladle."""

    name: str = Field(min_length=1, max_length=40, description="As amounts write it.")
    equals: Amount = Field(description="In a unit of the closed list: '1.6 l'.")
    source: Source = STARTING_GUESS


class Rules(FileModel):
    """The kitchen's own settings."""

    service_level: float = Field(
        default=0.9, gt=0, lt=1, description="Chance that what is ready covers what is ordered."
    )
    kept_level: float | None = Field(
        default=None,
        gt=0,
        lt=1,
        description="Chance of enough of food that keeps to another day, where it is higher than "
        "that of the dish: what is left of it is used the day after. Counts where buffers are set "
        "by a level or by costs; default: as of any food.",
    )
    covers_spread: Share = Field(default=0.08, description="Standard deviation / covers.")
    plating_set_up_minutes: int = Field(
        default=30, ge=0, le=240, description="On the line so long before doors."
    )
    lot_minutes: int = Field(
        default=30, ge=5, le=240, description="A lot is about so much of one cook's hands at most."
    )
    uncontrolled_minutes: int = Field(
        default=30,
        ge=5,
        le=240,
        description="TCS work in progress held ambient goes on within so long; local code governs.",
    )
    out_of_control_minutes: int = Field(
        default=240,
        ge=30,
        le=360,
        description="TCS food is out of temperature control for so long at most, all steps until "
        "it is cooked through together (FDA Food Code 3-501.19); local code governs.",
    )
    clean_every_minutes: int | None = Field(
        default=240,
        ge=30,
        le=1440,
        description="Surfaces and tools in contact with food are cleaned after so long in use (FDA "
        "Food Code 4-602.11(C); here for all food, not only TCS food); null: not by the clock. "
        "Local code governs.",
    )
    day_margin_minutes: int = Field(
        default=60,
        ge=0,
        le=600,
        description="Work whose bare minutes fit the day with less to spare starts the day before.",
    )
    station_set_up_minutes: int = Field(
        default=10, ge=0, le=60, description="At the start of a shift: board, knives, scale."
    )
    rest_rules: tuple[RestRule, ...] = Field(
        default=(),
        description="How long a cook may work without a rest; default: as the shifts say.",
    )
    lookahead_days: int = Field(
        default=3, ge=0, le=7, description="Later days looked at for what must start today."
    )
    pull_level: float = Field(
        default=0.5,
        ge=0.5,
        lt=1,
        description="Chance that what is pulled gives enough, where the kitchen's own yields are "
        "known with their spread; 0.5: as much as is expected to be needed.",
    )
    set_up_ticked: bool = Field(
        default=True,
        description="Start is ticked before board and knife are got, so that set-ups are learned; "
        "false: at the first cut, and set-ups stay as this file has them.",
    )
    learns_yields: bool = Field(
        default=False,
        description="Yields that tests show to be others are taken into use by rule; otherwise "
        "somebody decides each.",
    )
    changeovers: Changeovers = Changeovers()


class Kitchen(FileModel):
    """A whole kitchen."""

    format: Literal["prepwright-kitchen"] = Field(description="Names the format of this file.")
    version: Literal[1] = Field(description="Version of the format.")
    name: Name
    as_of: dt.date = Field(description="The day its stock was counted.")
    time_zone: str = Field(default="UTC", description="IANA name of the wall clock.")
    currency: str = Field(default="USD", pattern=r"^[A-Z]{3}$", description="ISO 4217.")
    country: str | None = Field(
        default=None,
        pattern=r"^[A-Z]{2}$",
        description="ISO 3166-1, two letters: its public holidays count in forecasts.",
    )
    region: str | None = Field(
        default=None,
        pattern=r"^[A-Z0-9]{1,6}$",
        description="ISO 3166-2 without the country, such as NY: holidays of that part of it, too.",
    )
    rules: Rules = Rules()
    units: tuple[KitchenUnit, ...] = ()
    cuts: tuple[Cut, ...] = Field(default=(), description="Added to, or replacing, the starters.")
    ingredients: tuple[Ingredient, ...] = Field(min_length=1)
    operations: tuple[Operation, ...] = Field(min_length=1)
    components: tuple[Component, ...] = Field(min_length=1)
    dishes: tuple[Dish, ...] = Field(min_length=1)
    services: tuple[Service, ...] = Field(min_length=1)
    stations: tuple[Station, ...] = Field(min_length=1)
    equipment: tuple[Equipment, ...] = ()
    cooks: tuple[Cook, ...] = Field(min_length=1)
    prepared: tuple[PreparedStock, ...] = ()
    raw_stock: tuple[RawStock, ...] = ()
    deliveries: tuple[Delivery, ...] = ()
