"""Decision variables of the model: start, lead and cook of each free task; the rest are constants.

A *free* job may be moved, given to another cook or dropped; every other job stays where the
incumbent has it. With all jobs free the model is the whole problem.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from planner.schedule.assemble import Incumbent
from planner.schedule.tables import Tables

Linear = cp_model.LinearExpr | int


@dataclass(slots=True)
class TaskVars:
    """A task in the model; ``does`` maps worker to literal (empty for a frozen task)."""

    task: int
    free: bool
    start: Linear
    end: Linear
    busy: Linear
    """Where the lead starts."""
    lead: Linear
    does: dict[int, cp_model.IntVar] = field(default_factory=dict)
    lead_parts: list[Linear] = field(default_factory=list)
    """What the lead is the sum of, filled in by the sequences."""


@dataclass(slots=True)
class Variables:
    """All variables, and the presence literal of each free job."""

    model: cp_model.CpModel
    tables: Tables
    incumbent: Incumbent
    free: frozenset[int]
    workers: frozenset[int]
    tasks: dict[int, TaskVars]
    present: dict[int, cp_model.IntVar | bool]
    units: dict[int, dict[int, cp_model.IntVar]] = field(default_factory=dict)
    """Per free hold on a contact resource: unit -> literal."""

    def done(self, job: int) -> cp_model.IntVar | bool:
        """Whether a job is made: a literal if it is free, else what the incumbent says."""
        return self.present[job] if job in self.free else job in self.incumbent.done

    def free_tasks(self) -> list[TaskVars]:
        """The tasks that may move, by index."""
        return [v for _, v in sorted(self.tasks.items()) if v.free]


def add_variables(
    model: cp_model.CpModel,
    tables: Tables,
    incumbent: Incumbent,
    free: Iterable[int],
    workers: Iterable[int],
) -> Variables:
    """Create the variables; ``workers`` are the cooks free tasks may go to."""
    freed = frozenset(free) - tables.impossible
    crew = frozenset(workers)
    problem = tables.problem
    keep_all = not _may_drop(tables, incumbent)
    out = Variables(model, tables, incumbent, freed, crew, {}, {})
    for job in sorted(freed):
        out.present[job] = True if keep_all else model.new_bool_var(f"made{job}")
        for task in problem.jobs[job].tasks:
            out.tasks[task] = _free_task(out, task)
    for worker in sorted(crew):
        for task in incumbent.lines.get(worker, ()):
            if problem.tasks[task].lot not in freed:
                out.tasks[task] = _frozen_task(out, task)
    return out


def _may_drop(tables: Tables, incumbent: Incumbent) -> bool:
    """Whether leaving a job out can ever pay: not while every job that can be made is made."""
    return len(incumbent.done) < len(tables.problem.jobs) - len(tables.impossible)


def _free_task(out: Variables, index: int) -> TaskVars:
    tables, model = out.tables, out.model
    task = tables.problem.tasks[index]
    present = out.present[task.lot]
    current = out.incumbent.by_task.get(index)
    crew = [
        worker
        for worker in task.minutes
        if worker in out.workers or (current is not None and current.worker == worker)
    ]
    does = {worker: model.new_bool_var(f"does{index}_{worker}") for worker in crew}
    model.add(sum(does.values()) == present)
    low, high = tables.earliest[index], tables.latest[index]
    longest = max(tables.leads[row][task.family].total for row in range(len(tables.leads)))
    longest += tables.problem.changeovers.clean * sum(
        tables.contact(hold) for hold in tables.opens[index]
    )
    start = model.new_int_var(low, max(low, high - tables.least[index]), f"start{index}")
    end = model.new_int_var(low, max(low, high), f"end{index}")
    model.add(end == start + sum(task.minutes[w] * literal for w, literal in does.items()))
    if task.earliest_end is not None:
        bound = model.add(end >= task.earliest_end)
        if present is not True:
            bound.only_enforce_if(present)
    if longest == 0:
        return TaskVars(index, True, start, end, start, 0, does)
    lead = model.new_int_var(0, longest, f"lead{index}")
    busy = model.new_int_var(low - longest, max(low, high), f"busy{index}")
    model.add(busy + lead == start)
    return TaskVars(index, True, start, end, busy, lead, does)


def _frozen_task(out: Variables, index: int) -> TaskVars:
    """A task that stays; its lead may shrink when something better comes before it, never grow."""
    item = out.incumbent.by_task[index]
    total = item.lead.total
    if total == 0:
        return TaskVars(index, False, item.start, item.end, item.start, 0)
    lead = out.model.new_int_var(0, total, f"lead{index}")
    shown = TaskVars(index, False, item.start, item.end, item.start - lead, lead)
    shown.lead_parts.append(item.lead.clean)
    return shown
