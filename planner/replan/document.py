"""The replan file: what is left of a day after events, as documented JSON."""

import datetime as dt
from typing import Literal

from pydantic import Field

from planner.kitchen.catalog import Catalog
from planner.lots.types import Part
from planner.plan_file.base import Moment, PlanModel, moment, moment_or_none
from planner.plan_file.convert import plan_troubles
from planner.plan_file.results import PlanTrouble
from planner.replan.changes import Change, Kind
from planner.replan.replan import Replan


class ReplanChange(PlanModel):
    """One task that is different from the plan before."""

    kind: Kind = Field(description="added, dropped, left out, moved, later or earlier.")
    lot: str = Field(description="Id of the lot.")
    part: Part = Field(description="Its beginning (work), or what is left of it.")
    operation_name: str = Field(description="The verb: Peel, Dice.")
    food_name: str = Field(description="What people call the food.")
    grams: float = Field(description="Grams going in.")
    cook_before: str | None = Field(description="Id of who was to do it, or null.")
    cook: str | None = Field(description="Id of who does it now, or null.")
    start_before: Moment | None = Field(description="When it was to start, or null.")
    start: Moment | None = Field(description="When it starts now, or null.")
    end: Moment | None = Field(description="When it ends now, or null.")


class ReplanTask(PlanModel):
    """One task that is still to be done."""

    lot: str = Field(description="Id of the lot.")
    part: Part = Field(description="What it is of the lot.")
    operation_name: str = Field(description="The verb.")
    food_name: str = Field(description="What people call the food.")
    grams: float = Field(description="Grams going into the lot.")
    cook: str = Field(description="Id of the cook.")
    start: Moment = Field(description="The work on the food starts.")
    end: Moment = Field(description="The work ends.")


class ReplanDocument(PlanModel):
    """The rest of one day from ``now`` on. Masses in grams, times in minutes."""

    format: Literal["prepwright-replan"] = Field(description="Names the format of this file.")
    version: Literal[1] = Field(description="Version of the format.")
    kitchen: str = Field(description="Name of the kitchen.")
    date: dt.date = Field(description="The planned day, ISO 8601.")
    now: Moment = Field(description="When it was planned anew.")
    rung: int = Field(description="How free the plan is: 1 nothing but delays, 6 all afresh.")
    short: int = Field(description="Weighted portions short from now on.")
    tardiness: int = Field(description="Weighted minutes late from now on.")
    begun: tuple[str, ...] = Field(description="Ids of lots that have begun and stay as they are.")
    changes: tuple[ReplanChange, ...] = Field(description="In the order of the new starts.")
    notes: tuple[str, ...] = Field(description="What people must be told: food to discard, ...")
    troubles: tuple[PlanTrouble, ...] = Field(description="What is late or short; empty: nothing.")
    tasks: tuple[ReplanTask, ...] = Field(description="All that is to be done, by start.")


def replan_document(found: Replan) -> ReplanDocument:
    """The replan as a documented, versioned file."""
    score = found.solution.score
    return ReplanDocument(
        format="prepwright-replan",
        version=1,
        kitchen=found.course.plan.kitchen,
        date=found.course.plan.date,
        now=moment(found.now),
        rung=found.rung,
        short=score.short,
        tardiness=score.tardiness,
        begun=tuple(one.lot.id for one in found.day.begun),
        changes=tuple(_change(one) for one in found.changes),
        notes=found.notes,
        troubles=plan_troubles(found.troubles),
        tasks=tuple(_tasks(found)),
    )


def _change(one: Change) -> ReplanChange:
    return ReplanChange(
        kind=one.kind,
        lot=one.lot,
        part=one.part,
        operation_name=one.operation,
        food_name=one.food,
        grams=one.grams,
        cook_before=one.cook_before,
        cook=one.cook,
        start_before=moment_or_none(one.start_before),
        start=moment_or_none(one.start),
        end=moment_or_none(one.end),
    )


def _tasks(found: Replan) -> list[ReplanTask]:
    catalog = Catalog(found.course.kitchen)
    by_task = {item.task: item for item in found.solution.timetable.assignments}
    rows = [
        (by_task[task.task], task.part, lot)
        for lot in found.workload.lots
        for task in lot.tasks
        if task.task in by_task
    ]
    rows.sort(key=lambda row: (row[0].start, row[0].task))
    return [
        ReplanTask(
            lot=lot.id,
            part=part,
            operation_name=catalog.operations[lot.operation].name,
            food_name=catalog.name(lot.food),
            grams=lot.grams_in,
            cook=found.workload.cooks[item.worker],
            start=moment(item.start),
            end=moment(item.end),
        )
        for item, part, lot in rows
    ]
