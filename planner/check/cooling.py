"""Whether the schedule lets cooked food be cold in time, worked out from the kitchen file anew."""

from collections.abc import Iterator
from dataclasses import dataclass

from planner.check.facts import Facts
from planner.check.violation import Rule, Violation
from planner.kitchen.foods import Component, Holding
from planner.kitchen.safety import COOLING, HOT_HOLDING_C, LOCAL_CODE
from planner.kitchen.work import Caution
from planner.lots.types import Lot, Part
from planner.plan import Plan
from planner.schedule.problem import Problem

_HEAT = {Caution.HOT_FAT, Caution.STEAM, Caution.HOT_SURFACE}
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class _Clock:
    """Food has so many minutes from the end of a step, or from its start, to be cold."""

    step: int
    from_start: bool
    minutes: int


def check_cooling(facts: Facts, plan: Plan) -> Iterator[Violation]:
    """Yield every lot that may be cold too late for the food code, whoever works on it."""
    problem, lots = plan.workload.problem, plan.workload.lots
    most = {
        (wait.before, wait.after): wait.maximum
        for wait in problem.waits
        if wait.maximum is not None
    }
    for lot in lots:
        clocks = {
            clock
            for share in lot.shares
            for clock in _clocks(facts, facts.catalog.components[share.component], lot.step)
        }
        for clock in sorted(clocks, key=lambda one: (one.step, one.minutes)):
            own = _slowest(problem, lot) + lot.unattended
            for source in _sources(lots, lot, clock.step):
                takes = _longest(problem, most, source, lot, clock.from_start)
                if takes is None or takes + own > clock.minutes:
                    said = "any time" if takes is None else f"{takes + own} min"
                    yield Violation(
                        Rule.COOLING,
                        lot.id,
                        f"{lot.id} may end {said} after {source.id} left its food hot; it must be "
                        f"cold within {clock.minutes} min (FDA Food Code 3-501.14; {LOCAL_CODE})",
                    )


def in_cooling(facts: Facts, made: Component, step: int) -> bool:
    """Whether a clock of cooling food runs while a step is done."""
    return any(
        clock.step < step
        for later in range(step, len(made.route))
        for clock in _clocks(facts, made, later)
    )


def _longest(
    problem: Problem, most: dict[tuple[int, int], int], source: Lot, lot: Lot, from_start: bool
) -> int | None:
    """Most minutes from the clock's start at the hot lot to the start of the cold one."""
    if source.index == lot.index:
        return 0
    first, last = _work(source), _last(source)
    limit = most.get((first if from_start else last, _work(lot)))
    if limit is None:
        return None
    if from_start:
        return limit + _slowest(problem, source)
    # Where nobody takes it out the food is hot until it has cooked by itself.
    return limit - (source.unattended if first == last else 0)


def _clocks(facts: Facts, made: Component, step: int) -> Iterator[_Clock]:
    """Clocks that run out with a step: back along the route to where the food was hot."""
    reached = made.route[step].temperature_c
    if not made.tcs or reached is None or _is_heated(facts, made, step):
        return
    for limit in COOLING:
        cold = (limit.to_f - 32) / 1.8 + _ROUNDING
        if reached > cold:
            continue
        for at in range(step, -1, -1):
            if not is_hot(facts, made, at) and any(
                facts.catalog.components[taken.item].storage is Holding.HOT
                for taken in facts.joining(made.id, at)
                if taken.item in facts.catalog.components
            ):
                yield _Clock(at, True, limit.minutes)
            if at == 0 or (
                (before := made.route[at - 1]).temperature_c is not None
                and (before.temperature_c <= cold)
            ):
                break
            if is_hot(facts, made, at - 1):
                held = before.hold is Holding.HOT
                yield _Clock(at if held else at - 1, held, limit.minutes)
            if _is_heated(facts, made, at - 1):
                break


def is_hot(facts: Facts, made: Component, step: int) -> bool:
    """Whether food comes hot out of a step."""
    operation, reached = facts.operation(made.id, step), made.route[step].temperature_c
    cooled = reached is not None and reached <= (COOLING[0].to_f - 32) / 1.8 + _ROUNDING
    return not cooled and (operation.cooks_through or not _HEAT.isdisjoint(operation.cautions))


def _is_heated(facts: Facts, made: Component, step: int) -> bool:
    """Hot, and by more than a hot pan in somebody's hands."""
    reached = made.route[step].temperature_c
    return is_hot(facts, made, step) and (
        facts.operation(made.id, step).cooks_through
        or facts.unattended(made.id, step) > 0
        or (reached is not None and reached >= HOT_HOLDING_C)
    )


def _sources(lots: tuple[Lot, ...], lot: Lot, step: int) -> list[Lot]:
    """Lots of an earlier step of the same route that the food comes from; itself at its own."""
    here = [lot]
    while here and here[0].step > step:
        earlier: dict[int, Lot] = {}
        for one in here:
            own = {share.component for share in one.shares}
            for index, _ in one.upstream:
                source = lots[index]
                if source.step == one.step - 1 and own & {s.component for s in source.shares}:
                    earlier[index] = source
        here = list(earlier.values())
    return here


def _slowest(problem: Problem, lot: Lot) -> int:
    return max(problem.tasks[_work(lot)].minutes.values(), default=0)


def _work(lot: Lot) -> int:
    return next(item.task for item in lot.tasks if item.part is Part.WORK)


def _last(lot: Lot) -> int:
    return next((item.task for item in lot.tasks if item.part is Part.FINISH), _work(lot))
