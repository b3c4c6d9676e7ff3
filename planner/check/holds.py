"""Stations and equipment: are the units there, named, and never in two hands at once."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planner.check.violation import Rule, Violation
from planner.clock import clock
from planner.schedule.problem import Problem
from planner.schedule.timetable import Assignment


@dataclass(frozen=True, slots=True)
class _Stay:
    """A hold in this timetable: [begin, end) on a resource, and the task that opens it."""

    hold: int
    resource: int
    begin: int
    end: int
    units: int
    opener: str


def check_holds(problem: Problem, done: Mapping[int, Assignment]) -> Iterator[Violation]:
    """Yield what is wrong with resources; ``done`` maps a task to its assignment."""
    stays: dict[int, list[_Stay]] = defaultdict(list)
    for index, hold in enumerate(problem.holds):
        first, last = done.get(hold.first), done.get(hold.last)
        opener, closer = problem.tasks[hold.first].id, problem.tasks[hold.last].id
        name = problem.resources[hold.resource].id
        if first is None:
            continue
        if last is None:
            yield Violation(
                Rule.HOLD, opener, f"{opener} takes {name}, but {closer} that frees it is not done"
            )
            continue
        begin, end = first.start - first.lead.total, last.end + hold.tail
        if end < begin:
            yield Violation(Rule.HOLD, opener, f"{closer} frees {name} before {opener} takes it")
            continue
        stays[hold.resource].append(_Stay(index, hold.resource, begin, end, hold.units, opener))
    for resource, held in sorted(stays.items()):
        if problem.resources[resource].contact:
            yield from _check_units(problem, resource, held, done)
        else:
            yield from _check_capacity(problem, resource, held)
    yield from _check_names(problem, done)


def _check_names(problem: Problem, done: Mapping[int, Assignment]) -> Iterator[Violation]:
    """Each contact hold that a task opens has exactly one unit, and nothing else is named."""
    opens: dict[int, set[int]] = defaultdict(set)
    for index, hold in enumerate(problem.holds):
        if problem.resources[hold.resource].contact:
            opens[hold.first].add(index)
    for a in done.values():
        task = problem.tasks[a.task].id
        named = [index for index, _ in a.units]
        for index in sorted(opens[a.task] - set(named)):
            name = problem.resources[problem.holds[index].resource].id
            yield Violation(Rule.UNIT, task, f"{task} does not say which {name} it uses")
        for index in sorted(set(named)):
            if index not in opens[a.task]:
                yield Violation(
                    Rule.UNIT, task, f"{task} names a unit for hold {index}, which it does not open"
                )
            elif named.count(index) > 1:
                name = problem.resources[problem.holds[index].resource].id
                yield Violation(Rule.UNIT, task, f"{task} names more than one unit of {name}")


def _check_units(
    problem: Problem, resource: int, held: list[_Stay], done: Mapping[int, Assignment]
) -> Iterator[Violation]:
    what = problem.resources[resource]
    by_unit: dict[int, list[_Stay]] = defaultdict(list)
    for stay in held:
        for hold, unit in done[problem.holds[stay.hold].first].units:
            if hold != stay.hold:
                continue
            if not 0 <= unit < what.capacity:
                yield Violation(
                    Rule.UNIT,
                    stay.opener,
                    f"{stay.opener} uses {what.id} {unit + 1}, but there are {what.capacity}",
                )
            by_unit[unit].append(stay)
    for unit, stays in sorted(by_unit.items()):
        stays.sort(key=lambda stay: (stay.begin, stay.end))
        longest = stays[0]
        for stay in stays[1:]:
            if stay.begin < longest.end:
                yield Violation(
                    Rule.SHARED_UNIT,
                    what.id,
                    f"{stay.opener} takes {what.id} {unit + 1} at {clock(stay.begin)}, "
                    f"while {longest.opener} has it until {clock(longest.end)}",
                )
            longest = max(longest, stay, key=lambda each: each.end)


def _check_capacity(problem: Problem, resource: int, held: list[_Stay]) -> Iterator[Violation]:
    """Report the fullest moment of a resource that is over its capacity."""
    what = problem.resources[resource]
    changes = sorted(
        [(stay.begin, stay.units) for stay in held] + [(stay.end, -stay.units) for stay in held]
    )
    used = most = 0
    when = problem.start
    for moment, units in changes:
        used += units
        if used > most:
            most, when = used, moment
    if most > what.capacity:
        users = ", ".join(stay.opener for stay in held if stay.begin <= when < stay.end)
        yield Violation(
            Rule.CAPACITY,
            what.id,
            f"{most} of {what.id} are in use at {clock(when)} by {users}; "
            f"there are {what.capacity}",
        )
