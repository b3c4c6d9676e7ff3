"""Which jobs a relaxation makes, and what the solver proves of it: shared by the bounds."""

import math
from collections import defaultdict

from ortools.sat.python import cp_model

from planner.schedule.effort import Effort
from planner.schedule.tables import Tables
from planner.schedule.variables import Linear


def proven(model: cp_model.CpModel, effort: Effort, most: int) -> int:
    """What the solver proves of the least value, within ``most``."""
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = effort.threads
    solver.parameters.interleave_search = effort.threads > 1
    solver.parameters.random_seed = effort.seed
    solver.parameters.catch_sigint_signal = False
    solver.parameters.max_time_in_seconds = effort.seconds
    solver.parameters.max_deterministic_time = effort.deterministic
    status = solver.solve(model)
    # Without a solution in time its bound holds all the same: that of what is left to look at.
    known = status in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.UNKNOWN)
    found = solver.best_objective_bound if known else 0.0
    return math.ceil(max(0.0, min(found, float(most))) - 1e-6)


def made_and_missing(
    model: cp_model.CpModel, tables: Tables
) -> tuple[list[cp_model.IntVar], Linear]:
    """A literal per job that it is made, with what it needs, and the weighted portions short."""
    problem = tables.problem
    made = [
        model.new_constant(0) if j in tables.impossible else model.new_bool_var(f"made{j}")
        for j in range(len(problem.jobs))
    ]
    parts: dict[int, dict[str, list[Linear]]] = defaultdict(lambda: defaultdict(list))
    most: dict[int, int] = defaultdict(int)
    for index, job in enumerate(problem.jobs):
        for need in job.needs:
            model.add(made[index] <= made[need])
        for serving in job.serves:
            parts[serving.promise][serving.component].append(serving.portions * (1 - made[index]))
            most[serving.promise] += serving.portions
    total: Linear = 0
    for promise, by_component in sorted(parts.items()):
        missing = model.new_int_var(0, most[promise], f"short{promise}")
        for items in by_component.values():
            model.add(missing >= sum(items))
        total += problem.promises[promise].weight * missing
    return made, total
