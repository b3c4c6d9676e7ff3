"""The plan file's quantities: what guests will order, what is made of it, what is pulled."""

import datetime as dt

from pydantic import Field

from planner.plan_file.base import ComponentGrams, Moment, PlanModel
from planner.quantities.types import Reason


class PlanDemand(PlanModel):
    """Portions of one dish to be ready for at one service."""

    service: str = Field(description="Id of the service.")
    service_name: str = Field(description="What people call the service.")
    dish: str = Field(description="Id of the dish.")
    dish_name: str = Field(description="What people call the dish.")
    date: dt.date = Field(description="Date of the service, ISO 8601.")
    doors: Moment = Field(description="The service opens.")
    due: Moment = Field(description="On the line by: doors less the plating set-up.")
    until: Moment = Field(description="The service closes; food is of no use to it afterwards.")
    expected: float = Field(description="Mean portions: covers x menu mix.")
    buffer: int = Field(
        description="Whole portions on top of the expectation rounded up; can be negative where "
        "leftovers cost more than shortages."
    )
    total: int = Field(description="Whole portions to be ready for.")
    weight: int = Field(description="How much one short portion matters.")
    lateness_weight: int = Field(description="How much one late minute matters.")
    reason: str = Field(description="How the buffer was set, in words.")


class PlanShare(PlanModel):
    """The part of a want that one dish at one service takes."""

    service: str = Field(description="Id of the service.")
    dish: str = Field(description="Id of the dish.")
    portions: int = Field(description="Whole portions.")
    grams: float = Field(description="Grams of the component.")


class PlanWant(PlanModel):
    """Finished grams of a component that one consumer wants."""

    reason: Reason = Field(
        description="Why: a dish, another component, par, rounding to batches, a later day."
    )
    consumer: str = Field(description="Id of the dish or component that takes it.")
    consumer_name: str = Field(description="What people call the consumer.")
    grams: float = Field(description="Finished grams.")
    expected: float = Field(description="Grams for the expected portions.")
    buffer: float = Field(
        description="Grams for the buffer; 0 where a component wants it, since the one buffer is "
        "already inside."
    )
    due: Moment = Field(description="Wanted by.")
    until: Moment = Field(description="Of no use afterwards.")
    doors: Moment = Field(description="The opening it is for.")
    day: int = Field(description="Day it is wanted, counted from the planned day (0).")
    lateness_weight: int = Field(description="How much one late minute matters.")
    shares: tuple[PlanShare, ...] = Field(description="The dishes that go short without it.")


class PlanStockUse(PlanModel):
    """Counted stock that covers part of the wants."""

    item: str = Field(description="Id of the component on hand.")
    grams: float = Field(description="Grams used.")
    use_by: str = Field(description="Last day of use, ISO 8601.")
    after_step: int | None = Field(
        description="Null: finished; else part-made, so many steps of its route done."
    )


class PlanStep(PlanModel):
    """One step of a component's route on the planned day."""

    index: int = Field(description="Position on the component's route, from 0.")
    operation: str = Field(description="Id of the operation.")
    grams_in: float = Field(
        description="Grams going in: what the step before gives and the inputs that go in here."
    )
    grams_out: float = Field(description="Grams coming out: in x fraction.")
    fraction: float = Field(description="Yield, mass out / mass in.")
    source: str = Field(description="Where the yield comes from.")
    from_stock: float = Field(description="Grams of part-made stock that enter after the step.")


class PlanCredit(PlanModel):
    """A by-product that stands in for an input."""

    by_product: str = Field(description="Id of the by-product.")
    from_component: str = Field(description="Id of the component whose trim it is, or 'on hand'.")
    from_step: int = Field(description="Step on that component's route, from 0; -1: on hand.")
    into_step: int = Field(description="Step it goes in at, from 0.")
    grams: float = Field(description="Grams that stand in, gram for gram.")


class PlanInput(PlanModel):
    """What one component takes of one input."""

    item: str = Field(description="Id of an ingredient or component.")
    grams: float = Field(
        description="Grams after credits: of an ingredient as purchased, of a component finished."
    )
    credits: tuple[PlanCredit, ...] = Field(description="By-products that stand in.")
    step: int = Field(description="Step it goes in at, from 0.")


