"""From quantities to the plan file."""

import math

from planner.plan_file.base import ComponentGrams, moment
from planner.plan_file.quantities import (
    PlanAlert,
    PlanComponent,
    PlanCredit,
    PlanDraw,
    PlanInput,
    PlanMaking,
    PlanPull,
    PlanQuantities,
    PlanShare,
    PlanStep,
    PlanStockUse,
    PlanSupply,
    PlanWant,
)
from planner.quantities.types import (
    ComponentNeed,
    Credit,
    InputNeed,
    Making,
    PullLine,
    Quantities,
    StepNeed,
    Want,
)


def plan_quantities(quantities: Quantities) -> PlanQuantities:
    """Everything there is to pull and make."""
    return PlanQuantities(
        components=tuple(_component(need) for need in quantities.needs),
        pulls=tuple(_pull(line) for line in quantities.pulls),
        alerts=tuple(
            PlanAlert(kind=one.kind, item=one.item, text=one.text, holds_up=one.holds_up)
            for one in quantities.alerts
        ),
        ahead=quantities.ahead,
    )


def _component(need: ComponentNeed) -> PlanComponent:
    return PlanComponent(
        component=need.component,
        name=need.name,
        wants=tuple(_want(want) for want in need.wants),
        stock=tuple(
            PlanStockUse(
                item=use.item, grams=use.grams, use_by=use.use_by, after_step=use.after_step
            )
            for use in need.stock
        ),
        to_make=need.to_make,
        makings=tuple(_making(making) for making in need.makings),
        steps=tuple(_step(step) for step in need.steps),
        inputs=tuple(_input(entry) for entry in need.inputs),
        notes=need.notes,
    )


def _want(want: Want) -> PlanWant:
    return PlanWant(
        reason=want.reason,
        consumer=want.consumer,
        consumer_name=want.consumer_name,
        grams=want.grams,
        expected=want.expected,
        buffer=want.buffer,
        due=moment(want.due),
        until=moment(want.until),
        doors=moment(want.doors),
        day=want.day,
        lateness_weight=want.lateness_weight,
        shares=tuple(
            PlanShare(
                service=share.service, dish=share.dish, portions=share.portions, grams=share.grams
            )
            for share in want.shares
        ),
    )


def _making(making: Making) -> PlanMaking:
    return PlanMaking(
        consumer=making.want.consumer,
        reason=making.want.reason,
        grams=making.grams,
        first_step=making.first_step,
        last_step=making.last_step,
        start=moment(making.start),
        due=moment(making.due),
        until=moment(making.until),
        finishes=making.finishes,
        missed=making.missed,
        draws=tuple(
            PlanDraw(item=draw.item, grams=draw.grams, step=draw.step, due=moment(draw.due))
            for draw in making.draws
        ),
        credits=tuple(_credit(credit) for credit in making.credits),
    )


def _step(step: StepNeed) -> PlanStep:
    return PlanStep(
        index=step.index,
        operation=step.operation,
        grams_in=step.grams_in,
        grams_out=step.grams_out,
        fraction=step.fraction,
        source=step.source,
        from_stock=step.from_stock,
    )


def _input(entry: InputNeed) -> PlanInput:
    return PlanInput(
        item=entry.item,
        grams=entry.grams,
        credits=tuple(_credit(credit) for credit in entry.credits),
        step=entry.step,
    )


def _credit(credit: Credit) -> PlanCredit:
    return PlanCredit(
        by_product=credit.by_product,
        from_component=credit.from_component,
        from_step=credit.from_step,
        into_step=credit.into_step,
        grams=credit.grams,
    )


def _pull(line: PullLine) -> PlanPull:
    return PlanPull(
        ingredient=line.ingredient,
        name=line.name,
        need=line.need.grams,
        pulled=line.pulled.grams,
        units=line.units,
        pull_unit=line.pull_unit,
        packs=line.packs,
        pack_unit=line.pack_unit,
        left_over=line.left_over,
        cost=line.cost,
        storage=line.storage,
        on_hand=_counted(line.on_hand),
        supplies=tuple(
            PlanSupply(
                grams=_counted(supply.grams),
                at=moment(supply.at),
                source=supply.source,
                available=supply.available,
            )
            for supply in line.supplies
        ),
        short=line.short,
        wanted_by=tuple(
            ComponentGrams(component=component, grams=grams) for component, grams in line.wanted_by
        ),
        trace=line.trace,
    )


def _counted(grams: float) -> float | None:
    """Endless grams, of what nobody counts, have no number in JSON."""
    return grams if math.isfinite(grams) else None
