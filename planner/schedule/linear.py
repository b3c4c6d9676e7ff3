"""Linear programs whose least value is bounded without trusting the solver.

A solver's answer is as true as its tolerances. But any prices of the rows give a bound: with every
variable between two limits, the least of cost minus priced rows is read off variable by variable.
So the solver only finds good prices, and the bound is worked out from them here.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import timedelta

from ortools.glop.parameters_pb2 import GlopParameters  # type: ignore[import-untyped]
from ortools.math_opt.model_pb2 import ModelProto  # type: ignore[import-untyped]
from ortools.math_opt.python import mathopt  # type: ignore[import-untyped]

from planner.schedule.effort import Effort

_SAFE = 1e-5
"""What adding up in floating point may be wrong by, far more than it is."""


@dataclass
class Program:
    """Minimise cost over variables between limits, within rows."""

    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    cost: list[float] = field(default_factory=list)
    rows: list[int] = field(default_factory=list)
    columns: list[int] = field(default_factory=list)
    values: list[float] = field(default_factory=list)
    least: list[float] = field(default_factory=list)
    most: list[float] = field(default_factory=list)

    def add(self, low: float, high: float, cost: float = 0.0) -> int:
        """Add a variable between two finite limits; returns its number."""
        self.low.append(low)
        self.high.append(high)
        self.cost.append(cost)
        return len(self.low) - 1

    def row(
        self,
        parts: Iterable[tuple[int, float]],
        *,
        most: float = math.inf,
        equal: float | None = None,
    ) -> None:
        """Add ``sum <= most``, or ``sum == equal``."""
        number = len(self.most)
        self.least.append(-math.inf if equal is None else equal)
        self.most.append(most if equal is None else equal)
        for column, value in parts:
            self.rows.append(number)
            self.columns.append(column)
            self.values.append(value)


def least_value(program: Program, effort: Effort) -> int:
    """What is certain of the least value, rounded up to a whole number; 0 without prices in time.

    Costs are whole numbers, and so is what is bounded.
    """
    prices = _prices(program, effort)
    if prices is None:
        return 0
    return math.ceil(bound_of(program, prices) - _SAFE)


def bound_of(program: Program, prices: Sequence[float]) -> float:
    """The least of cost minus priced rows, plus what the rows are priced at: true of any prices.

    A row's price counts against ``least`` where it is positive, against ``most`` where negative;
    against a limit that is not there it would prove anything, and is left out.
    """
    used = []
    parts = []
    for price, least, most in zip(prices, program.least, program.most, strict=True):
        limit = least if price > 0 else most
        if price and math.isfinite(limit):
            used.append(price)
            parts.append(price * limit)
        else:
            used.append(0.0)
    reduced = list(program.cost)
    for row, column, value in zip(program.rows, program.columns, program.values, strict=True):
        reduced[column] -= used[row] * value
    for left, low, high in zip(reduced, program.low, program.high, strict=True):
        parts.append(left * (low if left > 0 else high))
    return math.fsum(parts)


def _prices(program: Program, effort: Effort) -> list[float] | None:
    model = mathopt.Model.from_model_proto(_as_message(program))
    parameters = mathopt.SolveParameters(
        time_limit=timedelta(seconds=effort.seconds),
        glop=GlopParameters(max_deterministic_time=effort.deterministic),
    )
    answer = mathopt.solve(model, mathopt.SolverType.GLOP, params=parameters)
    if not answer.has_dual_feasible_solution():
        return None
    dual = answer.dual_values()
    return [dual[row] for row in model.linear_constraints()]


def _as_message(program: Program) -> ModelProto:
    """The program in one piece: adding tens of thousands of values one by one takes seconds."""
    message = ModelProto()
    columns, rows = message.variables, message.linear_constraints
    columns.ids.extend(range(len(program.low)))
    columns.lower_bounds.extend(program.low)
    columns.upper_bounds.extend(program.high)
    columns.integers.extend([False] * len(program.low))
    rows.ids.extend(range(len(program.most)))
    rows.lower_bounds.extend(program.least)
    rows.upper_bounds.extend(program.most)
    for column, cost in enumerate(program.cost):
        if cost:
            message.objective.linear_coefficients.ids.append(column)
            message.objective.linear_coefficients.values.append(cost)
    entries = sorted(zip(program.rows, program.columns, program.values, strict=True))
    message.linear_constraint_matrix.row_ids.extend([row for row, _, _ in entries])
    message.linear_constraint_matrix.column_ids.extend([column for _, column, _ in entries])
    message.linear_constraint_matrix.coefficients.extend([value for _, _, value in entries])
    return message
