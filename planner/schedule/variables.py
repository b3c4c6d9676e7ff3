"""Decision variables of the model: start, lead and cook of each free task; the rest are constants.

A *free* job may be moved, given to another cook or dropped; every other job stays where the
incumbent has it. With all jobs free the model is the whole problem.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from planner.schedule.assemble import Incumbent
from planner.schedule.score import short_portions
from planner.schedule.slack import room_before
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
    over: dict[tuple[int, int], cp_model.IntVar] = field(default_factory=dict)
    """Per worker and rest that it may be put down over: whether it is."""
    lead_parts: list[Linear] = field(default_factory=list)
    """What the lead is the sum of, filled in by the sequences."""


@dataclass(slots=True)
class Upkeep:
    """Whether a hold's unit is cleaned for it by the clock, and since when it is in use then."""

    cleaned: cp_model.IntVar
    begun: cp_model.IntVar


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

    upkeep: dict[int, Upkeep] = field(default_factory=dict)
    """Per free hold on a contact resource of the whole problem, where the clock asks for cleans."""

    windows: dict[int, tuple[int, int]] = field(default_factory=dict)
    """Per free task: earliest start and latest end."""

    room: dict[int, int] = field(default_factory=dict)
    """Per frozen task: minutes its lead may grow by."""

    rests: dict[tuple[int, int], Linear] = field(default_factory=dict)
    """Start of each rest of the cooks in the model, by worker and rest."""

    def stretch(self, hold: int) -> tuple[int, int]:
        """Where a frozen hold may be, at its longest; a lead that shrinks only frees room."""
        spec = self.tables.problem.holds[hold]
        first = self.incumbent.by_task[spec.first]
        begin = first.start - first.lead.total - self.room.get(spec.first, 0)
        return begin, self.incumbent.by_task[spec.last].end + spec.tail

    def most_lead(self, task: int) -> int:
        """Longest lead, cleaning apart, that a frozen task may have."""
        lead = self.incumbent.by_task[task].lead
        return lead.total - lead.clean + self.room.get(task, 0)

    def begin_of(self, hold: int) -> Linear:
        """Where a hold begins: variable if it is free, else where the incumbent has it."""
        first = self.tables.problem.holds[hold].first
        if self.tables.problem.tasks[first].lot in self.free:
            return self.tasks[first].busy
        return self.stretch(hold)[0]

    def hint(self, variable: Linear, value: int) -> None:
        """Tell the solver what ``variable`` is in the incumbent.

        Only with every variable hinted does the solver begin at the incumbent instead of looking
        for a first solution of its own.
        """
        if isinstance(variable, cp_model.IntVar) and variable.index >= 0:
            self.model.add_hint(variable, value)

    def is_whole(self) -> bool:
        """Whether nothing that can be made is left as it is."""
        return len(self.free | self.tables.impossible) == len(self.tables.problem.jobs)

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
    reach: int | None = None,
) -> Variables:
    """Create the variables; ``workers`` are the cooks free tasks may go to.

    ``reach`` keeps free tasks within so many minutes of where they are now; None: anywhere.
    """
    freed = frozenset(free) - tables.impossible
    crew = frozenset(workers)
    problem = tables.problem
    # With nothing short, leaving out what is wanted can never pay. Where something is short, a job
    # that serves only what is short anyway may be labor for nothing.
    kept = frozenset() if short_portions(tables, set(incumbent.done)) else tables.wanted
    out = Variables(model, tables, incumbent, freed, crew, {}, {})
    out.room = room_before(tables, incumbent, freed)
    for job in sorted(freed):
        out.present[job] = True if job in kept else model.new_bool_var(f"made{job}")
        out.hint(out.present[job], int(job in incumbent.done))
        for task in problem.jobs[job].tasks:
            out.windows[task] = _window(out, task, reach)
            out.tasks[task] = _free_task(out, task)
    for worker in sorted(crew):
        for task in incumbent.lines.get(worker, ()):
            if problem.tasks[task].lot not in freed:
                out.tasks[task] = _frozen_task(out, task)
    return out