class PlanDraw(PlanModel):
    """What goes in at one of the planned day's steps, credits already off."""

    item: str = Field(description="Id of an ingredient or component.")
    grams: float = Field(description="Grams; of an ingredient as purchased.")
    step: int = Field(description="Step it goes in at, from 0.")
    due: Moment = Field(description="Wanted by: latest start of that step, by bare minutes.")


class PlanMaking(PlanModel):
    """Finished grams of one want that are made, or part-made, on the planned day."""

    consumer: str = Field(description="Id of the dish or component that takes it.")
    reason: Reason = Field(description="Why it is wanted.")
    grams: float = Field(description="Finished grams this becomes.")
    first_step: int = Field(description="First step done today, from 0.")
    last_step: int = Field(description="Step after the last one done today.")
    start: Moment = Field(description="Latest start of the first step, by bare minutes.")
    due: Moment = Field(description="The last of today's steps is due.")
    until: Moment = Field(description="Of no use afterwards.")
    finishes: bool = Field(description="Whether it is finished today.")
    missed: bool = Field(description="An earlier day should have started it.")
    draws: tuple[PlanDraw, ...] = Field(description="What goes in at the planned day's steps.")
    credits: tuple[PlanCredit, ...] = Field(description="By-products that stand in for inputs.")


class PlanComponent(PlanModel):
    """All about one component on the planned day."""

    component: str = Field(description="Id of the component.")
    name: str = Field(description="What people call it.")
    wants: tuple[PlanWant, ...] = Field(description="Who wants how much.")
    stock: tuple[PlanStockUse, ...] = Field(description="Stock on hand that is used.")
    to_make: float = Field(description="Finished grams made on, or started on, the planned day.")
    makings: tuple[PlanMaking, ...] = Field(description="What of it is made for which want.")
    steps: tuple[PlanStep, ...] = Field(description="The route's grams, in order.")
    inputs: tuple[PlanInput, ...] = Field(description="What it takes.")
    notes: tuple[str, ...] = Field(description="Remarks, such as rounding to whole batches.")


class PlanSupply(PlanModel):
    """Grams of an ingredient that can be used from a time on."""

    grams: float | None = Field(
        description="Grams as purchased; null: nobody counts it, there is always enough."
    )
    at: Moment = Field(description="Usable from; 00:00 = on hand.")
    source: str = Field(description="On hand, or which delivery.")
    available: bool = Field(description="False: nobody has it, so work on it cannot be done.")


class PlanPull(PlanModel):
    """What to take of one ingredient, as purchased."""

    ingredient: str = Field(description="Id of the ingredient.")
    name: str = Field(description="What people call it.")
    need: float = Field(description="Exact grams as purchased (AP).")
    pulled: float = Field(description="Grams of the whole units pulled: need rounded up.")
    units: float = Field(description="Whole pull units.")
    pull_unit: str = Field(description="What is taken from the shelf: each, bunch, g.")
    packs: float = Field(description="The same in packs as bought.")
    pack_unit: str = Field(description="The pack: bag, case.")
    left_over: float = Field(description="Grams pulled beyond the need.")
    cost: float = Field(description="Cost of what is pulled, in the kitchen's currency.")
    storage: str = Field(description="Where it is kept.")
    on_hand: float | None = Field(
        description="Grams counted on hand, as purchased; null: nobody counts it."
    )
    supplies: tuple[PlanSupply, ...] = Field(description="In the order they are used.")
    short: float = Field(description="Grams that nobody has.")
    wanted_by: tuple[ComponentGrams, ...] = Field(
        description="Which component (or dish, where it is served as it is) takes how much."
    )
    trace: str = Field(description="How the number came about, in words.")


class PlanAlert(PlanModel):
    """Something the sous chef must know before the morning starts."""

    kind: str = Field(description="no service, delivery, missing, missed start or use-by.")
    item: str = Field(description="Id of the food it is about.")
    text: str = Field(description="In words.")
    holds_up: tuple[str, ...] = Field(description="What waits for it.")


class PlanQuantities(PlanModel):
    """Everything there is to pull and make on the planned day."""

    components: tuple[PlanComponent, ...] = Field(description="Components with all their reasons.")
    pulls: tuple[PlanPull, ...] = Field(description="The pull list of the whole kitchen.")
    alerts: tuple[PlanAlert, ...] = Field(description="What may hold the morning up.")
    ahead: tuple[str, ...] = Field(
        description="What later days will need that does not start today, in words."
    )
