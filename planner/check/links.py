"""Whether the scheduling problem says what the lots say: order, waits, hygiene."""

from collections.abc import Iterator

from planner.check.facts import Facts, covers
from planner.check.violation import Rule, Violation
from planner.lots.types import Lot, Part
from planner.plan import Plan
from planner.schedule.problem import Problem


def check_links(facts: Facts, plan: Plan) -> Iterator[Violation]:
    """Yield every lot whose tasks the problem treats otherwise than its food asks for."""
    problem, lots = plan.workload.problem, plan.workload.lots
    if len(lots) != len(problem.jobs):
        yield Violation(
            Rule.WHOLE_JOB, "lots", f"{len(lots)} lots, but {len(problem.jobs)} jobs to schedule"
        )
        return
    waits = {(wait.before, wait.after): wait for wait in problem.waits}
    species: dict[str, frozenset[str]] = {}
    for lot in lots:
        job = problem.jobs[lot.index]
        if set(job.tasks) != {item.task for item in lot.tasks}:
            yield Violation(Rule.WHOLE_JOB, lot.id, f"{lot.id}: its job has other tasks")
        for index, _ in lot.upstream:
            yield from _check_link(facts, problem, lots[index], lot)
        yield from _check_trim(facts, problem, lots, lot)
        yield from _check_alone(facts, problem, lot)
        yield from _check_hygiene(facts, problem, lot, species)
    for before, after in waits:
        if problem.tasks[before].lot != problem.tasks[after].lot:
            job = problem.jobs[problem.tasks[after].lot]
            if problem.tasks[before].lot not in _needed(problem, problem.tasks[after].lot):
                yield Violation(
                    Rule.NEEDS, job.id, f"{job.id} waits for what it does not need to be made"
                )


def _needed(problem: Problem, job: int) -> set[int]:
    """All that a job needs, and what that needs in turn."""
    found: set[int] = set()
    ahead = list(problem.jobs[job].needs)
    while ahead:
        one = ahead.pop()
        if one not in found:
            found.add(one)
            ahead += problem.jobs[one].needs
    return found


def _first(lot: Lot) -> int:
    return next(item.task for item in lot.tasks if item.part is Part.WORK)


def _last(lot: Lot) -> int:
    """The task that ends a lot: the take-out, or the work where nobody takes it out."""
    finish = (item.task for item in lot.tasks if item.part is Part.FINISH)
    return next(finish, _first(lot))


def _check_link(facts: Facts, problem: Problem, source: Lot, lot: Lot) -> Iterator[Violation]:
    """A lot needs what it takes from, and waits for it: long enough, and not too long."""
    if source.index not in problem.jobs[lot.index].needs:
        yield Violation(
            Rule.NEEDS, lot.id, f"{lot.id} takes from {source.id}, but may be made without it"
        )
    before, after = _last(source), _first(lot)
    alone = facts.unattended(source.component, source.step) if before == _first(source) else 0
    step = facts.catalog.components[source.component].route[source.step]
    on_route = source.step == lot.step - 1 and source.component in {
        share.component for share in lot.shares
    }
    least = alone + (step.min_wait_minutes if on_route else 0)
    most = None
    if on_route and step.max_wait_minutes is not None:
        most = alone + max(step.max_wait_minutes, step.min_wait_minutes)
    stated = [w for w in problem.waits if (w.before, w.after) == (before, after)]
    if not any(wait.minimum >= least for wait in stated):
        yield Violation(
            Rule.WAIT, lot.id, f"{lot.id} does not wait {least} min for {source.id} to be ready"
        )
    if most is not None and not any(w.maximum is not None and w.maximum <= most for w in stated):
        yield Violation(
            Rule.WAIT, lot.id, f"{lot.id} may start more than {most} min after {source.id}"
        )


def _check_trim(
    facts: Facts, problem: Problem, lots: tuple[Lot, ...], lot: Lot
) -> Iterator[Violation]:
    """By-products come from lots that are made if this one is, or were there already."""
    for item, grams in lot.stock:
        if item not in facts.catalog.ingredients:
            continue
        there = sum(
            facts.converter.grams(item, raw.amount)
            for raw in facts.kitchen.raw_stock
            if raw.item == item
        )
        there += sum(
            left
            for index in problem.jobs[lot.index].needs
            for trim, left in lots[index].trim
            if trim == item
        )
        if not covers(there, grams):
            yield Violation(
                Rule.NEEDS,
                lot.id,
                f"{lot.id} uses {grams:.1f} g of {item}, but the lots it needs leave {there:.1f} g",
            )


def _check_alone(facts: Facts, problem: Problem, lot: Lot) -> Iterator[Violation]:
    """What cooks by itself is taken out when it is done, and within its time if it has one."""
    alone = facts.unattended(lot.component, lot.step)
    if lot.unattended != alone:
        yield Violation(
            Rule.WAIT, lot.id, f"{lot.id}: {lot.unattended} min by itself, the route says {alone}"
        )
    if _last(lot) == _first(lot):
        return
    within = facts.operation(lot.component, lot.step).finish_within_minutes
    stated = [w for w in problem.waits if (w.before, w.after) == (_first(lot), _last(lot))]
    if not any(wait.minimum >= alone for wait in stated):
        yield Violation(Rule.WAIT, lot.id, f"{lot.id} may be taken out before {alone} min")
    if within is not None and not any(
        w.maximum is not None and w.maximum <= alone + within for w in stated
    ):
        yield Violation(
            Rule.WAIT, lot.id, f"{lot.id} may be taken out later than {alone + within} min"
        )


def _check_hygiene(
    facts: Facts, problem: Problem, lot: Lot, species: dict[str, frozenset[str]]
) -> Iterator[Violation]:
    """Boards and hands are told every allergen and every raw animal food of the lot."""
    within = (facts.allergens(share.component, lot.step) for share in lot.shares)
    allergens = frozenset[str]().union(*within)
    if not allergens <= lot.allergens:
        yield Violation(
            Rule.HYGIENE,
            lot.id,
            f"{lot.id} does not name {', '.join(sorted(allergens - lot.allergens))}",
        )
    for item in lot.tasks:
        hygiene = problem.families[problem.tasks[item.task].family].hygiene
        own = facts.allergens(lot.component, lot.step)
        if not own <= hygiene.allergens:
            yield Violation(
                Rule.HYGIENE,
                lot.id,
                f"{lot.id}, {item.part} leaves {', '.join(sorted(own - hygiene.allergens))} "
                "that no clean is due for",
            )
        if item.part is not Part.WORK:
            continue
        raw = facts.raw_animals(lot.component, lot.step)
        if raw and any(share.component in facts.served_raw for share in lot.shares):
            raw |= {"served raw"}  # by whatever name, a class apart from the same species cooked
        known = None if hygiene.raw_animal is None else species.setdefault(hygiene.raw_animal, raw)
        if (raw and known != raw) or (not raw and known is not None):
            yield Violation(
                Rule.HYGIENE,
                lot.id,
                f"{lot.id} is raw {' and '.join(sorted(raw)) or 'of nothing'}, but leaves "
                f"{hygiene.raw_animal or 'nothing'} on the board",
            )
