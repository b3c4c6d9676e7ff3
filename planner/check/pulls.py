"""Whether the pull list covers the lots, in whole units, and no food is used before it is there."""

import math
from collections import defaultdict
from collections.abc import Iterator

from planner.check.facts import Facts, covers, near
from planner.check.violation import Rule, Violation
from planner.clock import clock
from planner.kitchen.base import clock_minutes
from planner.kitchen.day import DeliveryState
from planner.plan import Plan
from planner.quantities.types import PullLine


def check_pulls(facts: Facts, plan: Plan) -> Iterator[Violation]:
    """Yield every pull line that is wrong, and every lot that outruns its delivery."""
    taken: dict[str, float] = defaultdict(float)
    for lot in plan.workload.lots:
        for item, grams in lot.pulls:
            taken[item] += grams
    lines = {line.ingredient: line for line in plan.quantities.pulls}
    for item, grams in sorted(taken.items()):
        counted = facts.catalog.ingredients[item].counted
        if counted and item not in lines and not near(grams, 0.0):
            yield Violation(
                Rule.PULL, item, f"lots take {grams:.1f} g of {item}, which is on no pull line"
            )
    for line in lines.values():
        yield from _check_line(facts, line)
        yield from _check_taken(facts, line, taken[line.ingredient])
        yield from _check_supply(facts, plan, line)


def _check_line(facts: Facts, line: PullLine) -> Iterator[Violation]:
    item = line.ingredient
    unit = facts.converter.grams_per(item, line.pull_unit)
    if not covers(line.pulled.grams, line.need.grams):
        yield Violation(
            Rule.PULL,
            item,
            f"{item}: {line.pulled.grams:.1f} g pulled do not cover {line.need.grams:.1f} g",
        )
    if abs(line.units - round(line.units)) > 1e-9 or not near(line.units * unit, line.pulled.grams):
        yield Violation(
            Rule.PULL,
            item,
            f"{item}: {line.units:g} x {line.pull_unit} of {unit:.1f} g is not a whole number of "
            f"units that makes {line.pulled.grams:.1f} g",
        )
    if line.pulled.grams - line.need.grams >= unit * (1 - 1e-9):
        yield Violation(
            Rule.PULL, item, f"{item}: {line.units:g} x {line.pull_unit}, fewer would do"
        )
    if not near(line.left_over, line.pulled.grams - line.need.grams):
        yield Violation(
            Rule.PULL, item, f"{item}: {line.left_over:.1f} g left over is not pulled less need"
        )


def _check_taken(facts: Facts, line: PullLine, taken: float) -> Iterator[Violation]:
    """The need is what lots take and what dishes take as it is."""
    item = line.ingredient
    plated = sum(g for consumer, g in line.wanted_by if consumer in facts.catalog.dishes)
    wanted = sum(grams for _, grams in line.wanted_by)
    if not near(line.need.grams, taken + plated):
        yield Violation(
            Rule.PULL,
            item,
            f"{item}: lots take {taken:.1f} g and dishes {plated:.1f} g, but the need is "
            f"{line.need.grams:.1f} g",
        )
    if not near(line.need.grams, wanted):
        yield Violation(
            Rule.PULL,
            item,
            f"{item}: those who want it make {wanted:.1f} g, the need is {line.need.grams:.1f} g",
        )


def _check_supply(facts: Facts, plan: Plan, line: PullLine) -> Iterator[Violation]:
    """Until each delivery, lots that may start take no more than is there."""
    item = line.ingredient
    there = _there(facts, plan, item)
    have = sum(there.values())
    if not near(line.short, max(0.0, line.need.grams - have)):
        yield Violation(
            Rule.PULL,
            item,
            f"{item}: short by {line.short:.1f} g is said; need {line.need.grams:.1f} g, "
            f"there are {have:.1f} g",
        )
    problem = plan.workload.problem
    for moment in (*(at for at in there if at), None):
        at = math.inf if moment is None else moment
        early = sum(
            grams
            for lot in plan.workload.lots
            for pulled, grams in lot.pulls
            if pulled == item
            and not problem.jobs[lot.index].impossible
            and problem.tasks[lot.tasks[0].task].release < at
        )
        before = sum(grams for when, grams in there.items() if when < at)
        if not covers(before, early):
            until = "" if moment is None else f" before {clock(moment)}"
            yield Violation(
                Rule.OVERDRAWN,
                item,
                f"{item}: lots may take {early:.1f} g{until}, but {before:.1f} g are there",
            )


def _there(facts: Facts, plan: Plan, item: str) -> dict[int, float]:
    """Grams by the minute they are there; 0 is on hand."""
    if not facts.catalog.ingredients[item].counted:
        return {0: math.inf}
    there: dict[int, float] = defaultdict(float)
    for stock in facts.kitchen.raw_stock:
        in_date = stock.use_by is None or stock.use_by >= plan.date
        if stock.item == item and in_date and stock.received <= plan.date:
            there[0] += facts.converter.grams(item, stock.amount)
    for delivery in facts.kitchen.deliveries:
        expected = delivery.state is DeliveryState.EXPECTED
        if delivery.item == item and delivery.date == plan.date and expected:
            there[clock_minutes(delivery.at)] += facts.converter.grams(item, delivery.amount)
    return there
