"""The objective terms of a model, in strict order, as expressions.

Frozen work is counted as the incumbent has it, so a model's value is the whole plan's score.
"""

from collections import defaultdict
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from planner.schedule.score import short_portions
from planner.schedule.timetable import Term
from planner.schedule.variables import Linear, Variables


@dataclass(frozen=True, slots=True)
class Expressions:
    """One linear expression per term, and the largest value each can take."""

    terms: dict[Term, Linear]
    most: dict[Term, int]


def add_objective(out: Variables) -> Expressions:
    """Build every term's expression."""
    built = {
        Term.SHORT: _short(out),
        Term.TARDINESS: _tardiness(out),
        Term.LABOR: _labor(out),
        Term.FRESHNESS: _freshness(out),
        Term.FINISH: _finish(out),
    }
    return Expressions(
        {term: pair[0] for term, pair in built.items()},
        {term: pair[1] for term, pair in built.items()},
    )


def _short(out: Variables) -> tuple[Linear, int]:
    """Weighted portions short: per promise, those of its shortest component."""
    problem = out.tables.problem
    if all(present is True for present in out.present.values()):
        fixed = short_portions(out.tables, set(out.incumbent.done))
        return fixed, fixed
    parts: dict[int, dict[str, _Part]] = defaultdict(lambda: defaultdict(_Part))
    open_promises: set[int] = set()
    for index, job in enumerate(problem.jobs):
        for serving in job.serves:
            part = parts[serving.promise][serving.component]
            part.portions += serving.portions
            if index not in out.incumbent.done:
                part.now += serving.portions
            if index in out.free:
                open_promises.add(serving.promise)
                part.missing.append(serving.portions * (1 - out.done(index)))
            elif index not in out.incumbent.done:
                part.missing.append(serving.portions)
    total: Linear = 0
    most = 0
    for promise, by_component in sorted(parts.items()):
        weight = problem.promises[promise].weight
        now = max(part.now for part in by_component.values())
        if promise not in open_promises:
            total, most = total + weight * now, most + weight * now
            continue
        bound = max(part.portions for part in by_component.values())
        short = out.model.new_int_var(0, bound, f"short{promise}")
        out.hint(short, now)
        for part in by_component.values():
            out.model.add(short >= sum(part.missing))
        total += weight * short
        most += weight * bound
    return total, most


@dataclass(slots=True)
class _Part:
    """Portions of a promise's component: all, those missing now, and those that may be missing."""

    portions: int = 0
    now: int = 0
    missing: list[Linear] = field(default_factory=list)


def _tardiness(out: Variables) -> tuple[Linear, int]:
    problem, model = out.tables.problem, out.model
    total: Linear = 0
    most = 0
    for index, task in enumerate(problem.tasks):
        if task.due is None:
            continue
        if task.lot not in out.free:
            item = out.incumbent.by_task.get(index)
            fixed = 0 if item is None else task.due_weight * max(0, item.end - task.due)
            total, most = total + fixed, most + fixed
            continue
        bound = max(0, out.windows[index][1] - task.due)
        late = model.new_int_var(0, bound, f"late{index}")
        item = out.incumbent.by_task.get(index)
        out.hint(late, 0 if item is None else max(0, item.end - task.due))
        present = out.present[task.lot]
        limit = model.add(late >= out.tasks[index].end - task.due)
        if present is not True:
            limit.only_enforce_if(present)
        total, most = total + task.due_weight * late, most + task.due_weight * bound
    return total, most


def _labor(out: Variables) -> tuple[Linear, int]:
    """Work, leads and overtime."""
    problem, model = out.tables.problem, out.model
    total: Linear = 0
    most = 0
    ends: dict[int, int] = defaultdict(int)
    for index, item in out.incumbent.by_task.items():
        if problem.tasks[index].lot in out.free:
            continue
        shown = out.tasks.get(index)
        ends[item.worker] = max(ends[item.worker], item.end)
        lead = item.lead.total if shown is None else shown.lead
        worked = problem.tasks[index].minutes[item.worker]
        total += worked + lead
        most += worked + item.lead.total + out.room.get(index, 0)
    overtime: dict[int, cp_model.IntVar] = {}
    for shown in out.free_tasks():
        task = problem.tasks[shown.task]
        total += sum(task.minutes[w] * literal for w, literal in shown.does.items()) + shown.lead
        most += max(task.minutes.values()) + out.tables.problem.horizon
        for worker, literal in shown.does.items():
            person = problem.workers[worker]
            if person.latest_end > person.end and out.windows[shown.task][1] > person.end:
                if worker not in overtime:
                    low = max(0, ends[worker] - person.end)
                    overtime[worker] = model.new_int_var(
                        low, max(low, person.latest_end - person.end), f"overtime{worker}"
                    )
                    line = out.incumbent.lines.get(worker, ())
                    last = out.incumbent.by_task[line[-1]].end if line else 0
                    out.hint(overtime[worker], max(0, last - person.end))
                model.add(overtime[worker] >= shown.end - person.end).only_enforce_if(literal)
    for worker, person in enumerate(problem.workers):
        fixed = max(0, ends[worker] - person.end)
        total += overtime.get(worker, fixed)
        most += max(fixed, person.latest_end - person.end)
    return total, most


def _freshness(out: Variables) -> tuple[Linear, int]:
    problem, model = out.tables.problem, out.model
    total: Linear = 0
    most = 0
    for index, task in enumerate(problem.tasks):
        if task.due is None or not task.fresh_weight:
            continue
        if task.lot not in out.free:
            item = out.incumbent.by_task.get(index)
            fixed = 0 if item is None else task.fresh_weight * max(0, task.due - item.end)
            total, most = total + fixed, most + fixed
            continue
        bound = max(0, task.due - problem.start)
        early = model.new_int_var(0, bound, f"early{index}")
        item = out.incumbent.by_task.get(index)
        out.hint(early, 0 if item is None else max(0, task.due - item.end))
        present = out.present[task.lot]
        limit = model.add(early >= task.due - out.tasks[index].end)
        if present is not True:
            limit.only_enforce_if(present)
        total, most = total + task.fresh_weight * early, most + task.fresh_weight * bound
    return total, most


def _finish(out: Variables) -> tuple[Linear, int]:
    problem, model = out.tables.problem, out.model
    kept = [
        item.end
        for index, item in out.incumbent.by_task.items()
        if problem.tasks[index].lot not in out.free
    ]
    low = max([problem.start, *kept])
    finish = model.new_int_var(low, max(low, problem.horizon), "finish")
    out.hint(finish, max([problem.start, *(item.end for item in out.incumbent.by_task.values())]))
    for shown in out.free_tasks():
        lot = problem.tasks[shown.task].lot
        if any(
            wait.minimum >= 0 and problem.tasks[wait.after].lot == lot
            for wait in out.tables.waits_after[shown.task]
        ):
            continue  # what waits for it ends later
        present = out.present[lot]
        limit = model.add(finish >= shown.end)
        if present is not True:
            limit.only_enforce_if(present)
    return finish - problem.start, problem.horizon - problem.start
