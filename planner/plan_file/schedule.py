"""The plan file's schedule rules: everything needed to check every claim about the timetable."""

from pydantic import Field

from planner.plan_file.base import Moment, PlanModel


class PlanStretch(PlanModel):
    """A stretch in which a cook does no prep, the end excluded."""

    kind: str = Field(description="on the line, station set-up, or away.")
    start: Moment = Field(description="First minute.")
    end: Moment = Field(description="Minute after the last.")


class PlanRest(PlanModel):
    """A break; when it is stands in rests of the document."""

    minutes: int = Field(description="How long it is.")
    earliest: Moment = Field(description="Starts no earlier.")
    latest: Moment = Field(description="Starts no later; the same: it is fixed.")


class PlanCook(PlanModel):
    """A cook on this day."""

    cook: str = Field(description="Id of the cook.")
    start: Moment = Field(description="The shift starts.")
    end: Moment = Field(description="The shift ends; work after it is overtime.")
    latest_end: Moment = Field(description="All work ends by then, overtime included.")
    blocked: tuple[PlanStretch, ...] = Field(
        description="No prep then: station set-up, time on the line."
    )
    rests: tuple[PlanRest, ...] = Field(default=(), description="Breaks.")
    wage_per_hour: float = Field(description="Money per hour, in the kitchen's currency.")
    flexible: bool = Field(
        description="Paid from first to last minute of work; else for the whole shift."
    )
    min_paid: int = Field(description="Least minutes paid where the shift is flexible.")


class PlanResource(PlanModel):
    """A station's places or a kind of equipment."""

    id: str = Field(description="'station:' or 'equipment:' and its id.")
    capacity: int = Field(description="Units at once.")
    contact: bool = Field(
        description="Each unit touches food and keeps its own hygiene state; a hold names its unit."
    )


class PlanFamily(PlanModel):
    """Tasks done in one run without a changeover between them."""

    operation: str = Field(description="The operation, with ':check' or ':finish' for those parts.")
    food: str = Field(description="Id of the food; with '/' and the cut where it is cut.")
    station: str = Field(description="Id of the station.")
    raw_animal: str | None = Field(description="Species of raw animal food left behind, or null.")
    allergens: tuple[str, ...] = Field(description="Allergens left behind.")
    set_up: int = Field(description="Minutes, once where a cook opens a batch of this family.")


class PlanTaskFacts(PlanModel):
    """What is asked of one task."""

    id: str = Field(description="Id of the task.")
    lot: int = Field(description="Index of its lot.")
    family: int = Field(description="Index into families.")
    minutes: dict[str, int] = Field(
        description="Whole minutes by cook id; who is not in it cannot do the task."
    )
    release: Moment = Field(description="Starts no earlier.")
    earliest_end: Moment | None = Field(description="Ends no earlier, to be fresh; or null.")
    due: Moment | None = Field(description="Late after this; null: nothing is due.")
    due_weight: int = Field(description="Tardiness counted per late minute.")
    until: Moment | None = Field(description="Must not end after; null: no limit.")
    fresh_weight: int = Field(description="Freshness counted per minute between its end and due.")
    pausable: bool = Field(
        default=False,
        description="It may be put down over a break of its cook: it starts before the break and "
        "ends after it, and takes so much longer.",
    )


class PlanServing(PlanModel):
    """Portions of a promise that want a lot's share of a component."""

    promise: int = Field(description="Index into promises.")
    component: str = Field(description="Id of the component.")
    portions: int = Field(description="Portions that go short without it.")


class PlanJob(PlanModel):
    """The tasks of one lot: all done, or none."""

    id: str = Field(description="Id of the lot.")
    tasks: tuple[int, ...] = Field(description="Indexes into tasks.")
    needs: tuple[int, ...] = Field(description="Jobs that must be made if this one is.")
    serves: tuple[PlanServing, ...] = Field(description="What goes short if it is not made.")
    impossible: str = Field(description="Why it cannot be made at all; empty: it can.")


class PlanWait(PlanModel):
    """A wait between two tasks: minimum <= start of after - end of before <= maximum."""

    before: int = Field(description="Index into tasks.")
    after: int = Field(description="Index into tasks.")
    minimum: int = Field(description="Least minutes.")
    maximum: int | None = Field(description="Most minutes, or null: no limit.")


class PlanExposure(PlanModel):
    """Minutes out of temperature control, from the start of first to the end of last.

    Its own, and the most of spent and of the sums of those in after whose tasks are done: at most
    limit. With since they count from that moment.
    """

    first: int = Field(description="Index into tasks.")
    last: int = Field(description="Index into tasks.")
    limit: int = Field(description="Most minutes, all added up.")
    after: tuple[int, ...] = Field(description="Exposures before it; indexes into exposures.")
    spent: int = Field(description="Minutes out before, known beforehand.")
    since: Moment | None = Field(description="Since when it is out, or null: since first starts.")


class PlanHold(PlanModel):
    """A resource held from the lead of one task to the end of another, and its tail."""

    resource: int = Field(description="Index into resources.")
    first: int = Field(description="Task whose lead opens it; index into tasks.")
    last: int = Field(description="Task whose end closes it; index into tasks.")
    units: int = Field(description="Units held.")
    tail: int = Field(description="Minutes it is held after the last task ends.")


class PlanPromise(PlanModel):
    """Portions of a dish at a service, or a par, that lots serve."""

    id: str = Field(description="Id of the promise.")
    portions: int = Field(description="Whole portions.")
    weight: int = Field(description="Shortness counted per short portion.")


class PlanWalk(PlanModel):
    """Minutes between two stations, either way, in place of another_station."""

    station: str = Field(description="Id of a station.")
    other: str = Field(description="Id of the other one.")
    minutes: int = Field(description="The way from one to the other.")


class PlanChangeovers(PlanModel):
    """Minutes between two batches of one cook, by what changes."""

    another_food: int = Field(description="Same operation and station, another food.")
    another_operation: int = Field(description="Same station, another operation.")
    another_station: int = Field(description="Another station, where walks has no other minutes.")
    walks: tuple[PlanWalk, ...] = Field(
        default=(), description="Pairs of stations with minutes of their own."
    )
    hand_wash: int = Field(description="On leaving raw animal food or an allergen.")
    clean: int = Field(description="Per surface or tool to be cleaned and sanitised.")
    clean_every: int | None = Field(
        default=None,
        description="After so many minutes of use they are cleaned, or null: not by the clock.",
    )


class PlanSchedule(PlanModel):
    """The scheduling problem of the day; what each fact binds is said in docs/plan-file.md."""

    start: Moment = Field(description="The day's work may start; the finish is counted from here.")
    horizon: Moment = Field(description="Nothing ends later.")
    cooks: tuple[PlanCook, ...] = Field(description="Cooks that are in.")
    resources: tuple[PlanResource, ...] = Field(description="Stations' places and equipment.")
    families: tuple[PlanFamily, ...] = Field(description="Kinds of runs.")
    tasks: tuple[PlanTaskFacts, ...] = Field(description="All tasks, done or not.")
    jobs: tuple[PlanJob, ...] = Field(description="All lots' jobs, by lot index.")
    waits: tuple[PlanWait, ...] = Field(description="Waits between tasks.")
    exposures: tuple[PlanExposure, ...] = Field(
        default=(), description="Food that could be out of temperature control for too long."
    )
    holds: tuple[PlanHold, ...] = Field(description="Places and equipment held.")
    promises: tuple[PlanPromise, ...] = Field(description="What guests are promised.")
    changeovers: PlanChangeovers = Field(description="Minutes between batches.")
