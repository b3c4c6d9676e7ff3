"""Surfaces that are cleaned because they have been in use for so long, not for what was on them."""

from itertools import pairwise

from planner.schedule.assemble import incumbent_of
from planner.schedule.cleans import runs_on_units
from planner.schedule.problem import Problem
from planner.schedule.tables import tables_of
from planner.schedule.timetable import Timetable


def cleaned_by_clock(problem: Problem, timetable: Timetable) -> dict[int, int]:
    """Per hold that a surface is cleaned for by the clock alone: since when it was in use."""
    if problem.changeovers.clean_every is None:
        return {}
    tables = tables_of(problem)
    dirty = incumbent_of(tables, timetable).dirty
    return {
        after.holds[0]: before.begun
        for runs in runs_on_units(tables, timetable)
        for before, after in pairwise(runs)
        if after.holds[0] not in dirty
    }
