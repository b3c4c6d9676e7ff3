"""Bounds of linear programs are true of any prices, not only of a solver's good ones."""

import random

import pytest

from planner.schedule.effort import Effort
from planner.schedule.linear import Program, bound_of, least_value

EFFORT = Effort(seconds=5.0, deterministic=5.0)


def shop() -> Program:
    """Least 2 x + 3 y with x + y >= 4 (as -x - y <= -4), x - y == 1, both up to 10: 2.5, 1.5."""
    program = Program()
    x, y = program.add(0, 10, 2), program.add(0, 10, 3)
    program.row([(x, -1.0), (y, -1.0)], most=-4)
    program.row([(x, 1.0), (y, -1.0)], equal=1)
    return program


def test_the_least_value_is_rounded_up() -> None:
    """It is 9.5, and what is bounded is a whole number."""
    assert least_value(shop(), EFFORT) == 10


def test_any_prices_give_a_bound() -> None:
    """Ones that count a limit that is not there as well."""
    rng = random.Random(3)  # noqa: S311 - a draw, not a secret
    for _ in range(500):
        prices = [rng.uniform(-5, 5), rng.uniform(-5, 5)]
        assert bound_of(shop(), prices) <= 9.5 + 1e-9


def test_the_best_prices_give_the_least_value() -> None:
    assert bound_of(shop(), [-2.5, -0.5]) == pytest.approx(9.5)


def test_a_variable_at_its_limit_is_paid_for() -> None:
    program = Program()
    x, y = program.add(0, 2, 1), program.add(0, 10, 4)
    program.row([(x, -1.0), (y, -1.0)], most=-5)
    assert least_value(program, EFFORT) == 2 + 12
