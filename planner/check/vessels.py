"""Whether each lot fits what holds it, and holds it as long as it should."""

import math
from collections.abc import Iterator

from planner.check.facts import Facts, covers
from planner.check.violation import Rule, Violation
from planner.lots.types import Lot, Part
from planner.plan import Plan


def check_vessels(facts: Facts, plan: Plan) -> Iterator[Violation]:
    """Yield every lot that is too large, or has too few vessels for its time."""
    for lot in plan.workload.lots:
        operation = facts.operation(lot.component, lot.step)
        if operation.lot_limit is not None:
            limit = facts.grams(lot.component, operation.lot_limit)
            if not covers(limit, lot.grams_in):
                yield Violation(
                    Rule.LOT_SIZE,
                    lot.id,
                    f"{lot.id}: {lot.grams_in:.0f} g, but the lot limit is {operation.lot_limit}",
                )
        yield from _check_equipment(facts, plan, lot)


def _check_equipment(facts: Facts, plan: Plan, lot: Lot) -> Iterator[Violation]:
    problem = plan.workload.problem
    work = next(item.task for item in lot.tasks if item.part is Part.WORK)
    finish = next((item.task for item in lot.tasks if item.part is Part.FINISH), None)
    # Rice goes in dry and comes out swollen: the vessel takes it at its largest.
    largest = max(lot.grams_in, lot.grams_out)
    for use in facts.operation(lot.component, lot.step).equipment:
        takes = facts.vessel(lot.component, use)
        units = 1 if math.isinf(takes) else math.ceil(largest / takes - 1e-6)
        if units > use.max_units:
            yield Violation(
                Rule.LOT_SIZE,
                lot.id,
                f"{lot.id}: {largest:.0f} g want {units} of {use.equipment}; a lot has at most "
                f"{use.max_units}",
            )
            continue
        held = [
            hold
            for hold in problem.holds
            if hold.first == work
            and problem.resources[hold.resource].id == f"equipment:{use.equipment}"
        ]
        if sum(hold.units for hold in held) < units:
            yield Violation(
                Rule.LOT_SIZE,
                lot.id,
                f"{lot.id}: {largest:.0f} g want {units} of {use.equipment}, "
                f"{sum(hold.units for hold in held)} are held",
            )
        for hold in held:
            alone = finish is None and hold.tail < facts.unattended(lot.component, lot.step)
            if hold.last != (work if finish is None else finish) or alone:
                yield Violation(
                    Rule.LOT_SIZE, lot.id, f"{lot.id} gives back {use.equipment} before it is done"
                )
