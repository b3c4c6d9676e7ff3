"""Whether every surface and tool is cleaned where it must be: after food, and by the clock."""

from collections import defaultdict
from collections.abc import Iterator, Mapping

from planner.check.leads import left_unclean
from planner.check.violation import Rule, Violation
from planner.clock import clock
from planner.schedule.problem import Problem
from planner.schedule.timetable import Assignment


def check_cleans(problem: Problem, done: Mapping[int, Assignment]) -> Iterator[Violation]:
    """Yield what is wrong with the cleans; ``done`` maps a task to its assignment.

    A task that names no clean has those that another food asks for.
    """
    unclean = left_unclean(problem, done.values())
    for a in done.values():
        task = problem.tasks[a.task].id
        for hold in sorted(set(a.cleaned) - {hold for hold, _ in a.units}):
            text = f"{task} cleans for hold {hold}, for which it names no unit"
            yield Violation(Rule.CLEAN, task, text)
        for hold, unit in a.units if a.cleaned else ():
            if hold in unclean and hold not in a.cleaned:
                name = problem.resources[problem.holds[hold].resource].id
                before = problem.tasks[unclean[hold][1]].id
                text = f"{name} {unit + 1} is not cleaned for {task} after {before}"
                yield Violation(Rule.CLEAN, task, text)
    if problem.changeovers.clean_every is not None:
        yield from _check_hours(problem, done, frozenset(unclean), problem.changeovers.clean_every)


def _check_hours(
    problem: Problem, done: Mapping[int, Assignment], unclean: frozenset[int], every: int
) -> Iterator[Violation]:
    """Report what a unit is still in use for too long after it was clean."""
    stays: dict[tuple[int, int], list[tuple[int, int, int, bool]]] = defaultdict(list)
    for a in done.values():
        for hold, unit in a.units:
            if not 0 <= hold < len(problem.holds):
                continue
            spec = problem.holds[hold]
            if spec.first == a.task and spec.last in done:
                end = done[spec.last].end + spec.tail
                clean = hold in a.cleaned or (not a.cleaned and hold in unclean)
                begin = a.start - a.lead.total
                stays[spec.resource, unit].append((begin, end, hold, clean))
    for (resource, unit), line in sorted(stays.items()):
        since: int | None = None
        for begin, end, hold, clean in sorted(line):
            if since is None or clean:
                earlier = problem.holds[hold].since
                since = begin if earlier is None else min(earlier, begin)
            elif end > since + every:
                name = problem.resources[resource].id
                task = problem.tasks[problem.holds[hold].first].id
                text = (
                    f"{name} {unit + 1} is in use from {clock(since)} until {clock(end)} "
                    f"without a clean, by {task} last; at most {every} min allowed"
                )
                yield Violation(Rule.CLEAN, task, text)
