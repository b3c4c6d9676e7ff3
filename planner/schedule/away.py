"""Stretches in which a cook of the model does no work: blocked ones, and rests that may move."""

from collections.abc import Iterable, Sequence

from ortools.sat.python import cp_model

from planner.schedule.rests import Slot
from planner.schedule.variables import Linear, TaskVars, Variables


def add_rests(
    out: Variables, worker: int, frozen: Iterable[int], free: Sequence[TaskVars]
) -> list[cp_model.IntervalVar]:
    """Place the rests of a cook; return the intervals that no work on the line may overlap.

    A rest lies either clear of all work, or wholly within one task that is put down over it: then
    it has no interval of its own, as nothing else can be there. One within a task that stays where
    it is stays as well.
    """
    model, person = out.model, out.tables.problem.workers[worker]
    held = frozenset[int]().union(*(out.incumbent.spanned(task) for task in frozen))
    walls: list[Slot] = list(person.blocked)
    intervals: list[cp_model.IntervalVar] = []
    whole: list[cp_model.IntervalVar] = []
    paused = False
    for number, rest in enumerate(person.rests):
        now = out.incumbent.rests[worker][number][0]
        start: Linear = now
        if rest.movable and number not in held:
            start = model.new_int_var(rest.earliest, rest.latest, f"rest{worker}_{number}")
            out.hint(start, now)
        out.rests[worker, number] = start
        name = f"resting{worker}_{number}"
        over = [(s, s.over[worker, number]) for s in free if (worker, number) in s.over]
        if number in held:
            whole.append(model.new_fixed_size_interval_var(start, rest.minutes, name))
            for _, literal in over:
                model.add(literal == 0)
        elif over:
            paused = True
            whole.append(model.new_fixed_size_interval_var(start, rest.minutes, name))
            intervals.append(_unless_paused(out, start, rest.minutes, over, name))
        elif rest.movable:
            whole.append(model.new_fixed_size_interval_var(start, rest.minutes, name))
            intervals.append(whole[-1])
        else:
            walls.append((now, now + rest.minutes))
    if paused and len(whole) > 1:
        model.add_no_overlap(whole)  # two rests within one task
    for begin, end in _merged(walls):
        name = f"away{worker}_{begin}"
        intervals.append(model.new_fixed_size_interval_var(begin, end - begin, name))
    return intervals


def _unless_paused(
    out: Variables,
    start: Linear,
    minutes: int,
    over: Sequence[tuple[TaskVars, cp_model.IntVar]],
    name: str,
) -> cp_model.IntervalVar:
    """The interval of a rest, absent where a task is put down over it."""
    model = out.model
    clear = model.new_bool_var(f"clear_{name}")
    out.hint(clear, int(not any(_is_over(out, shown, literal) for shown, literal in over)))
    model.add(clear + sum(literal for _, literal in over) == 1)
    for shown, literal in over:
        model.add(shown.start + 1 <= start).only_enforce_if(literal)
        model.add(start + minutes + 1 <= shown.end).only_enforce_if(literal)
    return model.new_optional_fixed_size_interval_var(start, minutes, clear, name)


def _is_over(out: Variables, shown: TaskVars, literal: cp_model.IntVar) -> bool:
    """Whether the incumbent puts the task down over the rest that a literal is for."""
    item = out.incumbent.by_task.get(shown.task)
    return item is not None and any(
        shown.over.get((item.worker, number)) is literal
        for number in out.incumbent.spanned(shown.task)
    )


def _merged(walls: Iterable[Slot]) -> list[Slot]:
    """Stretches joined where they overlap, as none of them can make way."""
    found: list[Slot] = []
    for begin, end in sorted(walls):
        if found and begin < found[-1][1]:
            found[-1] = found[-1][0], max(found[-1][1], end)
        else:
            found.append((begin, end))
    return found
