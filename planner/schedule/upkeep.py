"""Cleans by the clock in the model of the whole problem: since when each hold's unit is in use.

A part of a plan is solved without them: there the cleans stay that it has.
"""

from ortools.sat.python import cp_model

from planner.schedule.cleans import runs_on_units
from planner.schedule.variables import Linear, Upkeep, Variables


def is_timed(out: Variables) -> bool:
    """Whether the model decides on cleans by the clock."""
    return out.tables.problem.changeovers.clean_every is not None and out.is_whole()


def add_upkeep(out: Variables, holds: list[int]) -> None:
    """Let free holds be cleaned for, each at the cost of a clean in the lead of its first task."""
    if not is_timed(out):
        return
    now = {
        hold: run.begun
        for runs in runs_on_units(out.tables, out.incumbent.timetable)
        for run in runs
        for hold in run.holds
    }
    for hold in holds:
        _add(out, hold, now.get(hold, out.tables.problem.start))


def _add(out: Variables, hold: int, now: int) -> None:
    problem = out.tables.problem
    first = problem.holds[hold].first
    cleaned = out.model.new_bool_var(f"cleaned{hold}")
    out.hint(cleaned, int(hold in out.incumbent.cleaned - out.incumbent.dirty))
    out.tasks[first].lead_parts.append(problem.changeovers.clean * cleaned)
    earliest = min([problem.start, *(one.since for one in problem.holds if one.since is not None)])
    begun = out.model.new_int_var(earliest - problem.horizon, problem.horizon, f"begun{hold}")
    out.hint(begun, now)
    out.upkeep[hold] = Upkeep(cleaned, begun)


def add_use(
    out: Variables,
    literal: cp_model.IntVar,
    before: int | None,
    hold: int,
    end: Linear,
    *,
    dirty: bool,
) -> None:
    """Where ``literal``, ``hold`` comes right after ``before`` on a unit; None: it is the first.

    It begins a run if it is the first or the unit is cleaned for it; else it is in the run of the
    one before and ends in time for that.
    """
    problem, model = out.tables.problem, out.model
    every = problem.changeovers.clean_every
    if every is None:
        return
    own = out.upkeep[hold]
    begin = out.begin_of(hold)
    if before is None or dirty:
        model.add(own.begun <= begin).only_enforce_if(literal)
        since = problem.holds[hold].since
        if since is not None:
            model.add(own.begun <= since).only_enforce_if(literal)
        return
    model.add(own.begun <= begin).only_enforce_if(literal, own.cleaned)
    model.add(own.begun <= out.upkeep[before].begun).only_enforce_if(literal, ~own.cleaned)
    model.add(end <= own.begun + every).only_enforce_if(literal, ~own.cleaned)
