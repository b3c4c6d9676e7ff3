"""Mass balance of the lots: nothing appears from nowhere, nothing is used twice."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations

from planner.check.facts import Facts, covers, near
from planner.check.violation import Rule, Violation
from planner.lots.types import Lot
from planner.plan import Plan


def check_balance(facts: Facts, plan: Plan) -> Iterator[Violation]:
    """Yield every lot whose grams do not add up, and every source that gives too much."""
    lots = plan.workload.lots
    for lot in lots:
        yield from _check_yield(facts, plan, lot)
        yield from _check_sources(facts, lots, lot)
        yield from _check_inflow(facts, lots, lot)
    yield from _check_drawn(lots)
    yield from _check_stock(facts, plan)


def _check_yield(facts: Facts, plan: Plan, lot: Lot) -> Iterator[Violation]:
    fractions = {s.component: facts.fraction(s.component, lot.step) for s in lot.shares}
    for component, fraction in fractions.items():
        if not near(lot.grams_out, lot.grams_in * fraction):
            yield Violation(
                Rule.BALANCE,
                lot.id,
                f"{lot.id}: {lot.grams_in:.1f} g at {fraction:.4g} give "
                f"{lot.grams_in * fraction:.1f} g of {component}, not {lot.grams_out:.1f} g",
            )
        need = plan.quantities.by_component.get(component)
        steps = () if need is None else need.steps
        said = next((step.fraction for step in steps if step.index == lot.step), None)
        if said is None or abs(said - fraction) > 1e-9:
            yield Violation(
                Rule.BALANCE,
                lot.id,
                f"{lot.id}: the need of {component} says a yield of {said}, the kitchen {fraction}",
            )
    shared = sum(share.grams for share in lot.shares)
    if not near(shared, lot.grams_out):
        yield Violation(
            Rule.BALANCE,
            lot.id,
            f"{lot.id}: its shares make {shared:.1f} g, but {lot.grams_out:.1f} g come out",
        )
    lost = lot.grams_in - lot.grams_out
    for item, grams in lot.trim:
        share = facts.trim_share(lot.component, lot.step).get(item, 0.0)
        if not covers(lost * share, grams):
            yield Violation(
                Rule.BALANCE,
                lot.id,
                f"{lot.id}: {grams:.1f} g of {item} are more than its part ({share:.4g}) of the "
                f"{lost:.1f} g taken off",
            )


def _made(facts: Facts, lot: Lot) -> set[str]:
    """Components that come out of a lot finished."""
    return {
        share.component
        for share in lot.shares
        if len(facts.catalog.components[share.component].route) == lot.step + 1
    }


def _inputs(facts: Facts, lot: Lot) -> set[str]:
    """Items that go in at the lot's step."""
    return {taken.item for s in lot.shares for taken in facts.joining(s.component, lot.step)}


def _check_sources(facts: Facts, lots: tuple[Lot, ...], lot: Lot) -> Iterator[Violation]:
    """What a lot takes is something it can use."""
    own = {share.component for share in lot.shares}
    for index, grams in lot.upstream:
        source = lots[index]
        before = source.step == lot.step - 1 and own & {s.component for s in source.shares}
        fits = before or _made(facts, source) & _inputs(facts, lot)
        if not fits or grams < 0:
            yield Violation(
                Rule.BALANCE,
                lot.id,
                f"{lot.id} takes {grams:.1f} g from {source.id}, of no use to it",
            )
    may_use = {
        item
        for component in own
        for taken in facts.joining(component, lot.step)
        for item in taken.may_use
    }
    usable = _inputs(facts, lot) | may_use | (own if lot.step else set())
    for item, grams in (*lot.pulls, *lot.stock):
        if item not in usable or grams < 0:
            yield Violation(
                Rule.BALANCE, lot.id, f"{lot.id} takes {grams:.1f} g of {item}, of no use to it"
            )


