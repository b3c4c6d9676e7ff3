"""A morning changed in one thing, to be planned anew."""

from dataclasses import dataclass, field

from planner.schedule.problem import Problem
from planner.schedule.timetable import Timetable
from planner.troubles.plated import Plated


@dataclass(frozen=True, slots=True)
class Change:
    """A changed problem, and a plan to begin from.

    The plan has nothing of work that is done no more; where it does not hold in the changed
    problem, it is no start as it stands.
    """

    text: str
    problem: Problem
    start: Timetable
    plated: Plated = field(default_factory=Plated)
    """What no schedule can change, as the change leaves it."""
