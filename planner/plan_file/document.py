"""The plan file: one versioned JSON document with a planned morning and all that proves it."""

import datetime as dt
from typing import Literal

from pydantic import Field

from planner.plan_file.base import Moment, PlanModel
from planner.plan_file.quantities import PlanDemand, PlanQuantities
from planner.plan_file.results import PlanLabor, PlanRemedy, PlanSolver, PlanTerm, PlanTrouble
from planner.plan_file.schedule import PlanSchedule
from planner.plan_file.traces import PlanTrace
from planner.plan_file.work import PlanBatching, PlanLot, PlanPin


class PlanDocument(PlanModel):
    """One planned morning. Masses in grams, durations in minutes, money in ``currency``."""

    format: Literal["prepwright-plan"] = Field(description="Names the format of this file.")
    version: Literal[1] = Field(description="Version of the format.")
    kitchen: str = Field(description="Name of the kitchen.")
    date: dt.date = Field(description="The planned day, ISO 8601.")
    time_zone: str = Field(description="IANA name of the wall clock.")
    currency: str = Field(description="ISO 4217 code of all money.")
    demands: tuple[PlanDemand, ...] = Field(description="What must be ready, and for whom.")
    quantities: PlanQuantities = Field(description="How much to pull and make, and why.")
    lots: tuple[PlanLot, ...] = Field(description="The work, by lot index.")
    batching: tuple[PlanBatching, ...] = Field(
        default=(), description="Where lots are made otherwise than by the rule."
    )
    schedule: PlanSchedule = Field(description="The facts and rules the timetable keeps.")
    rests: dict[str, tuple[Moment, ...]] = Field(
        default_factory=dict,
        description="When the breaks of each cook start, by cook id, in the order of the cook's "
        "rests in schedule.cooks.",
    )
    objective: tuple[PlanTerm, ...] = Field(description="Terms in their strict order.")
    solver: PlanSolver = Field(description="How the timetable was found.")
    labor: PlanLabor = Field(description="Where the minutes go.")
    short_portions: int = Field(
        default=0,
        description="Portions of guests' dishes that are short, unweighted, each dish and service "
        "once, whether food is not made or a dish lacks what it takes as it is: the sum over "
        "troubles.",
    )
    short_kilos: int = Field(
        default=0, description="Kilos of the kitchen's own pars and batches that are short."
    )
    troubles: tuple[PlanTrouble, ...] = Field(description="What is late or short; empty: nothing.")
    remedies: tuple[PlanRemedy, ...] = Field(description="What would help.")
    pins: tuple[PlanPin, ...] = Field(
        default=(), description="What people hold by hand; the timetable keeps it."
    )
    traces: dict[str, PlanTrace] = Field(
        # A file written before there were traces is still read.
        default_factory=dict,
        description="Why each quantity is what it is: one for every component of "
        "quantities.components and every ingredient of quantities.pulls, by its id.",
    )
