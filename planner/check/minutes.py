"""Whether minutes follow quantities: book minutes the rate, planned minutes book and pace."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterator

from planner.check.facts import Facts
from planner.check.violation import Rule, Violation
from planner.kitchen.work import Cook
from planner.lots.types import Lot, LotTask, Part
from planner.plan import Plan

_EXACT = 1e-6
_ROUNDING = 1.0
"""Minutes that a stage's whole minutes may lie below its book minutes."""


def check_minutes(facts: Facts, plan: Plan) -> Iterator[Violation]:
    """Yield every task whose minutes are not those of its quantity, its cook and its stage."""
    stages: dict[tuple[object, ...], list[Lot]] = defaultdict(list)
    for lot in plan.workload.lots:
        yield from _check_book(facts, lot)
        stages[lot.operation, facts.stage(lot.component, lot.step)].append(lot)
    cooks = [facts.catalog.cooks[cook] for cook in plan.workload.cooks]
    for lots in stages.values():
        yield from _check_cooks(facts, plan, cooks, lots)
        for index, cook in enumerate(cooks):
            yield from _check_stage(facts, plan, lots, index, cook)


def _work(lot: Lot) -> LotTask:
    return next(item for item in lot.tasks if item.part is Part.WORK)


def _check_book(facts: Facts, lot: Lot) -> Iterator[Violation]:
    operation = facts.operation(lot.component, lot.step)
    expected = {
        Part.WORK: facts.book_minutes(lot.component, lot.step, lot.grams_in),
        Part.CHECK: max(1.0, operation.check_minutes),
        Part.FINISH: float(operation.finish_minutes),
    }
    for item in lot.tasks:
        if abs(item.book_minutes - expected[item.part]) > _EXACT * max(1.0, expected[item.part]):
            yield Violation(
                Rule.MINUTES,
                lot.id,
                f"{lot.id}, {item.part}: {item.book_minutes:.2f} book minutes, but the rate on "
                f"{lot.grams_in:.0f} g gives {expected[item.part]:.2f}",
            )


def _pace(facts: Facts, date: dt.date, lot: Lot, cook: Cook) -> float | None:
    """The cook's pace at a lot's operation, or None without the skill or the station.

    Together with a trainee who is beside them all day and may be at that station.
    """
    operation = facts.operation(lot.component, lot.step)
    if cook.stations is not None and operation.station not in cook.stations:
        return None
    alone = next((skill.pace for skill in cook.skills if skill.skill == operation.skill), None)
    for trainee in facts.kitchen.cooks:
        if (
            alone is not None
            and trainee.learns_from == cook.id
            and (trainee.stations is None or operation.station in trainee.stations)
            and _all_day(date, trainee, cook)
        ):
            return alone * trainee.pair_pace
    return alone


def _all_day(date: dt.date, trainee: Cook, cook: Cook) -> bool:
    """Whether the trainee comes no later and leaves no sooner than the cook."""
    theirs, hers = (
        [shift for shift in one.shifts if shift.date == date]
        or [shift for shift in one.shifts if shift.date is None]
        for one in (trainee, cook)
    )
    # Clock times are written so that their order is that of the letters.
    return bool(theirs and hers) and (
        theirs[0].start <= hers[0].start and theirs[0].end >= hers[0].end
    )


def _check_cooks(
    facts: Facts, plan: Plan, cooks: list[Cook], lots: list[Lot]
) -> Iterator[Violation]:
    for lot in lots:
        for item in lot.tasks:
            minutes = plan.workload.problem.tasks[item.task].minutes
            for index, cook in enumerate(cooks):
                pace = _pace(facts, plan.date, lot, cook)
                if index in minutes and pace is None:
                    yield Violation(
                        Rule.ABLE,
                        lot.id,
                        f"{cook.id} may do {lot.id}, {item.part}, without the skill or the station",
                    )
                if minutes.get(index, 1) < 1:
                    yield Violation(
                        Rule.MINUTES, lot.id, f"{lot.id}, {item.part}: under a minute for {cook.id}"
                    )
                if item.part is not Part.WORK and pace is not None and index in minutes:
                    needed = item.book_minutes / pace
                    if not needed - _EXACT <= minutes[index] <= needed + _ROUNDING:
                        yield Violation(
                            Rule.MINUTES,
                            lot.id,
                            f"{lot.id}, {item.part}: {minutes[index]} min for {cook.id}, whose "
                            f"pace asks for {needed:.2f}",
                        )


def _check_stage(
    facts: Facts, plan: Plan, lots: list[Lot], index: int, cook: Cook
) -> Iterator[Violation]:
    """One cook's minutes for all lots of a stage together, then for each of them.

    A stage is rounded once, then shared out over its lots: a lot of less than a minute still takes
    one, which it gets from the others.
    """
    pace = _pace(facts, plan.date, lots[0], cook)
    tasks = plan.workload.problem.tasks
    own = [lot for lot in lots if index in tasks[_work(lot).task].minutes]
    if pace is None or not own:
        return
    needed = [_work(lot).book_minutes / pace for lot in own]
    planned = [tasks[_work(lot).task].minutes[index] for lot in own]
    if sum(planned) < sum(needed) - _ROUNDING:
        yield Violation(
            Rule.MINUTES,
            own[0].id,
            f"{own[0].operation} of {own[0].food}: {sum(planned)} min in {len(own)} lots for "
            f"{cook.id}, whose pace asks for {sum(needed):.2f}",
        )
    tiny = sum(each < 1 for each in needed)
    for lot, minutes, least in zip(own, planned, needed, strict=True):
        if not least - _ROUNDING - tiny <= minutes <= max(1.0, least) + 2 * _ROUNDING:
            yield Violation(
                Rule.MINUTES,
                lot.id,
                f"{lot.id}: {minutes} min for {cook.id}, whose pace asks for {least:.2f}",
            )
