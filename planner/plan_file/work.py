"""The plan file's work: lots of food, their tasks, and who does them when and where."""

from pydantic import Field

from planner.lots.batching import Batches
from planner.lots.types import Part
from planner.plan_file.base import ComponentGrams, ItemGrams, Moment, PlanModel, Portions


class PlanLead(PlanModel):
    """Hands-on minutes right before a task, by kind."""

    set_up: int = Field(description="Minutes to set up, once per batch.")
    changeover: int = Field(description="Minutes for another food, operation or station.")
    hand_wash: int = Field(description="Minutes to wash hands on leaving raw food or an allergen.")
    clean: int = Field(description="Minutes to clean and sanitise surfaces and tools.")
    total: int = Field(description="Minutes of the four together.")


class PlanUse(PlanModel):
    """A place or equipment held from the lead of this task on."""

    hold: int = Field(description="Index into schedule.holds.")
    resource: str = Field(description="'station:' or 'equipment:' and its id.")
    units: int = Field(description="Units held.")
    unit: int | None = Field(
        description="Which unit, from 0, where units keep their own hygiene state; else null."
    )
    cleaned: bool = Field(
        default=False, description="The unit is cleaned and sanitised in this task's lead."
    )


class PlanPause(PlanModel):
    """A break within a task that is put down over it and taken up again."""

    start: Moment = Field(description="The break starts.")
    end: Moment = Field(description="The break ends.")


class PlanDone(PlanModel):
    """A task done: who, when, where."""

    cook: str = Field(description="Id of the cook.")
    station: str = Field(description="Id of the station.")
    batch: int = Field(
        description="Number of the batch on the sheet: a run of one cook's tasks of one family, up "
        "to a break, the line or an idle quarter of an hour."
    )
    uses: tuple[PlanUse, ...] = Field(description="What is held from this task's lead on.")
    lead: PlanLead = Field(description="Minutes before the work, the cook being busy with it.")
    lead_start: Moment = Field(description="The cook starts the lead: start less lead.total.")
    start: Moment = Field(description="The work on the food starts.")
    end: Moment = Field(
        description="The work ends: start + the cook's minutes for the task + its pauses."
    )
    pauses: tuple[PlanPause, ...] = Field(
        default=(), description="Breaks it is put down over; only where the task is pausable."
    )


class PlanTask(PlanModel):
    """Hands-on work of a lot, done by one cook, in one go but for its pauses."""

    task: int = Field(description="Index into schedule.tasks.")
    part: Part = Field(description="What it is of the lot: work, check or finish (take out).")
    book_minutes: float = Field(description="Minutes at book pace, unrounded.")
    done: PlanDone | None = Field(description="Null: the lot is not made and goes short.")


class PlanUpstream(PlanModel):
    """Grams taken from another lot of today."""

    lot: int = Field(description="Index of the lot that gives.")
    grams: float = Field(description="Grams.")


class PlanBatching(PlanModel):
    """A stage whose food is divided into lots otherwise than by the rule."""

    stage: tuple[str, ...] = Field(
        description="What sets the stage apart: its food, and its steps with all that bounds them."
    )
    way: Batches = Field(
        description="apart: later needs have lots of their own; together: all needs share lots; "
        "halved: twice as many lots; whole: as large as the vessel takes."
    )


class PlanPin(PlanModel):
    """A lot that people hold by hand, at a cook or a time."""

    lot: str = Field(description="Id of the lot.")
    cook: str | None = Field(description="Id of the cook who does its work; null: not held.")
    begin: Moment | None = Field(description="Its work begins then, or not before; null: not held.")
    exactly: bool = Field(description="It begins at that minute; else not before it.")
    follows: str = Field(
        description="Id of the lot of the same batch that it was to come after; or empty."
    )


class PlanLot(PlanModel):
    """One operation on one share of food, the smallest thing that is placed in the day."""

    index: int = Field(description="Index of the lot; also of its job in schedule.jobs.")
    id: str = Field(description="Id of the lot.")
    operation: str = Field(description="Id of the operation.")
    operation_name: str = Field(description="The verb: Peel, Dice.")
    food: str = Field(description="Id of the ingredient or component it is done on.")
    food_name: str = Field(description="What people call the food.")
    component: str = Field(description="Id of the first component it is for.")
    step: int = Field(description="Step on that component's route, from 0.")
    cut: str | None = Field(description="Id of the knife cut, or null.")
    grams_in: float = Field(description="Grams going in.")
    grams_out: float = Field(description="Grams coming out.")
    shares: tuple[ComponentGrams, ...] = Field(description="Grams out by component.")
    unattended: int = Field(description="Minutes it goes on by itself after the hands-on start.")
    release: Moment = Field(description="Its food is there from.")
    due: Moment = Field(description="Wanted by.")
    until: Moment = Field(description="Of no use afterwards.")
    finishes: bool = Field(description="Whether the component is finished with it.")
    missed: bool = Field(description="An earlier day should have started it.")
    made: bool = Field(description="All its tasks are done; else it goes short.")
    upstream: tuple[PlanUpstream, ...] = Field(description="What it takes from other lots.")
    pulls: tuple[ItemGrams, ...] = Field(description="What it takes from the shelf.")
    stock: tuple[ItemGrams, ...] = Field(
        description="Prepared or part-made stock it takes, and by-products that stand in."
    )
    trim: tuple[ItemGrams, ...] = Field(
        description="By-products kept; the rest of the loss is waste or evaporates."
    )
    dishes: tuple[Portions, ...] = Field(description="What goes short without it.")
    allergens: tuple[str, ...] = Field(description="Allergens in it at this step, by name.")
    tasks: tuple[PlanTask, ...] = Field(description="Its hands-on work, in order.")
