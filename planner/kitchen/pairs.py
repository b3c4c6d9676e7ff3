"""Trainees: who works beside whom on a day, and who is in without the cook they learn from."""

import datetime as dt
from dataclasses import dataclass

from planner.kitchen.base import clock_minutes
from planner.kitchen.document import Kitchen
from planner.kitchen.hours import shift_of
from planner.kitchen.work import Cook, Shift


@dataclass(frozen=True, slots=True)
class Learner:
    """A trainee who is in on a day.

    Attributes
    ----------
    trainee, shift
        Who, and from when to when.
    mentor
        The cook they work beside; None where that one is not in: then they are not planned.
    whole_shift
        Whether they are in as long as the mentor: only then does the pace of the two count.
    """

    trainee: Cook
    shift: Shift
    mentor: Cook | None
    whole_shift: bool


def learners_on(kitchen: Kitchen, date: dt.date) -> tuple[Learner, ...]:
    """Every trainee who has a shift on ``date``, in the order of the file."""
    by_id = {cook.id: cook for cook in kitchen.cooks}
    found = []
    for cook in kitchen.cooks:
        shift = shift_of(cook, date)
        if cook.learns_from is None or shift is None:
            continue
        mentor = by_id[cook.learns_from]
        theirs = shift_of(mentor, date)
        if theirs is None:
            found.append(Learner(cook, shift, None, whole_shift=False))
        else:
            found.append(Learner(cook, shift, mentor, whole_shift=_covers(shift, theirs)))
    return tuple(found)


def _covers(shift: Shift, other: Shift) -> bool:
    return clock_minutes(shift.start) <= clock_minutes(other.start) and clock_minutes(
        shift.end
    ) >= clock_minutes(other.end)
