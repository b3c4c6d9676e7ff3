"""What a peer gives back."""

from dataclasses import dataclass

from planner.schedule.timetable import Bound, Timetable


@dataclass(frozen=True, slots=True)
class Outcome:
    """A plan, or None with a note why there is none.

    ``first`` are the seconds until there was a plan at all, None where that is not told; ``bounds``
    are those proven, stated for this plan.
    """

    timetable: Timetable | None
    first: float | None
    status: str
    bounds: tuple[Bound, ...] = ()
    note: str = ""
