"""Stations and equipment: pools with a capacity, and units with a hygiene state of their own."""

from collections import defaultdict

from ortools.sat.python import cp_model

from planner.schedule.sequences import add_unit_order, end_of
from planner.schedule.upkeep import add_upkeep
from planner.schedule.variables import Variables


def add_places(out: Variables) -> None:
    """Keep every resource that a free task uses within its capacity."""
    holds = out.tables.problem.holds
    by_resource: dict[int, list[int]] = defaultdict(list)
    for index, hold in enumerate(holds):
        by_resource[hold.resource].append(index)
    for resource, indexes in sorted(by_resource.items()):
        free = [hold for hold in indexes if _is_free(out, hold)]
        frozen = [hold for hold in indexes if hold not in free and _is_there(out, hold)]
        if free and out.tables.problem.resources[resource].contact:
            _add_units(out, resource, frozen, free)
        elif free:
            _add_pool(out, resource, frozen, free)


def _is_free(out: Variables, hold: int) -> bool:
    return out.tables.problem.tasks[out.tables.problem.holds[hold].first].lot in out.free


def _is_there(out: Variables, hold: int) -> bool:
    return out.tables.problem.holds[hold].first in out.incumbent.by_task


def _interval(out: Variables, hold: int, literal: cp_model.IntVar | bool) -> cp_model.IntervalVar:
    model = out.model
    spec = out.tables.problem.holds[hold]
    begin = out.tasks[spec.first].busy
    end = end_of(out, spec.last) + spec.tail
    size = model.new_int_var(0, out.tables.problem.horizon * 2, f"hold{hold}")
    model.add(size == end - begin)
    first = out.incumbent.by_task.get(spec.first)
    if first is not None:
        known = out.incumbent.by_task[spec.last].end + spec.tail
        out.hint(size, known - first.start + first.lead.total)
    return model.new_optional_interval_var(begin, size, end, literal, f"held{hold}")


def _add_pool(out: Variables, resource: int, frozen: list[int], free: list[int]) -> None:
    model, problem = out.model, out.tables.problem
    capacity = problem.resources[resource].capacity
    if sum(problem.holds[hold].units for hold in [*frozen, *free]) <= capacity:
        return
    if _hands_are_fewer(out, [*frozen, *free], capacity):
        return
    intervals, demands = [], []
    for hold in frozen:
        begin, end = out.stretch(hold)
        intervals.append(model.new_fixed_size_interval_var(begin, end - begin, f"kept{hold}"))
        demands.append(problem.holds[hold].units)
    for hold in free:
        job = problem.tasks[problem.holds[hold].first].lot
        intervals.append(_interval(out, hold, out.present[job]))
        demands.append(problem.holds[hold].units)
    model.add_cumulative(intervals, demands, capacity)


def _hands_are_fewer(out: Variables, holds: list[int], capacity: int) -> bool:
    """Whether a pool is never full because so few cooks work there, each on one thing at a time.

    Holds of one task each last as long as their cook is busy with it; then the pool is free again.
    """
    problem = out.tables.problem
    specs = [problem.holds[hold] for hold in holds]
    if any(spec.first != spec.last or spec.tail for spec in specs):
        return False
    most: dict[int, int] = defaultdict(int)
    for spec in specs:
        for worker in problem.tasks[spec.first].minutes:
            most[worker] = max(most[worker], spec.units)
    return sum(most.values()) <= capacity


def _add_units(out: Variables, resource: int, frozen: list[int], free: list[int]) -> None:
    """One unit per hold, no overlap on a unit, cleans where the order demands them."""
    model, problem = out.model, out.tables.problem
    capacity = problem.resources[resource].capacity
    kept: dict[int, list[int]] = defaultdict(list)
    for hold in frozen:
        kept[out.incumbent.unit_of[hold]].append(hold)
    on: dict[int, dict[int, cp_model.IntVar]] = {}
    for hold in free:
        job = problem.tasks[problem.holds[hold].first].lot
        on[hold] = {unit: model.new_bool_var(f"on{hold}_{unit}") for unit in range(capacity)}
        model.add(sum(on[hold].values()) == out.present[job])
        for unit, literal in on[hold].items():
            out.hint(literal, int(out.incumbent.unit_of.get(hold) == unit))
    out.units.update(on)
    add_upkeep(out, free)
    for unit in range(capacity):
        line = sorted(kept[unit], key=lambda hold: out.stretch(hold)[0])
        intervals = []
        for hold in line:
            begin, end = out.stretch(hold)
            intervals.append(model.new_fixed_size_interval_var(begin, end - begin, f"k{hold}"))
        intervals += [_interval(out, hold, on[hold][unit]) for hold in free]
        model.add_no_overlap(intervals)
        add_unit_order(out, (resource, unit), line, [(hold, on[hold][unit]) for hold in free])
