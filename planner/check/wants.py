"""Whether what is wanted is made: portions to wants, wants to steps, steps to lots."""

from collections import defaultdict
from collections.abc import Iterator

from planner.check.facts import Facts, covers, near
from planner.check.violation import Rule, Violation
from planner.plan import Plan
from planner.quantities.types import ComponentNeed, Reason

_DAY = 24 * 60


def check_wants(facts: Facts, plan: Plan) -> Iterator[Violation]:
    """Yield every component of which less is made, or less wanted, than there should be."""
    made: dict[tuple[str, int], float] = defaultdict(float)
    for lot in plan.workload.lots:
        for share in lot.shares:
            made[share.component, lot.step] += share.grams
    for need in plan.quantities.needs:
        yield from _check_made(facts, need, made)
        yield from _check_steps(need, made)
    yield from _check_portions(facts, plan)


def _check_made(
    facts: Facts, need: ComponentNeed, made: dict[tuple[str, int], float]
) -> Iterator[Violation]:
    """What is finished today and in stock covers today's wants."""
    last = len(facts.catalog.components[need.component].route) - 1
    stock = sum(use.grams for use in need.stock if use.after_step is None)
    wanted = sum(want.grams for want in need.wants if want.day <= 0)
    have = made[need.component, last] + stock
    if not covers(have, wanted):
        yield Violation(
            Rule.WANTS,
            need.component,
            f"{need.component}: {wanted:.1f} g are wanted today, but lots make "
            f"{made[need.component, last]:.1f} g and {stock:.1f} g are in stock",
        )


def _check_steps(need: ComponentNeed, made: dict[tuple[str, int], float]) -> Iterator[Violation]:
    """Lots make of each step what it needs; each step gets what it works on."""
    by_index = {step.index: step for step in need.steps}
    for step in need.steps:
        lots = made[need.component, step.index]
        if not near(lots, step.grams_out):
            yield Violation(
                Rule.WANTS,
                need.component,
                f"{need.component}, step {step.index} ({step.operation}): lots make {lots:.1f} g, "
                f"the step should make {step.grams_out:.1f} g",
            )
        before = by_index.get(step.index - 1)
        if before is not None:
            coming = before.grams_out + before.from_stock
            for entry in need.inputs:
                if entry.step == step.index:
                    coming += entry.grams + sum(credit.grams for credit in entry.credits)
            if not covers(coming, step.grams_in):
                yield Violation(
                    Rule.WANTS,
                    need.component,
                    f"{need.component}, step {step.index} ({step.operation}) works on "
                    f"{step.grams_in:.1f} g, but only {coming:.1f} g come to it",
                )
    for (component, index), grams in made.items():
        if component == need.component and index not in by_index and not near(grams, 0.0):
            yield Violation(
                Rule.WANTS,
                need.component,
                f"{need.component}: lots make {grams:.1f} g at step {index}, which nobody needs",
            )


def _check_portions(facts: Facts, plan: Plan) -> Iterator[Violation]:
    """An item that one dish of a service takes is wanted for every portion of it.

    Items that several dishes share have one joint buffer, below the sum of the dishes' own, and are
    not judged here.
    """
    asked: dict[tuple[str, str], list[tuple[str, float]]] = defaultdict(list)
    for demand in plan.demands:
        if demand.doors < _DAY:
            for portion in facts.catalog.dishes[demand.dish].components:
                grams = facts.converter.grams(portion.item, portion.amount) * demand.total
                asked[portion.item, demand.service].append((demand.dish, grams))
    wanted: dict[tuple[str, str], float] = defaultdict(float)
    for need in plan.quantities.needs:
        for want in need.wants:
            if want.reason is Reason.DISH:
                for share in want.shares:
                    wanted[need.component, share.service] += share.grams
    for (item, service), dishes in sorted(asked.items()):
        if item not in facts.catalog.components or len({dish for dish, _ in dishes}) > 1:
            continue
        grams = sum(each for _, each in dishes)
        if not covers(wanted[item, service], grams):
            yield Violation(
                Rule.WANTS,
                item,
                f"{item}: {dishes[0][0]} at {service} takes {grams:.1f} g, but only "
                f"{wanted[item, service]:.1f} g are wanted for it",
            )