def _window(out: Variables, task: int, reach: int | None) -> tuple[int, int]:
    low, high = out.tables.earliest[task], out.tables.latest[task]
    item = out.incumbent.by_task.get(task)
    if reach is None or item is None:
        return low, high
    return max(low, item.start - reach), min(high, item.end + reach)


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
    if present is True and len(crew) == 1:
        does = {crew[0]: model.new_constant(1)}
    else:
        does = {worker: model.new_bool_var(f"does{index}_{worker}") for worker in crew}
        model.add(sum(does.values()) == present)
        for worker, literal in does.items():
            out.hint(literal, int(current is not None and current.worker == worker))
    low, high = out.windows[index]
    kept = _kept_cleans(out, index)
    longest = max(row[task.family] for row in tables.leads) + kept
    longest += tables.problem.changeovers.clean * sum(
        tables.contact(hold) for hold in tables.opens[index]
    )
    shortest = min((task.minutes[w] for w in crew), default=tables.least[index])
    start = model.new_int_var(low, max(low, high - shortest), f"start{index}")
    if task.start_by is not None:
        limit = model.add(start <= task.start_by)
        if present is not True:
            limit.only_enforce_if(present)
    over = _pauses(out, index, does)
    end = _end_of(out, index, start, does, over)
    if task.earliest_end is not None:
        bound = model.add(end >= task.earliest_end)
        if present is not True:
            bound.only_enforce_if(present)
    out.hint(start, low if current is None else current.start)
    out.hint(end, low if current is None else current.end)
    if longest == 0:
        return TaskVars(index, True, start, end, start, 0, does, over)
    lead = model.new_int_var(0, longest, f"lead{index}")
    busy = model.new_int_var(low - longest, max(low, high), f"busy{index}")
    model.add(busy + lead == start)
    total = 0 if current is None else current.lead.total
    out.hint(lead, total)
    out.hint(busy, (low if current is None else current.start) - total)
    return TaskVars(index, True, start, end, busy, lead, does, over, [kept] if kept else [])


def _kept_cleans(out: Variables, index: int) -> int:
    """Minutes of cleans by the clock that a free task keeps, so that a part of a plan has them.

    The whole problem is solved without: its bounds are to hold for every plan.
    """
    problem = out.tables.problem
    if problem.changeovers.clean_every is None or out.is_whole():
        return 0
    by_clock = out.incumbent.cleaned - out.incumbent.dirty
    return problem.changeovers.clean * sum(h in by_clock for h in out.tables.contact_opens[index])


def _pauses(
    out: Variables, index: int, does: dict[int, cp_model.IntVar]
) -> dict[tuple[int, int], cp_model.IntVar]:
    """Literals for the rests that a free task may be put down over."""
    problem = out.tables.problem
    if not problem.tasks[index].pausable:
        return {}
    low, high = out.windows[index]
    item = out.incumbent.by_task.get(index)
    found = {}
    for worker, literal in does.items():
        for number, rest in enumerate(problem.workers[worker].rests):
            if rest.latest > low and rest.earliest + rest.minutes < high:
                over = out.model.new_bool_var(f"over{index}_{worker}_{number}")
                out.model.add_implication(over, literal)
                now = item is not None and item.worker == worker
                out.hint(over, int(now and number in out.incumbent.spanned(index)))
                found[worker, number] = over
    return found


def _end_of(
    out: Variables,
    index: int,
    start: cp_model.IntVar,
    does: dict[int, cp_model.IntVar],
    over: dict[tuple[int, int], cp_model.IntVar],
) -> Linear:
    """End of a free task: a variable only where it takes some longer, or may be left, or pauses."""
    task = out.tables.problem.tasks[index]
    minutes = {task.minutes[worker] for worker in does}
    if out.present[task.lot] is True and len(minutes) == 1 and not over:
        return start + minutes.pop()
    low, high = out.windows[index]
    end = out.model.new_int_var(low, max(low, high), f"end{index}")
    workers = out.tables.problem.workers
    out.model.add(
        end
        == start
        + sum(task.minutes[w] * literal for w, literal in does.items())
        + sum(workers[w].rests[r].minutes * literal for (w, r), literal in over.items())
    )
    return end


def _frozen_task(out: Variables, index: int) -> TaskVars:
    """A task that stays; its lead may change with what comes before it, as far as there is room."""
    item = out.incumbent.by_task[index]
    total = item.lead.total
    most = total + out.room.get(index, 0)
    if most == 0:
        return TaskVars(index, False, item.start, item.end, item.start, 0)
    lead = out.model.new_int_var(0, most, f"lead{index}")
    out.hint(lead, total)
    shown = TaskVars(index, False, item.start, item.end, item.start - lead, lead)
    shown.lead_parts.append(item.lead.clean)
    return shown
