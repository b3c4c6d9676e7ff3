"""Breaks: when they are, whether they may be then, and what is worked on around them."""

from collections.abc import Iterable, Iterator

from planner.check.violation import Rule, Violation
from planner.clock import clock
from planner.schedule.problem import Problem
from planner.schedule.timetable import Assignment, Timetable

Breaks = tuple[tuple[tuple[int, int], ...], ...]
"""Per cook, (start, end) of each break."""


def breaks_of(problem: Problem, timetable: Timetable) -> Breaks:
    """Return when every cook's breaks are; what is not stated is as early as it may be."""
    found = []
    for number, cook in enumerate(problem.workers):
        stated = timetable.rests[number] if number < len(timetable.rests) else ()
        starts = [*stated, *(rest.earliest for rest in cook.rests[len(stated) :])]
        found.append(
            tuple((at, at + rest.minutes) for at, rest in zip(starts, cook.rests, strict=False))
        )
    return tuple(found)


def pauses_in(problem: Problem, breaks: Breaks, done: Assignment) -> int:
    """Minutes of breaks that a task is put down over."""
    if not problem.tasks[done.task].pausable:
        return 0
    return sum(to - at for at, to in breaks[done.worker] if done.start < at and to < done.end)


def check_rests(
    problem: Problem, timetable: Timetable, breaks: Breaks, done: Iterable[Assignment]
) -> Iterator[Violation]:
    """Yield what is wrong with the breaks, and with work in them."""
    if timetable.rests and len(timetable.rests) != len(problem.workers):
        words = f"breaks of {len(timetable.rests)} cooks are stated, not {len(problem.workers)}"
        yield Violation(Rule.REST, "rests", words)
    for number, cook in enumerate(problem.workers):
        stated = timetable.rests[number] if number < len(timetable.rests) else ()
        if stated and len(stated) != len(cook.rests):
            words = f"{cook.id} has {len(cook.rests)} breaks, not {len(stated)}"
            yield Violation(Rule.REST, cook.id, words)
        yield from _placed(problem, number, breaks)
    for a in done:
        yield from _worked_through(problem, breaks, a)


def _placed(problem: Problem, number: int, breaks: Breaks) -> Iterator[Violation]:
    """Whether a cook's breaks are in their windows; one that moves must find a place of its own."""
    cook = problem.workers[number]
    own = breaks[number]
    for place, ((at, to), rest) in enumerate(zip(own, cook.rests, strict=True)):
        words = f"{cook.id} has a break {clock(at)} to {clock(to)}"
        if not rest.earliest <= at <= rest.latest:
            window = f"{clock(rest.earliest)} to {clock(rest.latest)}"
            yield Violation(Rule.REST, cook.id, f"{words}, but it must start within {window}")
        if rest.earliest == rest.latest:
            continue
        for start, end in [*cook.blocked, *own[:place], *own[place + 1 :]]:
            if at < end and start < to:
                away = f"{clock(start)} to {clock(end)}"
                yield Violation(Rule.REST, cook.id, f"{words}, but is away already {away}")


def _worked_through(problem: Problem, breaks: Breaks, a: Assignment) -> Iterator[Violation]:
    """Whether work or its lead lies in a break; a task that may pause may lie all around one."""
    task, cook, begin = problem.tasks[a.task], problem.workers[a.worker], a.start - a.lead.total
    for at, to in breaks[a.worker]:
        around = task.pausable and a.start < at and to < a.end
        if begin < to and at < a.end and not around:
            yield Violation(
                Rule.REST,
                task.id,
                f"{cook.id} is at {task.id} {clock(begin)} to {clock(a.end)}, but has a break "
                f"{clock(at)} to {clock(to)}",
            )
