"""Whether food is out of temperature control no longer than it may be, added up anew."""

from collections.abc import Iterator, Mapping

from planner.check.violation import Rule, Violation
from planner.schedule.problem import Problem
from planner.schedule.timetable import Assignment


def check_exposures(problem: Problem, done: Mapping[int, Assignment]) -> Iterator[Violation]:
    """Yield what is out too long; ``done`` maps a task to its assignment."""
    for index, exposure in enumerate(problem.exposures):
        minutes = _minutes(problem, done, index)
        if minutes is not None and minutes > exposure.limit:
            task = problem.tasks[exposure.last].id
            yield Violation(
                Rule.EXPOSURE,
                task,
                f"at the end of {task} its food has been out of temperature control for {minutes} "
                f"min; at most {exposure.limit} allowed",
            )


def _minutes(problem: Problem, done: Mapping[int, Assignment], index: int) -> int | None:
    """Sum of one exposure, or None where its work is not done."""
    exposure = problem.exposures[index]
    if exposure.first not in done or exposure.last not in done:
        return None
    earlier = exposure.spent
    for other in exposure.after:
        earlier = max(earlier, _minutes(problem, done, other) or 0)
    taken_out = done[exposure.first].start if exposure.since is None else exposure.since
    return earlier + done[exposure.last].end - taken_out
