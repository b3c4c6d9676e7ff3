"""The plan file's results: the objective and its proof, labor, troubles and remedies."""

from pydantic import Field

from planner.plan_file.base import PlanModel
from planner.schedule.timetable import Status, Term


class PlanTerm(PlanModel):
    """One term of the objective; terms are compared strictly in their order."""

    term: Term = Field(
        description="short (what is not made, weighted: portions of each dish x its weight, and "
        "kilos of own pars and batches; without what dishes take as it is, which no schedule "
        "changes; portions as guests count them are in short_portions of the document), tardiness "
        "(weighted minutes late), labor (minutes of work and leads, and overtime on top), "
        "freshness (weighted minutes), finish (minutes)."
    )
    value: int = Field(description="What this plan comes to, in the term's own unit.")
    bound: int = Field(
        description="No plan that is as good in every earlier term comes below this."
    )
    gap: float = Field(
        description="(value - bound) / value as a fraction of 1; value itself where the bound is 0."
    )
    proven: bool = Field(description="The value is the bound: it cannot be better.")
    relaxation: str = Field(description="Which argument gave the bound.")


class PlanProgress(PlanModel):
    """An improving plan, as it was found."""

    seconds: float = Field(description="Seconds since the search began.")
    origin: str = Field(description="What found it.")
    short: int = Field(description="Weighted portions short.")
    tardiness: int = Field(description="Weighted minutes late.")
    labor: int = Field(description="Minutes of work and leads, and overtime on top.")
    freshness: int = Field(description="Weighted minutes fresh work lies before it is due.")
    finish: int = Field(description="Minutes from the day's start to the last end.")
    least_labor: int = Field(
        default=0, description="No such plan has fewer minutes of work and leads; 0: not known."
    )


class PlanSolver(PlanModel):
    """How the timetable was found."""

    status: Status = Field(description="optimal: every term proven; feasible: it keeps the rules.")
    seed: int = Field(description="Seed of the search.")
    seconds: float = Field(description="Seconds spent.")
    deterministic_time: float = Field(
        description="The solver's own machine-independent measure of work spent."
    )
    history: tuple[PlanProgress, ...] = Field(description="Improving plans, first to last.")


class PlanCookMinutes(PlanModel):
    """Minutes of one cook on the planned day."""

    cook: str = Field(description="Id of the cook.")
    name: str = Field(description="What people call the cook.")
    hands_on: int = Field(description="Minutes of work on food.")
    set_up: int = Field(description="Minutes of batch set-up.")
    station_set_up: int = Field(description="Minutes of station set-up at the start of the shift.")
    changeover: int = Field(description="Minutes of changeovers, hand-washing and cleaning.")
    waiting: int = Field(description="Idle minutes between first and last work.")
    breaks: int = Field(description="Minutes of breaks.")
    on_line: int = Field(description="Minutes on the line, not at prep.")
    overtime: int = Field(description="Minutes worked after the end of the shift.")
    paid: int = Field(description="Minutes paid.")
    wages: float = Field(description="Money, in the kitchen's currency.")
    beside: str = Field(
        default="",
        description="Of a trainee: id of the cook they work beside, with whom the work stands.",
    )


class PlanLabor(PlanModel):
    """Where the minutes go, and what batching saved."""

    cooks: tuple[PlanCookMinutes, ...] = Field(description="By cook.")
    total: int = Field(
        description="Minutes of work and leads of all cooks; overtime minutes are among them and "
        "not counted again, as the objective does."
    )
    dish_by_dish: int = Field(
        description="The same sum if the same food is made one dish after the other, with as many "
        "hours as that takes: scheduled, not estimated."
    )
    dish_by_dish_late: int = Field(description="Minutes late that way.")
    dish_by_dish_short: int = Field(description="Portions short that way.")
    saved: int = Field(
        description="dish_by_dish less total, minutes; negative: batching cost more."
    )
    cleans: int = Field(
        default=0,
        description="Surfaces and tools cleaned and sanitised, between foods and by the clock.",
    )
    clean_minutes: int = Field(default=0, description="Minutes of that, within changeover.")
    comparable: bool = Field(
        description="False: the plan leaves food short that dish by dish would make, so saved "
        "compares unequal work."
    )


class PlanLeftOut(PlanModel):
    """A component that is not made, wholly or in part, because something else is short."""

    item: str = Field(description="Id of the component.")
    name: str = Field(description="What people call it.")


class PlanTrouble(PlanModel):
    """One thing that is late or short; a dish at a service that is short has one."""

    kind: str = Field(description="late or short.")
    item: str = Field(description="Id of what it is about.")
    text: str = Field(description="In words.")
    minutes: int = Field(description="Minutes late, or minutes missing of what lacks says.")
    portions: int = Field(description="Portions at stake, or kilos where unit is kg.")
    binding: str = Field(description="The resource that binds, and how that was read.")
    lacks: str = Field(
        default="hands",
        description="What the missing minutes are: hands, hands-on minutes not worked; route, so "
        "much longer than the time there is; resource, unit-minutes of it (one unit for a "
        "minute); skill or food, hands-on minutes of what could be made but for hands.",
    )
    unit: str = Field(
        default="portions", description="portions, or kg of the kitchen's own par or batch."
    )
    service: str = Field(
        default="",
        description="Id of the service that is short; empty: the kitchen's own, or late.",
    )
    dish: str = Field(default="", description="Id of the dish that is short; empty as above.")
    lacks_too: tuple[str, ...] = Field(
        default=(), description="Ids of what it lacks besides item: each must be had."
    )
    resource: str = Field(
        default="", description="Id, under schedule, of the resource that binds; empty: none does."
    )
    left_out: tuple[PlanLeftOut, ...] = Field(
        default=(),
        description="What is not made for it either, since the rest would be made in vain: to be "
        "made as well if what is missing turns up.",
    )


class PlanRemedy(PlanModel):
    """A change that was planned anew and found to help."""

    text: str = Field(description="What to change, in words.")
    late_minutes: int = Field(description="Minutes that would still be late, unweighted.")
    short_portions: int = Field(
        description="Portions that would still be short, unweighted, each dish and service once."
    )
    solves: bool = Field(description="Nothing would be late or short.")
    short_kilos: int = Field(
        default=0, description="Kilos of the kitchen's own pars and batches still short."
    )
    late_minutes_before: int = Field(default=0, description="Minutes late without the change.")
    short_portions_before: int = Field(default=0, description="Portions short without it.")
    short_kilos_before: int = Field(default=0, description="Own kilos short without it.")
