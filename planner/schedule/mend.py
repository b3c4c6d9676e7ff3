"""Cleans put in where a plan made without regard to the clock lacks them."""

from planner.schedule.assemble import Choice, assemble
from planner.schedule.cleans import overdue
from planner.schedule.removal import refit, state_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable


def mended(tables: Tables, timetable: Timetable) -> Timetable | None:
    """The plan with surfaces cleaned in time, every task where it was; None if there is no room.

    A clean goes before the hold that would end too late, or else before the last one ahead of it
    that has the minutes for it.
    """
    if not overdue(tables, timetable):
        return timetable
    holds = tables.problem.holds
    state = state_of(tables, timetable)
    for run in overdue(tables, timetable):
        for hold in reversed(run[1:]):
            refit(state, holds[hold].first)
    choices = {task: Choice(e.worker, e.start, e.end) for task, e in state.entries.items()}
    found = assemble(tables, choices, state.unit_of, state.rests, state.cleaned())
    return None if overdue(tables, found) else found
