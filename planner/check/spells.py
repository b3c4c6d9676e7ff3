"""Whether nobody works longer without a rest than the kitchen's rules allow."""

from collections.abc import Iterator

from planner.check.rests import breaks_of
from planner.check.violation import Rule, Violation
from planner.clock import clock
from planner.kitchen.document import Kitchen
from planner.plan import Plan


def check_spells(kitchen: Kitchen, plan: Plan) -> Iterator[Violation]:
    """Yield every spell that is too long, from the start of a shift or the last rest that counts.

    The last spell of a day ends with the shift, or with the last work after it.
    """
    problem, timetable = plan.workload.problem, plan.solution.timetable
    for number, breaks in enumerate(breaks_of(problem, timetable)):
        cook = problem.workers[number]
        ends = [a.end for a in timetable.assignments if a.worker == number]
        for rule in kitchen.rules.rest_rules:
            since = cook.start
            counted = sorted((at, to) for at, to in breaks if to - at >= rule.minutes)
            for at, to in [*counted, (max([cook.end, *ends]), 0)]:
                if at - since > rule.after_hours * 60 + 0.5:  # the file has hours, plans minutes
                    yield Violation(
                        Rule.REST,
                        cook.id,
                        f"{cook.id} works {clock(since)} to {clock(at)} without a break of "
                        f"{rule.minutes} min, which is due after {rule.after_hours:g} h",
                    )
                since = to