def _check_inflow(facts: Facts, lots: tuple[Lot, ...], lot: Lot) -> Iterator[Violation]:
    """What goes in is covered gram for gram, and a recipe gets of each input what it asks."""
    have: dict[str, float] = defaultdict(float)
    for item, grams in (*lot.pulls, *lot.stock):
        have[item] += grams
    component = facts.catalog.components[lot.component]
    coming = sum(have.values()) + sum(grams for _, grams in lot.upstream)
    if not near(coming, lot.grams_in):
        yield Violation(
            Rule.BALANCE,
            lot.id,
            f"{lot.id}: {coming:.1f} g come in, but it works on {lot.grams_in:.1f} g",
        )
    if component.makes is None:
        return
    have.pop(component.id, None)  # part-made stock of its own
    offered = [
        (made, grams)
        for index, grams in lot.upstream
        if (made := _made(facts, lots[index]) & _inputs(facts, lot))
    ]
    lacking: dict[str, float] = {}
    batches = lot.grams_out / facts.batch_grams(component.id, lot.step)[1]
    for taken in facts.joining(component.id, lot.step):
        if taken.amount is None:
            continue
        missing = batches * facts.converter.grams(taken.item, taken.amount)
        for item in (taken.item, *taken.may_use):
            used = min(missing, have[item])
            have[item] -= used
            missing -= used
        if not near(missing, 0.0):
            lacking[taken.item] = missing
    yield from _check_offered(lot, lacking, offered, batches)
    for item, grams in have.items():
        if not near(grams, 0.0):
            yield Violation(
                Rule.BALANCE, lot.id, f"{lot.id}: {grams:.1f} g of {item} are more than it uses"
            )


def _check_offered(
    lot: Lot, lacking: dict[str, float], offered: list[tuple[set[str], float]], batches: float
) -> Iterator[Violation]:
    """Other lots can give a recipe what it lacks: no set of inputs lacks more than all that offer.

    A lot of pooled work may offer any of several inputs, so sets are judged, not single ones
    (Hall's condition, as in any transport of goods).
    """
    for count in range(1, len(lacking) + 1):
        for some in combinations(lacking, count):
            wanted = sum(lacking[item] for item in some)
            coming = sum(grams for items, grams in offered if items & set(some))
            if not covers(coming, wanted):
                yield Violation(
                    Rule.BALANCE,
                    lot.id,
                    f"{lot.id}: {wanted - coming:.1f} g of {' and '.join(some)} come from nowhere "
                    f"({batches:.3f} recipe batches)",
                )
                return


def _check_drawn(lots: tuple[Lot, ...]) -> Iterator[Violation]:
    drawn: dict[int, float] = defaultdict(float)
    for lot in lots:
        for index, grams in lot.upstream:
            drawn[index] += grams
    for index, grams in sorted(drawn.items()):
        if not covers(lots[index].grams_out, grams):
            yield Violation(
                Rule.OVERDRAWN,
                lots[index].id,
                f"{grams:.1f} g are taken from {lots[index].id}, which gives "
                f"{lots[index].grams_out:.1f} g",
            )


_Stock = dict[tuple[str, int | None], float]
"""Grams by item and by how many steps of its route are done (None: finished)."""


def _check_stock(facts: Facts, plan: Plan) -> Iterator[Violation]:
    """Lots use no more stock than was set apart; no more is set apart than is on hand."""
    given: _Stock = defaultdict(float)
    for need in plan.quantities.needs:
        for use in need.stock:
            given[use.item, use.after_step] += use.grams
    used: _Stock = defaultdict(float)
    for lot in plan.workload.lots:
        for item, grams in lot.stock:
            own = item in {share.component for share in lot.shares}
            used[item, lot.step if own else None] += grams
    trim = _by_products(facts, plan)
    for (item, after), grams in sorted(used.items(), key=str):
        have = trim[item] if item in facts.catalog.ingredients else given[item, after]
        if not covers(have, grams):
            yield Violation(
                Rule.OVERDRAWN,
                item,
                f"lots use {grams:.1f} g of {item}{_after(after)} from stock; there are "
                f"{have:.1f} g",
            )
    on_hand = _on_hand(facts, plan)
    for (item, after), grams in sorted(given.items(), key=str):
        if not covers(on_hand[item, after], grams):
            yield Violation(
                Rule.OVERDRAWN,
                item,
                f"{grams:.1f} g of {item}{_after(after)} are taken from stock; "
                f"{on_hand[item, after]:.1f} g are on hand and in date",
            )


def _by_products(facts: Facts, plan: Plan) -> dict[str, float]:
    """Grams of by-products on hand and left by the day's lots."""
    trim: dict[str, float] = defaultdict(float)
    for lot in plan.workload.lots:
        for item, grams in lot.trim:
            trim[item] += grams
    for raw in facts.kitchen.raw_stock:
        if facts.catalog.ingredients[raw.item].by_product:
            trim[raw.item] += facts.converter.grams(raw.item, raw.amount)
    return trim


def _on_hand(facts: Facts, plan: Plan) -> _Stock:
    """Prepared food that is in date on the planned day."""
    found: _Stock = defaultdict(float)
    for stock in facts.kitchen.prepared:
        if stock.use_by >= plan.date:
            found[stock.item, stock.after_step] += facts.converter.grams(stock.item, stock.amount)
    return found


def _after(step: int | None) -> str:
    return "" if step is None else f" after step {step}"
